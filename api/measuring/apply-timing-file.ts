import { type MatchedTimes, matchTimings, type TimedRepetition } from '../../ingest/timing/match-timings.ts';
import { readTimingFile } from '../../ingest/timing/read-timing-file.ts';
import type { Speech } from '../../shared/messages/say.ts';
import { because } from '../../shared/reason.ts';
import type { RepetitionLine } from '../../shared/schemas/repetition.ts';
import type { MatchedTiming, TimingAnswer } from '../../shared/schemas/timing.ts';
import type { TimingMethod } from '../../shared/words.ts';
import { changeRepetition, listRepetitions } from '../store/repetitions.ts';
import type { Store } from '../store/store.ts';

/** Lengths that differ by less are the same course, m. */
const SAME_LENGTH_M = 0.02;

export interface TimingFileOptions {
  file_name: string;
  /** How the times were taken, where the file does not say. */
  method?: TimingMethod;
  /** False looks only. */
  apply: boolean;
  /** How what is noted with a repetition is said. */
  speech: Speech;
}

/**
 * Reads a timing file, finds the repetition of each of its times and, when asked to, puts them in.
 * @returns what belongs where, what fits nothing and why, and the rows set aside
 * @throws FaultError when the file holds no table of times
 */
export function applyTimingFile(store: Store, bytes: Uint8Array, options: TimingFileOptions): TimingAnswer {
  const { file_name, method, apply, speech } = options;
  const file = readTimingFile(bytes, { file_name, method });
  const lines = listRepetitions(store, {});
  const places = placesOf(store, lines);
  const { matched, unmatched } = matchTimings(file.entries, [...places.values()]);
  const known = new Map(lines.map((line) => [line.repetition_id, line]));
  const answer: TimingAnswer = {
    matched: matched.map((times) =>
      describe(times, known.get(times.repetition_id)!, places, (time) => noteOf(time, file_name, speech)),
    ),
    unmatched: unmatched.map(({ entries, why }) => ({ lines: entries.map((entry) => entry.line), why })),
    rejected: file.rejected_rows.map(({ line, column, found, expected }) => ({ line, column, found, expected })),
    faults: file.faults,
    applied: apply,
  };
  if (apply) {
    store.transaction(() => {
      for (const timing of answer.matched) putIn(store, timing, known.get(timing.repetition_id)!, speech);
    });
  }
  return answer;
}

/** Every repetition with its athlete, day and place among the athlete's repetitions of the session. */
function placesOf(store: Store, lines: RepetitionLine[]): Map<number, TimedRepetition> {
  const names = new Map(
    store
      .all(store.query.selectFrom('athletes').select(['athlete_id', 'name']))
      .map(({ athlete_id, name }) => [athlete_id, name]),
  );
  const counts = new Map<string, number>();
  const places = new Map<number, TimedRepetition>();
  for (const line of [...lines].sort((a, b) => a.order_number - b.order_number)) {
    const key = `${line.session_id} ${line.athlete_id}`;
    const repetition = (counts.get(key) ?? 0) + 1;
    counts.set(key, repetition);
    places.set(line.repetition_id, {
      repetition_id: line.repetition_id,
      athlete_name: names.get(line.athlete_id) ?? '',
      date: line.session_date,
      set: line.set_number,
      repetition,
    });
  }
  return places;
}

function describe(
  times: MatchedTimes,
  line: RepetitionLine,
  places: Map<number, TimedRepetition>,
  note: (time: NotedTime) => string,
): MatchedTiming {
  const { kept_apart, ...rest } = times;
  const place = places.get(times.repetition_id)!;
  const action = actionOf(times, line);
  const beside = kept_apart.map(note);
  if (action === 'keep') beside.push(note(times));
  return {
    ...rest,
    athlete_name: place.athlete_name,
    session_date: place.date,
    repetition: place.repetition,
    action,
    noted: beside.join('\n'),
  };
}

/** A hand time never takes the place of an electronic one. */
function actionOf(times: MatchedTimes, line: RepetitionLine): MatchedTiming['action'] {
  if (line.course_time_s === null && line.splits.length === 0) return 'set';
  const byHand = (method: TimingMethod | null) => method === 'hand' || method === null;
  return byHand(times.method) && !byHand(line.timing_method) ? 'keep' : 'replace';
}

type NotedTime = Pick<MatchedTimes, 'distance_m' | 'time_s' | 'method'>;

function noteOf({ distance_m, time_s, method }: NotedTime, file: string, speech: Speech): string {
  return speech.because(because('also_timed', { time_s, distance_m: Number(distance_m.toFixed(3)), method, file }));
}

function putIn(store: Store, timing: MatchedTiming, line: RepetitionLine, speech: Speech): void {
  const resolution = speech.because(
    because('timed_in_steps', { by_hand: timing.method === 'hand', step_s: timing.resolution_s }),
  );
  const added = [timing.noted, timing.action === 'keep' ? '' : resolution].filter(
    (text) => text !== '' && !line.notes.includes(text),
  );
  const notes = [line.notes, ...added].filter((text) => text !== '').join('\n');
  if (timing.action === 'keep') {
    changeRepetition(store, timing.repetition_id, { notes });
    return;
  }
  const whole = line.course_distance_m === null || Math.abs(line.course_distance_m - timing.distance_m) < SAME_LENGTH_M;
  changeRepetition(store, timing.repetition_id, {
    notes,
    course_distance_m: line.course_distance_m ?? timing.distance_m,
    course_time_s: whole ? timing.time_s : null,
    splits: whole ? timing.splits.slice(0, -1) : timing.splits,
    timing_method: timing.method,
    ...(timing.clock ? { clock: timing.clock } : {}),
  });
}

import { errorNotice, errorWords } from '../../error-words.ts';
import { meansOfRepetition } from '../../../shared/at-speed.ts';
import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import { type RepetitionResult, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { ContactsEvent, RepetitionEvent, StoredEvent } from '../../../shared/schemas/capture.ts';
import { type Notice, notice, SILENT } from '../../../shared/notice.ts';
import type { Store } from '../../store/store.ts';
import { type AnalysedExcerpt, analyseExcerpts, repetitionWithin } from './analyse-excerpt.ts';
import type { Excerpt } from '../recording/excerpt.ts';
import { handledUntil } from '../recording/capture-folder.ts';
import type { CaptureRun } from '../recording/capture-run.ts';
import { LiveRepetitions, liveContacts, type RepetitionSpan } from './live-repetitions.ts';
import { groupSensors } from './sensor-groups.ts';
import type { SensorSession } from '../recording/sensor-session.ts';
import { type MeasuredRepetition, measureLiveRepetition, storeLiveRepetition } from './store-repetition.ts';

/** A result that is due elsewhere is waited for at most this long before storing. */
const PATIENCE_MS = 3000;

export interface LiveResultsParts {
  store: Store;
  run: CaptureRun;
  athleteName: (athlete_id: number | null) => string | null;
  tell: (event: 'contacts' | 'repetition' | 'stored', value: ContactsEvent | RepetitionEvent | StoredEvent) => void;
  say: (what: Notice) => void;
  /** In a replay: the stored repetition that was just played again; null where it cannot be told. */
  replayed?: (athlete_id: number | null, host_s: number) => number | null;
}

interface Watched {
  athlete_id: number | null;
  name: string | null;
  sessions: SensorSession[];
  live: LiveRepetitions;
  /** Host time of the last toe-off that was dealt with. */
  last_end_s: number;
}

/** Turns what the live watch finds into results: analyses, stores, tells. One watch an athlete. */
export class LiveResults {
  private readonly parts: LiveResultsParts;
  private readonly watched: Watched[];
  private readonly working = new Set<Promise<void>>();
  private turn: Promise<void> = Promise.resolve();
  private closing = false;
  /** Said once, not at every look. */
  private last_failure = '';

  constructor(parts: LiveResultsParts) {
    this.parts = parts;
    const { groups, set_aside } = groupSensors(parts.run.sessions, (session) => session.place);
    for (const session of parts.run.sessions) session.set_aside = SILENT;
    for (const { sensor, why } of set_aside) {
      sensor.set_aside = notice('not_measured_standing', { why });
      parts.say(notice('not_measured', { name: sensor.place.name, why }));
    }
    const nobodys = groups.filter((group) => group.athlete_id === null).length;
    this.watched = groups.map(({ athlete_id, sensors: sessions }) => {
      const own_name = nobodys > 1 ? sessions.map((session) => session.place.name).join(' + ') : null;
      const name = athlete_id === null ? own_name : parts.athleteName(athlete_id);
      const handled_s = handledUntil(
        parts.run.record,
        sessions.map((session) => session.sensor_id),
      );
      const watched: Watched = {
        athlete_id,
        name,
        sessions,
        last_end_s: handled_s,
        live: new LiveRepetitions(
          sessions,
          {
            contacts: (contacts) => parts.tell('contacts', { athlete_id, athlete_name: name, contacts }),
            ended: (span) => this.work(this.finish(watched, span, false)),
            failed: (error) => this.failed(name, error),
          },
          handled_s + 0.1,
        ),
      };
      return watched;
    });
  }

  tick(): void {
    // Where somebody's end is near, the others' contacts can wait a moment.
    const urgent = this.resultDue();
    for (const { live } of this.watched) if (!urgent || live.endsSoon()) live.tick();
  }

  /** Ends what is open and waits until everything is stored. */
  async close(): Promise<void> {
    this.closing = true;
    // On a busy machine a whole run may have come since the last look.
    for (const { live } of this.watched) live.close();
    await Promise.all(this.working);
  }

  /** The coach pressed start and stop: what is open ends; where nothing was found in between, the data are stored as they are. */
  async closeMarked(from_s: number, to_s: number): Promise<void> {
    for (const { live } of this.watched) live.close();
    await Promise.all(this.working);
    for (const watched of this.watched) {
      if (watched.last_end_s > from_s) continue;
      this.work(this.finish(watched, { start_s: from_s, end_s: to_s, from_s: from_s - 1, to_s }, true));
    }
    await Promise.all(this.working);
  }

  /** Storing takes a tenth of a second of this thread: one after the other, and not while another athlete's result is due. */
  private inTurn(store: () => Promise<void>): Promise<void> {
    const turn = this.turn.then(async () => {
      for (let waited = 0; waited < PATIENCE_MS && !this.closing && this.resultDue(); waited += 100) {
        await new Promise((resolve) => setTimeout(resolve, 100));
      }
      await store();
    });
    this.turn = turn.catch(() => {});
    return turn;
  }

  private resultDue(): boolean {
    return this.watched.some(({ live }) => live.endsSoon());
  }

  private failed(name: string | null, error: Error): void {
    const words = errorWords(error);
    if (words === this.last_failure) return;
    this.last_failure = words;
    process.stderr.write(`live analysis: ${error.stack}\n`);
    this.parts.say(notice('analysis_failed', { who: name, why: errorNotice(error) }));
  }

  private work(promise: Promise<void>): void {
    this.working.add(promise);
    void promise.finally(() => this.working.delete(promise));
  }

  /** Tells the result as soon as it is there, then stores it. */
  private async finish(watched: Watched, span: RepetitionSpan, marked: boolean): Promise<void> {
    const { run, store, say, tell } = this.parts;
    const who = watched.name;
    watched.last_end_s = Math.max(watched.last_end_s, span.end_s);
    watched.live.handledUntil(span.end_s + 0.1);
    try {
      const excerpts = run.excerpts(watched.sessions, span.from_s, span.to_s + 0.2);
      const { athlete_id } = watched;
      const { kind, session_id } = run.record;
      const place = kind === 'live' && athlete_id !== null && session_id !== null ? { athlete_id, session_id } : null;
      const live = { ...place!, excerpts, start_s: span.start_s, end_s: span.end_s };
      const measured = place === null ? measureOnly(excerpts, span) : measureLiveRepetition(store, live);
      const wanted = measured !== null && (measured.result !== null || marked);
      const key = `${run.record.capture_id}-${watched.sessions[0].sensor_id}-${span.start_s.toFixed(3)}`;
      if (wanted) {
        const event = this.event(watched, span, key, measured.excerpt, measured.result);
        const replay_of = kind === 'replay' ? (this.parts.replayed?.(athlete_id, span.start_s) ?? null) : null;
        tell('repetition', { ...event, to_be_stored: place !== null, replay_of });
        const contacts = event.contacts.length;
        say(contacts === 0 ? notice('no_running', { who }) : notice('repetition', { who, contacts }));
      }
      if (place === null) return;
      const sensor_ids = watched.sessions.map((session) => session.sensor_id);
      await this.inTurn(async () => {
        if (!wanted) return run.handled(sensor_ids, span.end_s);
        try {
          const repetition_id = await storeLiveRepetition(store, live, measured);
          tell('stored', { key, repetition_id });
          run.handled(sensor_ids, span.end_s);
        } catch (error) {
          run.pend({ ...place, sensor_ids, ...span, to_s: span.to_s + 0.2 });
          say(notice('not_stored', { who, why: errorNotice(error) }));
        }
      });
    } catch (error) {
      this.failed(watched.name, error as Error);
    }
  }

  private event(
    { athlete_id, name }: Watched,
    span: RepetitionSpan,
    key: string,
    excerpt: AnalysedExcerpt,
    result: RepetitionResult | null,
  ): Omit<RepetitionEvent, 'to_be_stored' | 'replay_of'> {
    const summary = result?.summary;
    const figures = summary && meansOfRepetition(summary);
    const mean = (quantity: 'contact_time_ms' | 'flight_time_ms' | 'step_rate_hz') =>
      figures?.means[quantity]?.mean ?? null;
    const sideMean = (side: 'left' | 'right') => summary?.[side].contact_time_ms?.mean ?? null;
    const end_s = result === null ? span.end_s : excerpt.aligned.zero_s + result.end_s;
    return {
      athlete_id,
      athlete_name: name,
      session_id: this.parts.run.record.session_id,
      key,
      contacts: result === null ? [] : liveContacts(result),
      figures_over: figures?.over ?? 'all contacts',
      left_contact_time_ms: sideMean('left'),
      right_contact_time_ms: sideMean('right'),
      contact_time_ms: mean('contact_time_ms'),
      flight_time_ms: mean('flight_time_ms'),
      step_rate_hz: mean('step_rate_hz'),
      delay_s: hostTime() - end_s,
      lost_samples: excerpt.assemblers.reduce((sum, assembler) => sum + assembler.counts.lost_samples, 0),
      words: lossNotice(excerpt),
      quality: result === null ? [] : excerpt.analysis.quality,
    };
  }
}

/** A replay, or sensors without an athlete: measured and shown, not stored. */
function measureOnly(excerpts: Excerpt[], { start_s, end_s }: RepetitionSpan): MeasuredRepetition | null {
  const excerpt = analyseExcerpts(excerpts, UNKNOWN_COURSE, UNKNOWN_CONDITIONS);
  return excerpt && { planned_id: null, excerpt, result: repetitionWithin(excerpt, start_s, end_s) };
}

function lossNotice({ assemblers }: AnalysedExcerpt): Notice {
  const lost = assemblers.reduce((sum, assembler) => sum + assembler.counts.lost_samples, 0);
  if (lost === 0) return SILENT;
  const all = assemblers.reduce((sum, assembler) => sum + assembler.counts.samples, 0) + lost;
  return notice('samples_missing', { percent: (100 * lost) / all });
}

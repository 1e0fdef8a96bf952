import { commonTime } from '../../shared/sensor-clock.ts';
import { analyse } from '../../dsp/analyse.ts';
import { type AnalysisSettings, DEFAULT_SETTINGS } from '../../dsp/settings/settings.ts';
import type { Analysis, Conditions, Course, RepetitionResult } from '../../shared/analysis.ts';
import { type Fault, fault } from '../../shared/fault.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import { instantOf, indexAt, LONG_SAMPLES, readPart, readWhole, type SampleSource } from '../store/sample-source.ts';
import { freeMemory } from '../free-memory.ts';
import { joinAnalyses, moveRepetition, type WindowAnalysis } from './join-analyses.ts';

/** From how many samples on a recording is long, and how many of the faster sensor are then analysed at a time. */
const LIMITS = { long: LONG_SAMPLES, window: 150_000 };
/** A cut may lie in this last part of a window: where it is quietest. */
const CUT_PART = 0.4;
/** Above this a cut second was no rest: a run went on through it. Walking stays below at the foot. */
const REST_MPS2 = 15;

export interface LongRecordingOptions {
  /** Called after each window with the part of the recording that is done, 0 to 1. */
  onProgress?: (part: number) => void;
  /** Takes each repetition of a long recording as it is found; the answer then holds none of them. */
  onRepetition?: (result: RepetitionResult) => void;
  limits?: typeof LIMITS;
}

/**
 * Analyses one or two recordings of any length. A short one goes to `analyse` whole; a long one goes in windows that are cut
 * where the athlete rests, so that memory stays the same whatever the length.
 * @returns one analysis, its instants on the common clock of the whole recording
 */
export function analyseSources(
  sources: SampleSource[],
  course: Course,
  conditions: Conditions,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  { onProgress = () => {}, onRepetition, limits = LIMITS }: LongRecordingOptions = {},
): Analysis {
  if (sources.every((source) => source.samples <= limits.long)) {
    return analyse({ sensors: sources.map(readWhole), course, conditions }, settings);
  }
  const start = Math.min(...sources.map((source) => source.clock_offset_s));
  const end = Math.max(...sources.map((source) => instantOf(source, source.samples - 1)));
  const window = limits.window / Math.max(...sources.map((source) => source.sampling_rate_hz));
  const parts: WindowAnalysis[] = [];
  const repetitions: RepetitionResult[] = [];
  const keep = onRepetition ?? ((result) => repetitions.push(result));
  let found = 0;
  const faults: Fault[] = [];
  for (let from = start; from < end; ) {
    const cut = from + window < end ? quietest(sources, from + (1 - CUT_PART) * window, from + window) : null;
    if (cut && cut.activity_mps2 > REST_MPS2) faults.push(cutWhileRunning(cut.at_s));
    const to = cut?.at_s ?? Number.POSITIVE_INFINITY;
    const part = analysePart(sources, from, to, course, conditions, settings);
    if (part) {
      const { repetitions: inWindow, ...analysis } = part.analysis;
      for (const repetition of inWindow) keep(moveRepetition(repetition, part.zero_s, ++found));
      parts.push({ analysis, zero_s: part.zero_s, ran: inWindow.length > 0 });
    }
    from = to;
    freeMemory();
    onProgress(Math.min(1, (to - start) / (end - start)));
  }
  const joined = joinAnalyses(parts, sources.length);
  joined.faults.push(...faults);
  return { ...joined, repetitions };
}

function analysePart(
  sources: SampleSource[],
  from: number,
  to: number,
  course: Course,
  conditions: Conditions,
  settings: AnalysisSettings,
): { analysis: Analysis; zero_s: number } | null {
  const parts = sources.map((source) => {
    const first = indexAt(source, from);
    const end = Number.isFinite(to) ? indexAt(source, to) : source.samples;
    return end - first > 1 ? readPart(source, first, end) : null;
  });
  // A side that has ended or not begun is left out only where the other still goes on.
  const sensors = parts.filter((part) => part !== null);
  if (sensors.length < sources.length) return null;
  const zero_s = Math.min(...sensors.map((sensor) => sensor.clock_offset_s));
  for (const sensor of sensors) sensor.clock_offset_s -= zero_s;
  return { analysis: analyse({ sensors, course, conditions }, settings), zero_s };
}

/** The middle of the quietest second of a stretch, over all sensors, with the strongest acceleration above rest in it. */
function quietest(sources: SampleSource[], from: number, to: number): { at_s: number; activity_mps2: number } {
  const seconds = Math.max(1, Math.floor(to - from));
  const strongest = new Float64Array(seconds);
  for (const source of sources) {
    const first = indexAt(source, from);
    const part = readPart(source, first, indexAt(source, from + seconds));
    const { time_s, acc_mps2 } = part.samples;
    for (let i = 0; i < time_s.length; i++) {
      const second = Math.floor(commonTime(time_s[i], part) - from);
      const norm = Math.hypot(acc_mps2.x[i], acc_mps2.y[i], acc_mps2.z[i]);
      const above = Math.abs(norm - STANDARD_GRAVITY_MPS2);
      if (second >= 0 && second < seconds && above > strongest[second]) strongest[second] = above;
    }
  }
  let best = 0;
  for (let s = 1; s < seconds; s++) if (strongest[s] < strongest[best]) best = s;
  return { at_s: from + best + 0.5, activity_mps2: strongest[best] };
}

function cutWhileRunning(at_s: number): Fault {
  return fault('LONG_RUN_CUT', { at_s }, { at_s });
}

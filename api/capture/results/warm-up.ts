import { analyse } from '../../../dsp/analyse.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { readRecording } from '../../store/read-samples.ts';
import { listRecordings } from '../../store/recordings.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';

/** Longer recordings would hold up the packets more than they help. */
const LONGEST_S = 60;

/**
 * Analyses a stored repetition and throws the result away: the first analysis of a program takes several times as long as
 * the later ones, and the first repetition of the day should not wait for that.
 */
export function warmUp(store: Store): void {
  const last = listRepetitions(store, { state: 'analysed' }).at(-1);
  if (last === undefined) return;
  const lines = listRecordings(store, last.repetition_id);
  if (lines.length === 0 || lines.some((line) => (line.duration_s ?? 0) > LONGEST_S)) return;
  const sensors = lines.map((line) => readRecording(store, line.recording_id));
  analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
}

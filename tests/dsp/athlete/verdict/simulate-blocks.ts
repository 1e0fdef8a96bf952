/** Simulated blocks of training: when is a change of the weeks told, and how often one that never was? */
import { type BaselineValue, blockChange, trend } from '../../../../dsp/athlete/index.ts';
import { normal } from '../../../helpers/random.ts';
import { dayOf, type SimulatedAthlete } from './simulate-evenings.ts';

const BLOCK_SESSIONS = 16;
const DAYS_APART = 3.5;

export type BlockRule = (values: readonly BaselineValue[], start_day: number) => 'above' | 'below' | null;

/** A straight line through all sessions, or a jump, beyond chance at 95 %: what the course said before. */
export const FORMER_BLOCK: BlockRule = (values) => {
  const line = trend(values);
  if (line?.beyond_chance) return line.slope_per_week > 0 ? 'above' : 'below';
  const jump = line?.changes.at(-1);
  return jump ? (jump.after > jump.before ? 'above' : 'below') : null;
};

export const PRESENT_BLOCK: BlockRule = (values, start_day) =>
  blockChange(values, 'contact_time_ms', start_day)?.beyond ?? null;

/**
 * Share of athletes told in the right direction by each session of a block of sixteen (any direction where nothing changed).
 * `athlete.sessions` lie before the block; the change comes at once, or evenly over the block.
 */
export function simulateBlocks(
  rule: BlockRule,
  athlete: SimulatedAthlete,
  change: { typical_errors: number; at_once: boolean },
  athletes: number,
  seed: number,
): number[] {
  const z = normal(seed);
  const told_by = new Array<number>(BLOCK_SESSIONS).fill(0);
  for (let a = 0; a < athletes; a++) {
    const values: BaselineValue[] = [];
    let told = false;
    for (let s = -athlete.sessions; s < BLOCK_SESSIONS; s++) {
      const share = s < 0 ? 0 : change.at_once ? 1 : (s + 1) / BLOCK_SESSIONS;
      for (const value of dayOf(z, athlete, athlete.repetitions, change.typical_errors * share)) {
        values.push({ value, session: s, day: DAYS_APART * s, contacts: 12 });
      }
      if (s < 0) continue;
      const word: string | null = told ? null : rule(values, 0);
      told ||= word !== null && (change.typical_errors === 0 || (word === 'below') === change.typical_errors < 0);
      if (told) told_by[s] += 1 / athletes;
    }
  }
  return told_by;
}

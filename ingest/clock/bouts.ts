import type { StepPhase } from './alternation.ts';
import { middleValue } from './middle-value.ts';

/** Running without a break, as far as the feet's phases tell it. */
export interface Bout {
  from_s: number;
  to_s: number;
  stride_s: number;
  /** By how much the right step falls after the middle of the left's stride, seconds; a stride more or less cannot be told. */
  off_s: number;
  phases: number;
}

/** Phases further apart than this are of two bouts. */
const BREAK_S = 10;
/** Walking scatters; its phases tell a stride from the next, not milliseconds. */
export const LONGEST_RUNNING_STRIDE_S = 0.85;
export const LEAST_LIKENESS = 0.7;

/** Bouts of running in order of time, each with the median of its phases. */
export function boutsOf(phases: StepPhase[]): Bout[] {
  const running = phases
    .filter(({ stride_s, likeness }) => stride_s <= LONGEST_RUNNING_STRIDE_S && likeness >= LEAST_LIKENESS)
    .sort((a, b) => a.time_s - b.time_s);
  const groups: StepPhase[][] = [];
  for (const phase of running) {
    const last = groups[groups.length - 1];
    if (last && phase.time_s - last[last.length - 1].time_s < BREAK_S) last.push(phase);
    else groups.push([phase]);
  }
  return groups.map((group) => ({
    from_s: group[0].time_s,
    to_s: group[group.length - 1].time_s,
    stride_s: middleValue(group.map(({ stride_s }) => stride_s)),
    off_s: middleValue(group.map(({ phase, stride_s }) => (phase - 0.5) * stride_s)),
    phases: group.length,
  }));
}

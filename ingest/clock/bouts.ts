import type { StepPhase } from './alternation.ts';
import { middleValue } from './middle-value.ts';

/** Running without a break, as far as the feet's phases tell it. */
export interface Bout {
  from_s: number;
  to_s: number;
  stride_s: number;
  /** By how much the right step falls after the middle of the left's stride, seconds; a stride more or less cannot be told. */
  off_s: number;
  /** How that changes from second to second within the bout, with its standard uncertainty; infinite where too little tells. */
  slope: number;
  slope_u: number;
  phases: number;
}

/** Phases further apart than this are of two bouts. */
const BREAK_S = 10;
/** Walking scatters; its phases tell a stride from the next, not milliseconds. */
export const LONGEST_RUNNING_STRIDE_S = 0.85;
export const LEAST_LIKENESS = 0.7;
/** Standard uncertainty of the phase of one stretch of running, seconds; greater by the square root of two, since neighbours share half of theirs. */
export const PHASE_U_S = 0.003;
const FEWEST_FOR_SLOPE = 4;
const MOST_LEVER_S = 3;

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
    ...slopeOf(group),
    phases: group.length,
  }));
}

/** The middle of the slopes between all pairs of phases (Theil and Sen), which a stretch that holds a start or a turn does not bend. */
function slopeOf(group: StepPhase[]): Pick<Bout, 'slope' | 'slope_u'> {
  if (group.length < FEWEST_FOR_SLOPE) return { slope: 0, slope_u: Number.POSITIVE_INFINITY };
  const at = group.map(({ time_s, phase, stride_s }) => ({ time_s, off_s: (phase - 0.5) * stride_s }));
  const pairs = at.flatMap((a, i) => at.slice(i + 1).map((b) => (b.off_s - a.off_s) / (b.time_s - a.time_s)));
  const slope = middleValue(pairs);
  const rest = at.map(({ time_s, off_s }) => off_s - slope * time_s);
  const base = middleValue(rest);
  const scatter_s = 1.4826 * middleValue(rest.map((value) => Math.abs(value - base)));
  const time_s = middleValue(at.map((one) => one.time_s));
  // What lies far from the middle of the run has its weight in the slope no more than what lies within it.
  const squares = at.reduce((sum, one) => sum + Math.min(MOST_LEVER_S, Math.abs(one.time_s - time_s)) ** 2, 0);
  return { slope, slope_u: Math.max(scatter_s, PHASE_U_S * Math.SQRT2) / Math.sqrt(squares) };
}

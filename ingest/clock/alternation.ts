import { ENVELOPE_RATE_HZ, type MotionSignal, smooth } from './motion-signal.ts';

/** How the feet follow each other over one stretch of running, on a clock that puts the right `lag_s` after the left. */
export interface StepPhase {
  /** Middle of the stretch on the left's clock, seconds. */
  time_s: number;
  /** Share of a stride by which the right follows the left: 0.5 where the feet alternate, 0 where they move together. */
  phase: number;
  stride_s: number;
  /** Correlation at that phase, 0 to 1. */
  likeness: number;
}

/** A stretch of even running or walking of one foot, in steps of the envelope. */
export interface Stretch {
  start: number;
  period: number;
}

/** Length of a stretch. */
export const STRETCH_S = 3;
const SHORTEST_STRIDE_S = 0.36;
/** Walking counts as well: it tells one stride from the next where running alone cannot. */
const LONGEST_STRIDE_S = 1.4;
const LEAST_PERIODICITY = 0.6;
/** Two strides fit almost as well as one: the shortest shift this near to the best is the stride. */
const NEARLY_BEST = 0.1;
const LEAST_LIKENESS = 0.4;
const LEAST_ACTIVITY = 0.3;
const LENGTH = STRETCH_S * ENVELOPE_RATE_HZ;

/**
 * Stretches of 3 s in which a foot runs or walks; half of each overlaps the next.
 * Method: the envelope's autocorrelation; half a walking stride and two running strides are told from one by the shortest shift
 * that fits nearly best.
 */
export function runningStretches(signal: MotionSignal): Stretch[] {
  const reach = Math.round(LONGEST_STRIDE_S * ENVELOPE_RATE_HZ);
  const shortest = Math.round(SHORTEST_STRIDE_S * ENVELOPE_RATE_HZ);
  const busy = LEAST_ACTIVITY * strongLevel(signal.values);
  const stretches: Stretch[] = [];
  for (let start = 0; start + LENGTH + reach <= signal.values.length; start += LENGTH / 2) {
    const a = signal.values.subarray(start, start + LENGTH);
    if (meanOf(a) < busy) continue;
    const score = (shift: number) => correlation(a, signal.values, start + shift);
    const longest = bestShift(score, shortest, reach);
    if (!longest || longest.likeness < LEAST_PERIODICITY) continue;
    const parts = [3, 2].map((part) => Math.round(longest.shift / part)).filter((middle) => middle - 5 >= shortest);
    const shorter = parts.map((middle) => bestShift(score, middle - 5, middle + 5));
    const period = shorter.find((found) => found && found.likeness >= longest.likeness - NEARLY_BEST) ?? longest;
    stretches.push({ start, period: period.shift });
  }
  return stretches;
}

/** The two feet's envelopes with what was correlated so far: lags are tried by the hundred. */
export class StepAlternation {
  private readonly known = new Map<Stretch, Map<number, number>>();

  constructor(
    readonly left: MotionSignal,
    readonly right: MotionSignal,
    readonly stretches: Stretch[],
  ) {}

  /**
   * Phases between the feet wherever both run.
   * @param lag_s when the right's first sample was, on the left's clock
   * Method: cross-correlation of the envelopes over the whole stretch, from a quarter to five quarters of a stride, so that
   * alternating feet lie in the middle, away from the ends.
   */
  phases(lag_s: number, stretches: Stretch[] = this.stretches): StepPhase[] {
    const lag = lag_s * ENVELOPE_RATE_HZ;
    const whole = Math.round(lag);
    const phases: StepPhase[] = [];
    for (const stretch of stretches) {
      const { start, period } = stretch;
      const origin = start - whole;
      if (origin - period < 0 || origin + LENGTH + period > this.right.values.length) continue;
      const quarter = Math.ceil(period / 4);
      const score = (shift: number) => this.likeness(stretch, origin + shift);
      const found = bestShift(score, -quarter, -quarter + Math.ceil(period));
      if (!found || found.likeness < LEAST_LIKENESS) continue;
      const share = (found.shift + lag - whole) / period;
      phases.push({
        time_s: (start + LENGTH / 2) / ENVELOPE_RATE_HZ,
        phase: ((share % 1) + 1) % 1,
        stride_s: period / ENVELOPE_RATE_HZ,
        likeness: found.likeness,
      });
    }
    return phases;
  }

  private likeness(stretch: Stretch, at: number): number {
    const known = this.known.get(stretch) ?? new Map<number, number>();
    this.known.set(stretch, known);
    let value = known.get(at);
    if (value === undefined) {
      const a = this.left.values.subarray(stretch.start, stretch.start + LENGTH);
      value = correlation(a, this.right.values, at);
      known.set(at, value);
    }
    return value;
  }
}

/** Spread of the phase between the feet over a recording, share of a stride; what lies further off counts little. */
const PHASE_WIDTH = 0.03;

/**
 * How well a lag fits all stretches, 0 to 1: every stretch by how near to the middle of a stride the other foot falls, weighted by how
 * alike the feet move at that lag. A lag that is off by whole strides falls behind as the pace changes.
 */
export function lagScore(phases: StepPhase[], stretches: number): number {
  let sum = 0;
  for (const { phase, likeness } of phases) sum += likeness * Math.exp(-0.5 * ((phase - 0.5) / PHASE_WIDTH) ** 2);
  return stretches > 0 ? sum / stretches : 0;
}

/** Whether the feet alternate on this clock. Unknown where too little running is there, or the phase lies between. */
export type Alternates = 'yes' | 'no' | 'unknown';
export function alternates(phases: StepPhase[]): Alternates {
  if (phases.length === 0) return 'unknown';
  const score = phases.reduce((sum, { phase }) => sum + Math.cos(2 * Math.PI * (phase - 0.5)), 0) / phases.length;
  return score > 0.75 ? 'yes' : score < 0.3 ? 'no' : 'unknown';
}

/** The level that the busiest tenth of a signal reaches. */
function strongLevel(values: Float64Array): number {
  const calm = smooth(values, ENVELOPE_RATE_HZ / 2).sort();
  return calm.length === 0 ? 0 : calm[Math.floor(0.9 * (calm.length - 1))];
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return values.length === 0 ? 0 : sum / values.length;
}

/** The shift with the greatest score, to a fraction of a step by a parabola; null where none can be scored. */
function bestShift(
  score: (shift: number) => number,
  from: number,
  to: number,
): { shift: number; likeness: number } | null {
  const scores: number[] = [];
  for (let shift = from; shift <= to; shift++) scores.push(score(shift));
  let best = 0;
  for (let i = 1; i < scores.length; i++) if (scores[i] > scores[best]) best = i;
  if (!Number.isFinite(scores[best])) return null;
  const [before, here, after] = [scores[best - 1], scores[best], scores[best + 1]];
  const bend = before - 2 * here + after;
  const fraction = Number.isFinite(bend) && bend < 0 ? (0.5 * (before - after)) / bend : 0;
  return { shift: from + best + fraction, likeness: here };
}

/** Correlation of `a` with the part of `b` that starts at `at`; -Infinity where it does not fit in. */
function correlation(a: Float64Array, b: Float64Array, at: number): number {
  if (at < 0 || at + a.length > b.length) return Number.NEGATIVE_INFINITY;
  let sumA = 0;
  let sumB = 0;
  let sumAA = 0;
  let sumBB = 0;
  let sumAB = 0;
  for (let i = 0; i < a.length; i++) {
    const x = a[i];
    const y = b[at + i];
    sumA += x;
    sumB += y;
    sumAA += x * x;
    sumBB += y * y;
    sumAB += x * y;
  }
  const n = a.length;
  const spread = (sumAA - (sumA * sumA) / n) * (sumBB - (sumB * sumB) / n);
  return spread > 0 ? (sumAB - (sumA * sumB) / n) / Math.sqrt(spread) : 0;
}

import { type Bout, boutsOf } from './bouts.ts';
import { type ClockModel, fitClock } from './clock-model.ts';
import type { TwoFeet } from './look-at-feet.ts';

/** A lasting difference between the legs varies from run to run by some milliseconds ('common practice'). */
const LEAST_DRIFT_S = 0.012;
const FROM_RUN_TO_RUN_U_S = 0.004;
/** More drift than this is no clock. */
export const MOST_DRIFT = 5e-4;
/** Bouts lie this near to a straight drift, or it is another thing than drift. */
const MOST_RESIDUAL_S = 0.01;

/** One clock as it was said; two that drift apart, with how; or two of which the steps cannot tell by how many strides they did. */
export type OneClock = 'one' | 'untold' | ClockModel;

/**
 * Whether two clocks that are said to be one drift apart, by the steps: on one clock a right step falls at the same share of the left's
 * stride in every run; where that share moves on from run to run, the clocks do.
 * @param lag_s when the right's first sample was, on the left's clock, by the shared stamps
 */
export function driftBySteps(feet: TwoFeet, lag_s: number): OneClock {
  const bouts = boutsOf(feet.steps.phases(lag_s));
  if (bouts.length < 2) return 'one';
  const off = unwrapped(bouts);
  if (slidesWithinRuns(bouts, off)) return 'untold';
  if (Math.max(...off) - Math.min(...off) < LEAST_DRIFT_S) return 'one';
  if (mayBeAStrideOff(bouts, off)) return 'untold';
  const model = fitClock(
    bouts.map(({ from_s, to_s }, i) => ({
      time_s: (from_s + to_s) / 2,
      lag_s: lag_s - off[i],
      u: FROM_RUN_TO_RUN_U_S,
      from_steps: true,
    })),
  );
  return model.residual_s < MOST_RESIDUAL_S && Math.abs(model.rate) < MOST_DRIFT ? model : 'untold';
}

/** Within a run steps move on as fast as the clocks do; by so much more, in standard uncertainties (root mean square), they hardly ever do. */
const WITHIN_RUNS = 2.4;

/**
 * True where the steps move on within the runs as they should not: a clock that drifted by a whole stride from one run to the next pairs every
 * step with that of the stride before or behind, which took longer or less long as the pace changed; and it moves on within the first.
 */
function slidesWithinRuns(bouts: Bout[], off: number[]): boolean {
  const middle = ({ from_s, to_s }: Bout) => (from_s + to_s) / 2;
  const last = bouts.length - 1;
  const rate = (off[last] - off[0]) / (middle(bouts[last]) - middle(bouts[0]));
  const told = bouts.filter(({ slope_u }) => Number.isFinite(slope_u));
  const squares = told.reduce((sum, { slope, slope_u }) => sum + ((slope - rate) / slope_u) ** 2, 0);
  return told.length > 0 && squares > WITHIN_RUNS ** 2 * told.length;
}

/** Each bout's offset next to that of the bout before: strides are taken off. */
function unwrapped(bouts: Bout[]): number[] {
  const off = [bouts[0].off_s];
  for (const { off_s, stride_s } of bouts.slice(1)) {
    const before = off[off.length - 1];
    off.push(off_s - stride_s * Math.round((off_s - before) / stride_s));
  }
  return off;
}

/** True where a clock may have drifted from one bout to the next by as much as it seems to, and a whole stride more. */
export function mayBeAStrideOff(bouts: Pick<Bout, 'from_s' | 'to_s' | 'stride_s'>[], off: number[]): boolean {
  return bouts.some(({ to_s, stride_s }, i) => {
    const next = bouts[i + 1];
    if (!next) return false;
    return stride_s - Math.abs(off[i + 1] - off[i]) < MOST_DRIFT * (next.from_s - to_s);
  });
}

import { lagScore, type Stretch } from './alternation.ts';
import type { TwoFeet } from './look-at-feet.ts';
import { activity, activityLikeness, ENVELOPE_RATE_HZ, type MotionSignal } from './motion-signal.ts';
import { type SharedImpacts, sharedImpacts } from './shared-impacts.ts';

/** A lag that may be the true one. */
export interface LagCandidate {
  lag_s: number;
  /** Impacts that fall together at it; null where only the steps speak for it. */
  impacts: SharedImpacts | null;
  /** How well the steps alternate at it, 0 to 1; null without running. */
  score: number | null;
  value: number;
}

const MOST_CANDIDATES = 60;
/** Stretches looked at when many lags are tried. */
const MOST_STRETCHES = 24;
/** Steps must alternate at least this well at the lag chosen. */
const LEAST_SCORE = 0.45;
const LEAST_SCORE_STEPS_ALONE = 0.6;
/** The best lag must be worth more than the next by this; lags within 0.1 s count as one. */
const LEAST_MARGIN = 0.08;
const SAME_LAG_S = 0.1;
const FEWEST_STRETCHES = 3;
/** Stretches of running are found to this before their end and start. */
const BEFORE_RUN_S = 0.7;
const AFTER_RUN_S = 1.5;
const LEAST_PACE_CHANGE = 1.06;
const COARSE_RATE_HZ = 10;
const LONGEST_LAG_S = 600;
const AROUND_S = 1.8;
const STEP_S = 0.02;
const FINE_STEP_S = 0.004;

/**
 * Chooses the lag between two recordings on unrelated clocks.
 * @param possible lags that can be at all, where something is known of them
 * @param near_s a lag that is known roughly; null where nothing is
 * @returns null where nothing tells, or two lags are worth nearly the same
 * Method: candidates are the lags at which impacts fall together, and all lags around the best overlap of activity. Each is worth how
 * well running and walking alternate at it, plus something for every shared impact.
 */
export function chooseLag(
  feet: TwoFeet,
  possible: (lag_s: number) => boolean = () => true,
  near_s: number | null = null,
): LagCandidate | null {
  const stretches = thin(feet.steps.stretches);
  const byImpacts = sharedImpacts(feet.leftOnsets, feet.rightOnsets)
    .filter((impacts) => possible(impacts.lag_s) && !whileRunning(impacts, feet.steps.stretches))
    .slice(0, MOST_CANDIDATES);
  const candidates = byImpacts.map((impacts) => judge(feet, stretches, impacts.lag_s, impacts));
  if (stretches.length >= FEWEST_STRETCHES)
    candidates.push(...bySteps(feet, stretches, near_s).filter(({ lag_s }) => possible(lag_s)));
  candidates.sort((a, b) => b.value - a.value);
  const best = candidates[0];
  if (!best || !trusted(best) || (!best.impacts && near_s === null && !paceChanges(stretches))) return null;
  const rival = candidates.find(({ lag_s }) => Math.abs(lag_s - best.lag_s) > SAME_LAG_S);
  if (rival && best.value - rival.value < LEAST_MARGIN) return null;
  // The steps alone may be worth a little more beside the impacts' own lag: the impacts are what is sought.
  return (
    candidates.find(
      (other) => other.impacts && Math.abs(other.lag_s - best.lag_s) < SAME_LAG_S / 3 && trusted(other),
    ) ?? best
  );
}

function judge(feet: TwoFeet, stretches: Stretch[], lag_s: number, impacts: SharedImpacts | null): LagCandidate {
  const score = stretches.length > 0 ? lagScore(feet.steps.phases(lag_s, stretches), stretches.length) : null;
  const pairs = impacts ? Math.min(5, impacts.pairs.length) : 0;
  const closed = impacts?.closed ? 1 : 0;
  return { lag_s, impacts, score, value: (score ?? 0.5) + (score === null ? 0.1 : 0.03) * pairs + 0.05 * closed };
}

function trusted({ impacts, score }: LagCandidate): boolean {
  if (score === null) return impacts?.closed === true && impacts.pairs.length >= 3;
  return score >= (impacts && impacts.pairs.length > 1 ? LEAST_SCORE : LEAST_SCORE_STEPS_ALONE);
}

/** Steps of an even run fall on the other foot's at some lag: they are no impacts that both feet felt. */
function whileRunning({ pairs }: SharedImpacts, stretches: Stretch[]): boolean {
  const middle = pairs[pairs.length >> 1].left_s;
  return stretches.some(({ start }) => {
    const from_s = start / ENVELOPE_RATE_HZ;
    return middle > from_s - BEFORE_RUN_S && middle < from_s + 3 + AFTER_RUN_S;
  });
}

/** At an even pace every lag that is off by whole strides fits as well. */
function paceChanges(stretches: Stretch[]): boolean {
  const periods = stretches.map(({ period }) => period).sort((a, b) => a - b);
  return periods[periods.length - 1] / periods[0] > LEAST_PACE_CHANGE;
}

function thin(stretches: Stretch[]): Stretch[] {
  const every = Math.max(1, Math.ceil(stretches.length / MOST_STRETCHES));
  return stretches.filter((_, index) => index % every === 0);
}

/** Every lag near the best overlap of activity, judged by the steps alone. */
function bySteps(feet: TwoFeet, stretches: Stretch[], near_s: number | null): LagCandidate[] {
  const coarse = near_s ?? coarseLag(feet.steps.left, feet.steps.right);
  if (coarse === null) return [];
  const found: LagCandidate[] = [];
  for (let lag_s = coarse - AROUND_S; lag_s <= coarse + AROUND_S; lag_s += STEP_S)
    found.push(judge(feet, stretches, lag_s, null));
  return found.map((at, i) => (isPeak(found, i) ? finely(feet, stretches, at) : at));
}

function isPeak(found: LagCandidate[], i: number): boolean {
  const { value } = found[i];
  return value > (found[i - 1]?.value ?? 0) && value >= (found[i + 1]?.value ?? 0);
}

/** The best lag about a peak: between two steps of the search a peak loses up to a fifth, and rivals must be compared at their best. */
function finely(feet: TwoFeet, stretches: Stretch[], peak: LagCandidate): LagCandidate {
  let best = peak;
  for (let lag_s = peak.lag_s - STEP_S; lag_s < peak.lag_s + STEP_S; lag_s += FINE_STEP_S) {
    const other = judge(feet, stretches, lag_s, null);
    if (other.value > best.value) best = other;
  }
  return best;
}

/** The lag at which both feet are busy and calm at the same times, within a step or so; null where nothing stands out. */
function coarseLag(left: MotionSignal, right: MotionSignal): number | null {
  const every = ENVELOPE_RATE_HZ / COARSE_RATE_HZ;
  const thinned = (signal: MotionSignal) => activity(signal).filter((_, index) => index % every === 0);
  const [a, b] = [thinned(left), thinned(right)];
  const shorter = Math.min(a.length, b.length);
  const reach = LONGEST_LAG_S * COARSE_RATE_HZ;
  let best = { lag: 0, likeness: 0.5 };
  for (let lag = -Math.min(b.length, reach); lag <= Math.min(a.length, reach); lag++) {
    if (Math.min(a.length, b.length + lag) - Math.max(0, lag) < shorter / 2) continue;
    const likeness = activityLikeness(a, b, lag);
    if (likeness > best.likeness) best = { lag, likeness };
  }
  return best.likeness > 0.5 ? best.lag / COARSE_RATE_HZ : null;
}

import { STRETCH_S, type Stretch } from './alternation.ts';
import { LEAST_LIKENESS, LONGEST_RUNNING_STRIDE_S, PHASE_U_S } from './bouts.ts';
import { MOST_DRIFT, mayBeAStrideOff } from './drift-by-steps.ts';
import { chooseLag } from './choose-lag.ts';
import { type ClockModel, fitClock, type LagObservation, lagUncertainty } from './clock-model.ts';
import { endsOfRunning, middleOfRunning, type TwoFeet } from './look-at-feet.ts';
import { middleValue } from './middle-value.ts';
import { ENVELOPE_RATE_HZ } from './motion-signal.ts';
import { laterImpacts, type SharedImpacts, spread } from './shared-impacts.ts';

export interface ClocksFound {
  model: ClockModel;
  method: 'shared impacts' | 'step alternation';
  impacts: number;
  /** Standard uncertainty in the middle of the running, seconds. */
  u: number;
  /** The same where it is greatest: at the running furthest from all that tells the lag. */
  worst_u: number;
  confidence: number;
}

/** The feet land from one jump about this far apart ('common practice'); a knock reaches both sensors at once. */
const LANDING_U_S = 0.01;
const KNOCK_U_S = 0.001;
/** Knocks agree within a tenth of a millisecond; three landings hardly ever do by chance. */
const KNOCK_SPREAD_S = 0.00025;
/** Feet at an even pace are alike to this. */
const WELL_ALIKE = 0.04;
const WIDEST_PHASE = 0.15;

/**
 * Lag and drift of two clocks that have nothing in common: from impacts that both feet felt at once and from the alternation of the
 * steps, each by its weight; a second group of impacts after the running fixes the drift.
 * @param possible lags that can be at all, where something is known of them
 * @param near_s a lag that is known roughly; null where nothing is
 * @returns null where the recordings do not tell
 */
export function unrelatedClocks(
  feet: TwoFeet,
  possible?: (lag_s: number) => boolean,
  near_s: number | null = null,
): ClocksFound | null {
  const chosen = chooseLag(feet, possible, near_s);
  if (!chosen) return null;
  const { impacts, lag_s } = chosen;
  const from_s = impacts ? impacts.pairs[0].left_s : middleOfRunning(feet);
  const groups = impacts ? [impacts, ...groupAfter(feet, impacts)] : [];
  const observed = groups.flatMap(impactObservations);
  const rough = groups.length > 1 ? fitClock(observed) : null;
  const expected = (time_s: number) => (rough ? rough.lag_s + rough.rate * (time_s - rough.at_s) : lag_s);
  const steps = stepObservations(feet, expected, from_s);
  if (observed.length + steps.length === 0) return null;
  const model = fitClock([...observed, ...steps]);
  const count = groups.reduce((sum, group) => sum + group.pairs.length, 0);
  const confidence = count > 0 ? Math.min(0.99, 0.55 + 0.08 * count + (steps.length > 0 ? 0.15 : 0)) : 0.6;
  return {
    model,
    method: count > 0 ? 'shared impacts' : 'step alternation',
    impacts: count,
    u: lagUncertainty(model, middleOfRunning(feet)),
    worst_u: strideUntold(feet, groups)
      ? Number.POSITIVE_INFINITY
      : Math.max(...endsOfRunning(feet).map((time_s) => lagUncertainty(model, time_s))),
    confidence,
  };
}

/** True where nobody moved for so long that the clocks may have drifted by a whole stride, and no knocks behind it tell. */
function strideUntold(feet: TwoFeet, groups: SharedImpacts[]): boolean {
  if (groups.slice(1).some(areKnocks)) return false;
  const bouts = feet.steps.stretches.map(({ start, period }) => ({
    from_s: start / ENVELOPE_RATE_HZ,
    to_s: start / ENVELOPE_RATE_HZ + STRETCH_S,
    stride_s: period / ENVELOPE_RATE_HZ,
  }));
  return mayBeAStrideOff(
    bouts,
    bouts.map(() => 0),
  );
}

/** Impacts after the first group that fit a clock which drifts no more than clocks do; none or one group. */
function groupAfter(feet: TwoFeet, first: SharedImpacts): SharedImpacts[] {
  const from_s = first.pairs[0].left_s;
  const later = laterImpacts(feet.leftOnsets, feet.rightOnsets, first.lag_s, from_s, MOST_DRIFT);
  return later.filter((group) => group.closed).slice(0, 1);
}

function impactObservations(impacts: SharedImpacts): LagObservation[] {
  // Knocks agree within a sample and weigh more than landings, which differ between the feet by chance.
  const u = areKnocks(impacts) ? KNOCK_U_S : Math.max(LANDING_U_S, spread(impacts));
  return impacts.pairs.map(({ left_s, right_s }) => ({
    time_s: left_s,
    lag_s: left_s - right_s,
    u,
    from_steps: false,
  }));
}

function areKnocks(impacts: SharedImpacts): boolean {
  return impacts.pairs.length >= 3 && spread(impacts) < KNOCK_SPREAD_S;
}

/** What the steps say the lag is, stretch by stretch outwards from `from_s`, following a clock that drifts. */
function stepObservations(feet: TwoFeet, expected: (time_s: number) => number, from_s: number): LagObservation[] {
  const observations: LagObservation[] = [];
  const outwards = [...feet.steps.stretches].sort((a, b) => away(a, from_s) - away(b, from_s));
  let correction = 0;
  for (const stretch of outwards) {
    const lag = expected(stretch.start / ENVELOPE_RATE_HZ) + correction;
    const [phase] = feet.steps.phases(lag, [stretch]);
    if (!phase || Math.abs(phase.phase - 0.5) > WIDEST_PHASE || phase.likeness < LEAST_LIKENESS) continue;
    const error = (0.5 - phase.phase) * phase.stride_s;
    correction += 0.5 * error;
    if (phase.stride_s > LONGEST_RUNNING_STRIDE_S) continue;
    // Half of each stretch overlaps the next one: each counts for half. Starting and slowing make the feet less alike.
    const unlike = Math.max(1, (1 - phase.likeness) / WELL_ALIKE);
    observations.push({
      time_s: phase.time_s,
      lag_s: lag + error,
      u: PHASE_U_S * Math.SQRT2 * unlike,
      from_steps: true,
    });
  }
  // A stretch that holds a start, a turn or the slowing down lies apart from the others.
  const middle = middleValue(observations.map(({ lag_s }) => lag_s));
  return observations.filter(
    ({ lag_s, time_s }) => Math.abs(lag_s - middle) < 0.01 + MOST_DRIFT * Math.abs(time_s - from_s),
  );
}

function away({ start }: Stretch, from_s: number): number {
  return Math.abs(start / ENVELOPE_RATE_HZ - from_s);
}

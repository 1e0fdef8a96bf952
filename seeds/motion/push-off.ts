/**
 * How foot and shank turn about toe-off: the foot fastest just before it and braked hard by the ankle, the forward lean of
 * the shank almost at rest while the knee begins to fold. Instants, rates and their scatter between people were set beside
 * running and sprinting over force plates at 2.5 to 9.9 m/s (tests/generators/README.md says which, and a test holds the
 * generator to them); between those speeds they are interpolated, beyond them held.
 */
import type { Random } from '../random.ts';
import { interpolate } from './gait-table.ts';
import type { PathState } from './smooth-path.ts';

/** Speeds of the tables below, m/s. Milliseconds after toe-off at 50 N (negative: before), rad/s, rad/s2, shares of the foot's peak. */
const SPEEDS = [2.5, 3.5, 4.5, 6.3, 8.5, 9.5, 11.5];
const USUAL = {
  foot_peak: [-20, -14, -13, -18.5, -14, -10.5, -9.5],
  foot_ratio: [0.91, 0.93, 0.87, 0.81, 0.82, 0.8, 0.8],
  foot_valley: [62, 52, 43, 30, 19, 15.5, 14],
  foot_valley_share: [0.52, 0.42, 0.3, 0.27, 0.25, 0.24, 0.24],
  foot_hump: [100, 95, 84, 66, 49, 44, 40],
  foot_hump_share: [0.6, 0.6, 0.64, 0.68, 0.72, 0.73, 0.73],
  lean_slowest: [-45, -17, -11, -13, -10.5, -11.5, -11],
  lean_rate: [-0.4, -0.6, -0.9, -1, -0.3, -0.3, 0.5],
  fold_begins: [-3, 4, 1, -3.5, -4, -5, -5],
  fold_steepest: [18, 21, 14, 8.5, 4.5, 3, 2.5],
  fold_slope: [130, 205, 310, 540, 900, 1150, 1350],
  fold_rate: [6, 7.2, 8.4, 11.5, 15.5, 17, 19],
} as const;
/** Standard deviations between people. */
const BETWEEN = {
  foot_peak: [7, 4, 6, 5, 4, 2, 2],
  foot_ratio: [0.04, 0.03, 0.05, 0.05, 0.05, 0.04, 0.04],
  foot_valley: [8, 7, 6, 4, 2.5, 2, 2],
  foot_valley_share: [0.12, 0.12, 0.1, 0.08, 0.06, 0.06, 0.06],
  foot_hump: [12, 12, 10, 7, 5, 4, 4],
  foot_hump_share: [0.12, 0.12, 0.1, 0.08, 0.06, 0.06, 0.06],
  lean_slowest: [20, 8, 5, 4, 3, 1.5, 1.5],
  lean_rate: [0.6, 0.8, 0.8, 0.8, 1.2, 1.5, 1.5],
  fold_begins: [6, 4, 4, 3.5, 2.5, 1.3, 1.3],
  fold_steepest: [7, 7, 4, 3, 2.5, 2, 2],
  fold_slope: [35, 40, 50, 80, 120, 140, 150],
  fold_rate: [0.8, 0.8, 0.8, 1, 1, 1.2, 1.2],
} as const;

type PushOffKey = keyof typeof USUAL;
const KEYS = Object.keys(USUAL) as PushOffKey[];

/** A person's own way: how many standard deviations from usual, at every speed alike. */
export type PushOffWay = Record<PushOffKey, number>;

/** What makes the foot turn on a second time, nearly as fast, soon after toe-off: one runner in six below 4.5 m/s. */
export interface SecondHump {
  /** Height over the first hump, dip between them as a share of the lower one, and how far they lie apart, s. */
  ratio: number;
  dip: number;
  apart_s: number;
}

export function drawPushOffWay(random: Random): PushOffWay {
  return Object.fromEntries(KEYS.map((key) => [key, random.within(0, 1)])) as PushOffWay;
}

export function drawSecondHump(random: Random): SecondHump | null {
  const hump = {
    ratio: random.uniform(0.91, 1.06),
    dip: random.uniform(0.01, 0.07),
    apart_s: random.uniform(0.036, 0.055),
  };
  return random.uniform(0, 1) < 1 / 6 ? hump : null;
}

/** Rate of turning and its change at one instant, seconds after toe-off. */
export interface RateKnot {
  after_s: number;
  rate: number;
  acceleration: number;
}

/** Turning about toe-off: knots in time order, peak to second hump (foot), slowest lean to full fold (shank). */
export interface PushOff {
  foot: RateKnot[];
  shank: RateKnot[];
}

/**
 * @param speed_mps at which the leg is moved
 * @param gain 1 at the first push of a start, 0 at constant speed
 * @param toeOffRate of the foot at toe-off, rad/s
 */
export function drawPushOff(
  way: PushOffWay,
  second: SecondHump | null,
  speed_mps: number,
  gain: number,
  toeOffRate: number,
  random: Random,
): PushOff {
  const of = (key: PushOffKey, add = 0) => {
    const between = interpolate(SPEEDS, BETWEEN[key], speed_mps);
    return interpolate(SPEEDS, USUAL[key], speed_mps) + add + between * (way[key] + 0.3 * random.within(0, 1));
  };
  const ratio = Math.min(0.97, Math.max(0.68, of('foot_ratio')));
  const peak = toeOffRate / ratio;
  const lead = Math.min(-3, of('foot_peak', 10 * gain)) / 1000;
  const foot: RateKnot[] = [{ after_s: lead, rate: peak, acceleration: 0 }];
  // Two humps belong to easy running; they are gone in a sprint.
  const easy = second ? Math.min(1, Math.max(0, (6 - speed_mps) / 1.5)) * Math.max(0, 1 - 4 * gain) : 0;
  if (second && easy === 1) {
    const low = (1 - second.dip) * Math.min(1, second.ratio) * peak;
    foot.push(
      { after_s: lead + 0.48 * second.apart_s, rate: low, acceleration: 0 },
      { after_s: lead + second.apart_s, rate: second.ratio * peak, acceleration: 0 },
    );
  } else {
    const valley = Math.max(0.008, of('foot_valley') / 1000);
    const hump = Math.max(valley + 0.02, of('foot_hump') / 1000);
    // The fall goes on most steeply just after toe-off.
    const fall = ratio - Math.max(0.05, of('foot_valley_share'));
    foot.push(
      { after_s: 0, rate: toeOffRate, acceleration: (-1.35 * fall * peak) / valley },
      { after_s: valley, rate: (ratio - fall) * peak, acceleration: 0 },
      { after_s: hump, rate: Math.max(ratio - fall + 0.02, of('foot_hump_share')) * peak, acceleration: 0 },
    );
  }
  return { foot, shank: foldKnots(of, gain) };
}

/** Slowest lean, steepest rise and full rate of the knee's fold; between them the rate rises without overshoot. */
function foldKnots(of: (key: PushOffKey, add?: number) => number, gain: number): RateKnot[] {
  const slope = Math.max(60, of('fold_slope'));
  const rate = of('lean_rate');
  const steepest = of('fold_steepest', 7 * gain) / 1000;
  // Tangent at the steepest rise: meets the slowest rate where the fold begins.
  const rise_s = Math.max(0.004, steepest - of('fold_begins', 2 * gain) / 1000);
  // A cubic that is steepest at its end has had between a third and two thirds of its length in the tangent.
  const slowest_s = Math.min(
    (3 + 1.5 * gain) * rise_s,
    Math.max(1.5 * rise_s, steepest - of('lean_slowest', -100 * gain) / 1000),
  );
  const half = rate + slope * rise_s;
  const full = Math.max(half + 0.25 * slope * rise_s, of('fold_rate'));
  return [
    // In a start the lean picks up a little before the fold.
    { after_s: steepest - slowest_s, rate, acceleration: 25 * gain },
    { after_s: steepest, rate: half, acceleration: slope },
    { after_s: steepest + (2.2 * (full - half)) / slope, rate: full, acceleration: 0 },
  ];
}

/** Full states at the knots: angles follow from rates that change as cubics, with the given angle at toe-off. */
export function statesAtKnots(
  knots: RateKnot[],
  toe_off_s: number,
  toeOffAngle: number,
): (PathState & { time_s: number })[] {
  const states = knots.map((knot) => ({ ...knot, time_s: toe_off_s + knot.after_s, value: 0 }));
  for (let i = 1; i < states.length; i++) {
    const h = states[i].time_s - states[i - 1].time_s;
    states[i].value =
      states[i - 1].value +
      (h * (states[i - 1].rate + states[i].rate)) / 2 +
      (h * h * (states[i - 1].acceleration - states[i].acceleration)) / 12;
  }
  const shift = toeOffAngle - angleAt(states, toe_off_s);
  return states.map(({ time_s, value, rate, acceleration }) => ({ time_s, value: value + shift, rate, acceleration }));
}

function angleAt(states: (PathState & { time_s: number })[], time_s: number): number {
  let i = 0;
  while (i < states.length - 2 && time_s > states[i + 1].time_s) i++;
  const [a, b] = [states[i], states[i + 1]];
  const h = b.time_s - a.time_s;
  const u = (time_s - a.time_s) / h;
  // Integral of the cubic that has these rates and accelerations at its ends.
  return (
    a.value +
    h *
      (a.rate * (u - u ** 3 + u ** 4 / 2) +
        b.rate * (u ** 3 - u ** 4 / 2) +
        a.acceleration * h * (u ** 2 / 2 - (2 * u ** 3) / 3 + u ** 4 / 4) +
        b.acceleration * h * (u ** 4 / 4 - u ** 3 / 3))
  );
}

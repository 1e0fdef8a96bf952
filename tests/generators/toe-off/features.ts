/**
 * Where the features of foot and shank lie about toe-off, by the simplest means: zero-phase low-pass, highest and lowest
 * values, one tangent. Nothing here is shared with the detector or a generator, so that both can be judged by it. On the
 * recorded sprint at 9.5 m/s it gives the published values (features.test.ts).
 */

/** Turning of one segment about the mediolateral axis, rad/s: foot heel up, shank leaning forward positive. */
export interface Turning {
  start_s: number;
  rate_hz: number;
  radps: Float64Array;
}

export interface ToeOffFeatures {
  contact_ms: number;
  /** Fastest turning of the foot: ms after toe-off (negative: before), and rate at toe-off over rate there. */
  foot_peak_ms: number;
  foot_ratio: number;
  /** Slowest forward lean of the shank before the knee folds, and its rate, rad/s. */
  lean_slowest_ms: number;
  lean_slowest_radps: number;
  /** The tangent at the steepest rise of the fold meets the slowest rate here. */
  fold_begins_ms: number;
  fold_steepest_ms: number;
  /** Two humps of the foot's rate, push and fold: later over earlier, and the dip as a share of the lower; else null. */
  humps: { ratio: number; dip: number; apart_ms: number } | null;
}

/** Second-order Butterworth run forwards and backwards: 3 dB down at `cutoff_hz` in all (0.802 of one pass's corner). */
export function zeroPhase(x: Float64Array, cutoff_hz: number, rate_hz: number): Float64Array {
  const k = Math.tan((Math.PI * cutoff_hz) / 0.802 / rate_hz);
  const scale = 1 / (1 + Math.SQRT2 * k + k * k);
  const [b, a1, a2] = [k * k * scale, 2 * (k * k - 1) * scale, (1 - Math.SQRT2 * k + k * k) * scale];
  const pass = (input: Float64Array): Float64Array => {
    const out = new Float64Array(input.length);
    let [x1, x2, y1, y2] = [input[0], input[0], input[0], input[0]];
    for (let i = 0; i < input.length; i++) {
      out[i] = b * (input[i] + 2 * x1 + x2) - a1 * y1 - a2 * y2;
      [x2, x1, y2, y1] = [x1, input[i], y1, out[i]];
    }
    return out.reverse();
  };
  return pass(pass(x));
}

/** Cubic through four samples, so that instants are finer than the sampling. */
function valueAt({ start_s, rate_hz, radps }: Turning, time_s: number): number {
  const u = Math.min(radps.length - 3, Math.max(1, (time_s - start_s) * rate_hz));
  const i = Math.floor(u);
  const s = u - i;
  const [a, b, c, d] = radps.subarray(i - 1, i + 3);
  return b + 0.5 * s * (c - a + s * (2 * a - 5 * b + 4 * c - d + s * (3 * (b - c) + d - a)));
}

const STEP_S = 0.0005;

/**
 * @param foot and
 * @param shank low-passed already, both reaching 0.12 s beyond toe-off
 * @param touchdown_s and
 * @param toe_off_s at 50 N
 */
export function toeOffFeatures(foot: Turning, shank: Turning, touchdown_s: number, toe_off_s: number): ToeOffFeatures {
  const contact = toe_off_s - touchdown_s;
  const search = (from: number, to: number, score: (time_s: number) => number): number => {
    let best = from;
    for (let t = from; t <= to; t += STEP_S) if (score(t) > score(best)) best = t;
    return best;
  };
  const footAt = (t: number) => valueAt(foot, t);
  const leanAt = (t: number) => valueAt(shank, t);
  const rise = (t: number) => (leanAt(t + STEP_S) - leanAt(t - STEP_S)) / (2 * STEP_S);
  const peak = search(toe_off_s - 0.35 * contact, toe_off_s + 0.015, footAt);
  const steepest = search(toe_off_s - 0.025, toe_off_s + 0.04, rise);
  const slowest = search(toe_off_s - 0.35 * contact, steepest, (t) => -leanAt(t));
  const begins = steepest - (leanAt(steepest) - leanAt(slowest)) / rise(steepest);
  const after = (t: number) => 1000 * (t - toe_off_s);
  return {
    contact_ms: 1000 * contact,
    foot_peak_ms: after(peak),
    foot_ratio: footAt(toe_off_s) / footAt(peak),
    lean_slowest_ms: after(slowest),
    lean_slowest_radps: leanAt(slowest),
    fold_begins_ms: after(begins),
    fold_steepest_ms: after(steepest),
    humps: humpsOf(footAt, toe_off_s, contact),
  };
}

/** The two highest peaks of the foot's rate from a third of contact before toe-off to 80 ms after it. */
function humpsOf(footAt: (t: number) => number, toe_off_s: number, contact: number): ToeOffFeatures['humps'] {
  const peaks: number[] = [];
  for (let t = toe_off_s - 0.35 * contact; t < toe_off_s + 0.08; t += 2 * STEP_S) {
    if (footAt(t) > footAt(t - 2 * STEP_S) && footAt(t) >= footAt(t + 2 * STEP_S)) peaks.push(t);
  }
  if (peaks.length < 2) return null;
  const [first, second] = peaks
    .sort((a, b) => footAt(b) - footAt(a))
    .slice(0, 2)
    .sort((a, b) => a - b);
  let low = footAt(first);
  for (let t = first; t < second; t += STEP_S) low = Math.min(low, footAt(t));
  return {
    ratio: footAt(second) / footAt(first),
    dip: 1 - low / Math.min(footAt(first), footAt(second)),
    apart_ms: 1000 * (second - first),
  };
}

import type { Gap } from '../../shared/sample-block.ts';
import { brokenIntervals, typicalInterval } from '../filters/index.ts';
import { median } from '../numeric/statistics.ts';

/** Stamps that scatter by less than this part of an interval are even enough for every feature. Own choice. */
const EVEN = 0.02;
/** Below this many samples neither the scatter nor the evidence of the signal means anything. */
const LEAST_SAMPLES = 200;
/** The clock's own wandering is followed over this long to either side, s: a crystal warms up over seconds and more. */
const FOLLOW_S = 0.25;
/** Scatter that neighbours share is no jitter: samples that came in batches, a clock that was set, a sample lost unsaid. */
const MOST_SHARED = 0.3;
/** As many samples, spread over the recording, tell how smooth a signal is. */
const ASKED = 4000;
/** The signal must be smoother by this much on even times before the stamps are doubted. Own choice. */
const CLEARLY_SMOOTHER = 0.95;

/**
 * Times of samples that were taken evenly but stamped unevenly, as by an operating system that was busy: the stamps' own noise is
 * taken out, the clock's wandering stays. Whether stamps or samples are uneven is asked of the signal: on the right times, samples lie
 * better on the cubic through their neighbours.
 *
 * @param time_s n increasing stamps, s
 * @param columns channels of n samples; NaN where one is missing
 * @param gaps listed losses; every stretch between two has an offset of its own
 * @returns n increasing times, s; null where the stamps are even, where their scatter is not jitter, or where the signal does not speak
 * for even times
 */
export function steadyTimes(
  time_s: Float64Array,
  columns: readonly Float64Array[],
  gaps: readonly Gap[],
): Float64Array | null {
  if (time_s.length < LEAST_SAMPLES) return null;
  const stretches = unbroken(time_s, gaps);
  const period_s = commonPeriod(time_s, stretches);
  if (!(period_s > 0)) return null;
  const steady = new Float64Array(time_s.length);
  const reach = Math.max(1, Math.round(FOLLOW_S / period_s));
  let [squares, shared] = [0, 0];
  for (const [from, to] of stretches) {
    const late = followed(time_s, from, to, period_s, reach);
    let before = 0;
    for (let i = from; i < to; i++) {
      steady[i] = period_s * (i - from) + late[i - from];
      const off = time_s[i] - steady[i];
      squares += off * off;
      if (i > from) shared += off * before;
      before = off;
    }
  }
  const scatter_s = Math.sqrt(squares / time_s.length);
  if (scatter_s < EVEN * period_s || shared > MOST_SHARED * squares) return null;
  for (let i = 1; i < steady.length; i++) if (steady[i] <= steady[i - 1]) return null;
  const [on_even, on_stamps] = [roughness(steady, columns, stretches), roughness(time_s, columns, stretches)];
  return on_even < CLEARLY_SMOOTHER * on_stamps ? steady : null;
}

/** A jittering stamp makes an interval of nearly two; from three on a sample is missing. */
const BROKEN = 3;

/** Stretches [from, to) whose samples belong together. */
function unbroken(time_s: Float64Array, gaps: readonly Gap[]): [number, number][] {
  const broken = brokenIntervals(time_s, gaps, BROKEN * typicalInterval(time_s));
  const out: [number, number][] = [];
  let from = 0;
  for (let i = 1; i <= time_s.length; i++) {
    if (i < time_s.length && !broken[i - 1]) continue;
    out.push([from, i]);
    from = i;
  }
  return out;
}

/** Least-squares interval within the stretches, s; each has an offset of its own. */
function commonPeriod(time_s: Float64Array, stretches: readonly [number, number][]): number {
  let [products, squares] = [0, 0];
  for (const [from, to] of stretches) {
    const middle = (from + to - 1) / 2;
    for (let i = from; i < to; i++) {
      products += (i - middle) * time_s[i];
      squares += (i - middle) ** 2;
    }
  }
  return squares > 0 ? products / squares : 0;
}

/** How late each stamp of one stretch is against an even clock, as the straight line through those about it has it, s. */
function followed(time_s: Float64Array, from: number, to: number, period_s: number, reach: number): Float64Array {
  const n = to - from;
  // Sums up to each sample of lateness and of place times lateness, so that every window costs the same.
  const [sum, moment] = [new Float64Array(n + 1), new Float64Array(n + 1)];
  const late = (i: number): number => time_s[from + i] - time_s[from] - period_s * i;
  for (let i = 0; i < n; i++) {
    sum[i + 1] = sum[i] + late(i);
    moment[i + 1] = moment[i] + i * late(i);
  }
  return Float64Array.from({ length: n }, (_, i) => {
    const a = Math.max(0, i - reach);
    const b = Math.min(n, i + reach + 1);
    const count = b - a;
    const middle = (a + b - 1) / 2;
    const mean = (sum[b] - sum[a]) / count;
    const spread = (count * (count * count - 1)) / 12;
    // At an end the window is one-sided: a line does not lag there, and costs only twice the noise.
    const slope = spread > 0 ? (moment[b] - moment[a] - middle * count * mean) / spread : 0;
    return time_s[from] + mean + slope * (i - middle);
  });
}

/** Middle distance of a sample from the cubic through two neighbours on either side, over the channels. */
function roughness(
  time_s: Float64Array,
  columns: readonly Float64Array[],
  stretches: readonly [number, number][],
): number {
  const every = Math.ceil(time_s.length / ASKED);
  const off: number[] = [];
  const weights = [0, 0, 0, 0];
  const places = [-2, -1, 1, 2];
  for (const [from, to] of stretches) {
    for (let i = from + 2; i < to - 2; i += every) {
      for (let k = 0; k < 4; k++) {
        let weight = 1;
        for (let l = 0; l < 4; l++) {
          if (l === k) continue;
          weight *= (time_s[i] - time_s[i + places[l]]) / (time_s[i + places[k]] - time_s[i + places[l]]);
        }
        weights[k] = weight;
      }
      let squares = 0;
      for (const x of columns) {
        const cubic = weights[0] * x[i - 2] + weights[1] * x[i - 1] + weights[2] * x[i + 1] + weights[3] * x[i + 2];
        squares += (x[i] - cubic) ** 2;
      }
      if (Number.isFinite(squares)) off.push(Math.sqrt(squares));
    }
  }
  return off.length > 0 ? median(off) : Number.NaN;
}

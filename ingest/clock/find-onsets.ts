import type { SampleBlock } from '../../shared/sample-block.ts';
import { smooth } from './motion-signal.ts';

/** The start of a sharp change of acceleration: an impact of the foot, or a knock on the sensor. */
export interface Onset {
  time_s: number;
  /** Peak rate of change of acceleration, m/s3. */
  strength: number;
}

const SMOOTHING_S = 0.006;
/** Onsets weaker than this share of the strong ones are left out. */
const LEAST_SHARE = 0.12;
const STRONG_QUANTILE = 0.998;
/** One impact rings for less than this. */
const APART_S = 0.15;
/** The onset lies where the change first reaches this share of its peak. */
const RISE_SHARE = 0.3;
const LONGEST_RISE_S = 0.03;

/**
 * Picks impacts from one foot's acceleration.
 * @returns onsets in time order, to a fraction of a sample
 * Method: size of the vector's change from sample to sample over 6 ms; local peaks, then back to where the rise begins.
 * Limits: two impacts closer than 0.15 s count as one.
 */
export function findOnsets(block: SampleBlock): Onset[] {
  const { time_s, acc_mps2, sampling_rate_hz: rate } = block;
  const n = time_s.length;
  if (n < 10) return [];
  const change = new Float64Array(n);
  for (let i = 1; i < n; i++) {
    const step = time_s[i] - time_s[i - 1];
    const size = Math.hypot(
      acc_mps2.x[i] - acc_mps2.x[i - 1],
      acc_mps2.y[i] - acc_mps2.y[i - 1],
      acc_mps2.z[i] - acc_mps2.z[i - 1],
    );
    if (step < 2.5 / rate && !Number.isNaN(size)) change[i] = size / step;
  }
  const jerk = smooth(change, Math.max(0, Math.round((SMOOTHING_S * rate) / 2)));
  const sorted = jerk.slice().sort();
  const least = LEAST_SHARE * sorted[Math.floor(STRONG_QUANTILE * (n - 1))];
  const peaks: number[] = [];
  for (let i = 1; i < n - 1; i++) {
    if (jerk[i] < least || jerk[i] < jerk[i - 1] || jerk[i] <= jerk[i + 1]) continue;
    const last = peaks[peaks.length - 1];
    if (last !== undefined && time_s[i] - time_s[last] < APART_S) {
      if (jerk[i] > jerk[last]) peaks[peaks.length - 1] = i;
    } else peaks.push(i);
  }
  return peaks.map((peak) => ({ time_s: riseBefore(jerk, time_s, peak), strength: jerk[peak] }));
}

function riseBefore(jerk: Float64Array, time_s: Float64Array, peak: number): number {
  const level = RISE_SHARE * jerk[peak];
  let i = peak;
  while (i > 0 && jerk[i] > level && time_s[peak] - time_s[i] < LONGEST_RISE_S) i--;
  if (jerk[i] > level) return time_s[i];
  return time_s[i] + ((time_s[i + 1] - time_s[i]) * (level - jerk[i])) / (jerk[i + 1] - jerk[i]);
}

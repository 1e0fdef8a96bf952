import type { AxisColumns, SampleBlock } from '../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';

/** A signal on an even grid that does not depend on how the sensor is mounted. */
export interface MotionSignal {
  rate_hz: number;
  /** Value i belongs to i / rate_hz seconds after the recording's first sample; 0 inside gaps. */
  values: Float64Array;
}

export const ENVELOPE_RATE_HZ = 200;

/**
 * How much a foot moves, on an even grid: rotation rate where there is a gyroscope, else acceleration beyond gravity, smoothed
 * over 30 ms. Norms only: mounting does not matter.
 * @param block n samples; gaps stay 0
 */
export function motionEnvelope(block: SampleBlock): MotionSignal {
  const source = block.gyr_radps ? normOf(block.gyr_radps, 0) : normOf(block.acc_mps2, STANDARD_GRAVITY_MPS2);
  const grid = onGrid(block, source, ENVELOPE_RATE_HZ);
  return { rate_hz: ENVELOPE_RATE_HZ, values: smooth(grid, Math.round(0.03 * ENVELOPE_RATE_HZ)) };
}

function normOf(axes: AxisColumns, offset: number): Float64Array {
  return Float64Array.from(axes.x, (x, i) => {
    const norm = Math.hypot(x, axes.y[i], axes.z[i]);
    return Number.isNaN(norm) ? 0 : Math.abs(norm - offset);
  });
}

/** Linear between neighbours, 0 where they lie further apart than 2.5 sample periods. */
export function onGrid(block: SampleBlock, values: Float64Array, rate_hz: number): Float64Array {
  const { time_s } = block;
  const n = time_s.length === 0 ? 0 : Math.floor(time_s[time_s.length - 1] * rate_hz) + 1;
  const widest = Math.max(2.5 / block.sampling_rate_hz, 1.5 / rate_hz);
  const grid = new Float64Array(n);
  let at = 0;
  for (let i = 0; i < n; i++) {
    const t = i / rate_hz;
    while (at + 1 < time_s.length && time_s[at + 1] < t) at++;
    if (at + 1 >= time_s.length) break;
    const step = time_s[at + 1] - time_s[at];
    if (step <= widest) grid[i] = values[at] + ((values[at + 1] - values[at]) * (t - time_s[at])) / step;
  }
  return grid;
}

/** Mean over 2 half + 1 values; ends use what is there. */
export function smooth(values: Float64Array, half: number): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i] + values[i];
  return Float64Array.from(values, (_, i) => {
    const from = Math.max(0, i - half);
    const to = Math.min(values.length, i + half + 1);
    return (sums[to] - sums[from]) / (to - from);
  });
}

/**
 * Correlation of two recordings' activity (envelope smoothed over 0.5 s) where they overlap at a lag.
 * @param shift values by which the right comes later
 * @returns -1 to 1; 0 where they overlap by fewer than 30 values
 */
export function activityLikeness(left: Float64Array, right: Float64Array, shift: number): number {
  const from = Math.max(0, shift);
  const to = Math.min(left.length, right.length + shift);
  const n = to - from;
  if (n < 30) return 0;
  let sumA = 0;
  let sumB = 0;
  let sumAA = 0;
  let sumBB = 0;
  let sumAB = 0;
  for (let i = from; i < to; i++) {
    const a = left[i];
    const b = right[i - shift];
    sumA += a;
    sumB += b;
    sumAA += a * a;
    sumBB += b * b;
    sumAB += a * b;
  }
  const spread = (sumAA - (sumA * sumA) / n) * (sumBB - (sumB * sumB) / n);
  return spread > 0 ? (sumAB - (sumA * sumB) / n) / Math.sqrt(spread) : 0;
}

/** What `activityLikeness` takes. */
export function activity(signal: MotionSignal): Float64Array {
  return smooth(signal.values, Math.round(0.25 * ENVELOPE_RATE_HZ));
}

import type { AxisColumns } from '../../shared/sample-block.ts';
import { type SensorSignals, thinned } from '../signals/sensor-signals.ts';

/** Noise and bias need no more samples than this a second. */
const ENOUGH_HZ = 100;

/** What a sensor reads while it lies still. */
export interface Resting {
  /** Mean norm of acceleration, m/s2. */
  norm_mps2: number;
  /** Standard deviation of acceleration about its mean, root of the sum over axes / 3, m/s2. */
  acc_noise_mps2: number;
  /** Length of the mean angular rate, rad/s; null without gyroscope. */
  gyr_bias_radps: number | null;
  gyr_noise_radps: number | null;
}

/**
 * The quietest window of the recording, if it is quiet enough to be rest.
 * @param window_s length of the window
 * @param limit_mps2 a window that scatters more is no rest
 * @returns null where no window is quiet enough
 */
export function restingReadings(signals: SensorSignals, window_s: number, limit_mps2: number): Resting | null {
  const every = Math.max(1, Math.floor(signals.rate_hz / ENOUGH_HZ));
  const thin = ({ x, y, z }: AxisColumns): AxisColumns => ({
    x: thinned(x, every),
    y: thinned(y, every),
    z: thinned(z, every),
  });
  const a = thin(signals.acc_mps2);
  const g = signals.gyr_radps && thin(signals.gyr_radps);
  const length = a.x.length;
  const size = Math.round((window_s * signals.rate_hz) / every);
  let quietest: { from: number; sd: number } | null = null;
  for (let from = 0; from + size <= length; from += Math.max(1, size >> 1)) {
    const sd = scatter([a.x, a.y, a.z], from, size);
    if (Number.isFinite(sd) && (!quietest || sd < quietest.sd)) quietest = { from, sd };
  }
  if (!quietest || quietest.sd > limit_mps2) return null;
  const { from, sd } = quietest;
  const [x, y, z] = [a.x, a.y, a.z].map((column) => mean(column, from, size));
  const bias = g ? [g.x, g.y, g.z].map((column) => mean(column, from, size)) : null;
  return {
    norm_mps2: Math.hypot(x, y, z),
    acc_noise_mps2: sd,
    gyr_bias_radps: bias ? Math.hypot(bias[0], bias[1], bias[2]) : null,
    gyr_noise_radps: g ? scatter([g.x, g.y, g.z], from, size) : null,
  };
}

function mean(x: Float64Array, from: number, size: number): number {
  let sum = 0;
  for (let i = from; i < from + size; i++) sum += x[i];
  return sum / size;
}

/** Root mean square over the axes of each axis' standard deviation. */
function scatter(columns: Float64Array[], from: number, size: number): number {
  let total = 0;
  for (const x of columns) {
    const m = mean(x, from, size);
    let sum = 0;
    for (let i = from; i < from + size; i++) sum += (x[i] - m) ** 2;
    total += sum / (size - 1);
  }
  return Math.sqrt(total / columns.length);
}

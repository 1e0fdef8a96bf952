import type { SensorSignals } from '../signals/sensor-signals.ts';
import type { StrideSettings } from '../settings/strides.ts';

/**
 * The sample at which a foot comes nearest to rest during a contact: least mean squared rotation rate over a short
 * window. A foot that does not turn while it is on the ground does not travel either.
 * @param touchdown_s sensor clock
 * @param toe_off_s sensor clock
 * @returns index into the signals' columns; null without gyroscope or where samples are missing
 */
export function restInstant(
  signals: SensorSignals,
  touchdown_s: number,
  toe_off_s: number,
  settings: StrideSettings,
): number | null {
  const g = signals.gyr_radps;
  if (!g) return null;
  const { rate_hz, start_s, length } = signals;
  const { earliest_share, latest_share, half_width_share, half_width_s } = settings.rest;
  const contact = toe_off_s - touchdown_s;
  const index = (share: number): number => (touchdown_s + share * contact - start_s) * rate_hz;
  const half = Math.max(1, Math.round(Math.min(half_width_s, half_width_share * contact) * rate_hz));
  const [from, to] = [Math.ceil(index(earliest_share)), Math.floor(index(latest_share))];
  if (from - half < 0 || to + half >= length || from > to) return null;
  let sum = 0;
  const squared = (i: number): number => g.x[i] ** 2 + g.y[i] ** 2 + g.z[i] ** 2;
  for (let i = from - half; i <= from + half; i++) sum += squared(i);
  let [best, least] = [from, sum];
  for (let i = from + 1; i <= to; i++) {
    sum += squared(i + half) - squared(i - half - 1);
    if (sum < least) [best, least] = [i, sum];
  }
  return Number.isFinite(sum) ? best : null;
}

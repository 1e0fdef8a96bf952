import type { SensorSignals } from '../events/sensor-signals.ts';

/** Part of the contact in which the foot can lie still: after the slap of landing, before the heel rises. */
const [EARLIEST, LATEST] = [0.15, 0.7];
/** Half width of the window whose mean rotation is compared: a share of the contact, at most this long. */
const HALF_WIDTH_SHARE = 0.15;
const HALF_WIDTH_S = 0.03;

/**
 * The sample at which a foot comes nearest to rest during a contact: least mean squared rotation rate over a short
 * window. A foot that does not turn while it is on the ground does not travel either.
 * @param touchdown_s sensor clock
 * @returns index into the signals' columns; null without gyroscope or where samples are missing
 */
export function restInstant(signals: SensorSignals, touchdown_s: number, toe_off_s: number): number | null {
  const g = signals.gyr_radps;
  if (!g) return null;
  const { rate_hz, start_s, length } = signals;
  const contact = toe_off_s - touchdown_s;
  const index = (share: number): number => (touchdown_s + share * contact - start_s) * rate_hz;
  const half = Math.max(1, Math.round(Math.min(HALF_WIDTH_S, HALF_WIDTH_SHARE * contact) * rate_hz));
  const [from, to] = [Math.ceil(index(EARLIEST)), Math.floor(index(LATEST))];
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

import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import { lowPass, type SensorSignals } from '../signals/sensor-signals.ts';
import { norm } from '../signals/sagittal-axis.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

/**
 * How much a sensor moves: 1 at the limit of stillness, sample by sample.
 * @returns one value a sample, in limits of stillness
 */
export function motionLevel(signals: SensorSignals, settings: AnalysisSettings): Float64Array {
  const { cutoff_hz, still_radps, still_mps2 } = settings.start;
  const { rate_hz, acc_norm, gyr_radps: g, length } = signals;
  const rotation = g ? lowPass(norm(g), cutoff_hz, rate_hz) : null;
  const force = lowPass(acc_norm, cutoff_hz, rate_hz);
  const out = new Float64Array(length);
  for (let i = 0; i < length; i++) {
    const push = Math.abs(force[i] - STANDARD_GRAVITY_MPS2) / still_mps2;
    out[i] = rotation ? Math.max(push, rotation[i] / still_radps) : push;
  }
  return out;
}

/**
 * First movement of a start: the end of the last stillness before a repetition's first touchdown.
 * @param motion_level from `motionLevel`, one a sensor
 * @param before_s the first touchdown, on each sensor's own clock
 * @returns instants on the sensors' own clocks, null for a sensor that was not still
 */
export function firstMovement(
  signals: SensorSignals,
  motion_level: Float64Array,
  before_s: number,
  settings: AnalysisSettings,
): number | null {
  const { rate_hz, start_s } = signals;
  const { still_for_s, longest_start_s } = settings.start;
  const last = Math.min(motion_level.length - 1, Math.floor((before_s - start_s) * rate_hz));
  const earliest = Math.max(0, last - Math.round(longest_start_s * rate_hz));
  const needed = Math.round(still_for_s * rate_hz);
  let run = 0;
  for (let i = last; i >= earliest; i--) {
    run = motion_level[i] < 1 ? run + 1 : 0;
    if (run === needed) return start_s + (i + needed - 1) / rate_hz;
  }
  return null;
}

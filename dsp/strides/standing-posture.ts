import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import { unit, type Vector3 } from '../numeric/rotation.ts';
import type { StrideSettings } from '../settings/strides.ts';

/** A stretch of rest and which way was up in it. */
export interface Rest {
  start_s: number;
  end_s: number;
  up: Vector3;
}

/** All stretches of at least a second in which the sensor lay still, on the sensor's clock. */
export function restingStretches(signals: SensorSignals, settings: StrideSettings): Rest[] {
  const { standing_s, still_radps, still_mps2 } = settings.shank;
  const { gyr_radps: g, acc_mps2: a, rate_hz, start_s, length } = signals;
  if (!g) return [];
  const rests: Rest[] = [];
  let from = -1;
  for (let i = 0; i <= length; i++) {
    const still =
      i < length &&
      Math.hypot(g.x[i], g.y[i], g.z[i]) < still_radps &&
      Math.abs(Math.hypot(a.x[i], a.y[i], a.z[i]) - STANDARD_GRAVITY_MPS2) < still_mps2;
    if (still && from < 0) from = i;
    if (!still && from >= 0) {
      if (i - from >= standing_s * rate_hz) {
        const mean = (x: Float64Array): number => x.subarray(from, i).reduce((sum, v) => sum + v, 0) / (i - from);
        rests.push({
          start_s: start_s + from / rate_hz,
          end_s: start_s + i / rate_hz,
          up: unit([mean(a.x), mean(a.y), mean(a.z)]),
        });
      }
      from = -1;
    }
  }
  return rests;
}

import type { Mounting } from '../../shared/words.ts';
import type { Random } from '../random.ts';
import { randomRotation, type SensorModel } from './sensor-model.ts';

/** A sensor of good present-day kind: 1000 Hz, 16 bit, with the ranges that sprinting needs. */
export function drawSensor(mounting: Mounting, random: Random, given: Partial<SensorModel> = {}): SensorModel {
  const foot = mounting === 'foot';
  const rate = given.rate_hz ?? 1000;
  return {
    rate_hz: rate,
    acc_range_g: 200,
    gyr_range_dps: 4000,
    has_gyroscope: true,
    bits: 16,
    lever_m: foot
      ? [random.uniform(-0.05, 0.08), random.uniform(-0.03, 0.03), random.uniform(-0.04, 0.01)]
      : [random.uniform(-0.01, 0.04), random.uniform(-0.04, 0.04), random.uniform(0.06, 0.24)],
    mounting: randomRotation(random),
    strap_hz: random.uniform(foot ? 50 : 35, foot ? 110 : 80),
    strap_damping: random.uniform(0.2, 0.5),
    bandwidth_hz: 0.4 * rate,
    acc_noise_mps2: random.uniform(0.05, 0.25),
    gyr_noise_dps: random.uniform(0.05, 0.4),
    acc_bias_mps2: [random.normal(0, 0.15), random.normal(0, 0.15), random.normal(0, 0.15)],
    gyr_bias_dps: [random.normal(0, 0.6), random.normal(0, 0.6), random.normal(0, 0.6)],
    gyr_warming_dps_per_min: random.normal(0, 0.3),
    stamp_jitter_s: 0,
    clock_drift: 0,
    lost_share: 0,
    packet_samples: 12,
    start_s: 0,
    ...given,
  };
}

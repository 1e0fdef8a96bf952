/** Features about toe-off of the first generator's runners (seeds/). */
import { type GenerateOptions, generateRepetition } from '../../../seeds/generate-repetition.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import { type ToeOffFeatures, toeOffFeatures, type Turning, zeroPhase } from './features.ts';

/** A sensor that reads the segment's own turning and nothing else: no strap, no electronics, no noise. */
export const BARE = {
  rate_hz: 1000,
  gyr_range_dps: 8000,
  bits: 24,
  lever_m: [0, 0, 0],
  mounting: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  strap_hz: Number.POSITIVE_INFINITY,
  bandwidth_hz: Number.POSITIVE_INFINITY,
  acc_noise_mps2: 0,
  gyr_noise_dps: 0,
  acc_bias_mps2: [0, 0, 0],
  gyr_bias_dps: [0, 0, 0],
  gyr_warming_dps_per_min: 0,
} satisfies GenerateOptions['sensor'];

const turningOf = (block: SampleBlock, cutoff_hz: number): Turning => ({
  start_s: 0,
  rate_hz: block.sampling_rate_hz,
  radps: zeroPhase(block.gyr_radps?.y ?? new Float64Array(0), cutoff_hz, block.sampling_rate_hz),
});

/** One entry a contact, in time order. */
export function firstGeneratorFeatures(options: GenerateOptions, cutoff_hz: number): ToeOffFeatures[] {
  const made = generateRepetition({ threshold_n: 50, ...options, sensor: BARE });
  const sides = ['left', 'right'] as const;
  const turning = Object.fromEntries(
    sides.map((side) => [
      side,
      { foot: turningOf(made.sensors.foot[side], cutoff_hz), shank: turningOf(made.sensors.shank[side], cutoff_hz) },
    ]),
  );
  const end_s = turning.left.foot.radps.length / turning.left.foot.rate_hz;
  return made.truth.contacts
    .filter(({ touchdown_s, toe_off_s }) => touchdown_s > 0.05 && toe_off_s < end_s - 0.15)
    .map(({ side, touchdown_s, toe_off_s }) =>
      toeOffFeatures(turning[side].foot, turning[side].shank, touchdown_s, toe_off_s),
    );
}

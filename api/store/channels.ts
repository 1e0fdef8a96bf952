import type { AxisColumns, SampleBlock } from '../../shared/sample-block.ts';

/** The channels of a recording. */
export const CHANNELS = ['time_s', 'acc_x', 'acc_y', 'acc_z', 'gyr_x', 'gyr_y', 'gyr_z'] as const;

export type Channel = (typeof CHANNELS)[number];

/** One channel's values of some samples. */
export function columnOf(samples: SampleBlock, channel: Channel): Float64Array {
  if (channel === 'time_s') return samples.time_s;
  const axes = channel.startsWith('acc') ? samples.acc_mps2 : samples.gyr_radps!;
  return axes[channel.slice(-1) as keyof AxisColumns];
}

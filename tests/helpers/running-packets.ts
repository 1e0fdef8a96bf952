/** A repetition that never happened, as the packets that two shoe sensors would send. */
import { encodePackets } from '../../ingest/ble/packets/encode-packets.ts';
import { type GenerateOptions, generateRepetition } from '../../seeds/generate-repetition.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../shared/schemas/stream-description.ts';

export interface RunningPackets {
  blocks: { left: SampleBlock; right: SampleBlock };
  /** For a simulated sensor: when each packet is due after the start of streaming. */
  recorded: Record<'left' | 'right', { bytes: string; due_s: number }[]>;
  contacts: number;
  /** Of all contacts, left and right in turn, by the common clock. */
  touchdowns_s: number[];
  last_toe_off_s: number;
}

export function runningPackets(
  description: StreamDescription,
  settings: StreamSettings,
  options: Partial<GenerateOptions> = {},
): RunningPackets {
  const mounting = 'foot';
  const made = generateRepetition({
    seed: 11,
    repetitions: [{ distance_m: 20, effort: 0.95, run_out_s: 0.3 }],
    stand_before_s: 1.5,
    walk_steps: 1,
    stand_after_s: 1.5,
    mountings: [mounting],
    internal_rate_hz: 2000,
    ...options,
    sensor: { rate_hz: settings.rate_hz, acc_range_g: 32, gyr_range_dps: 4000, ...options.sensor },
  });
  const blocks = made.sensors[mounting];
  const recorded = (side: 'left' | 'right') =>
    encodePackets(description, settings, blocks[side]).map(({ bytes, first_sample, samples }) => ({
      bytes: Buffer.from(bytes).toString('hex'),
      due_s: (first_sample + samples) / settings.rate_hz,
    }));
  return {
    blocks,
    recorded: { left: recorded('left'), right: recorded('right') },
    contacts: made.truth.contacts.length,
    touchdowns_s: made.truth.contacts.map(({ touchdown_s }) => touchdown_s),
    last_toe_off_s: made.truth.contacts.at(-1)!.toe_off_s,
  };
}

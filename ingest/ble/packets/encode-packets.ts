import type { SampleBlock } from '../../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { channelTargets } from './decode-packet.ts';
import { NUMBER_CODECS } from './number-types.ts';

export interface EncodedPacket {
  bytes: Uint8Array;
  /** Index of the packet's first sample, and how many it carries. */
  first_sample: number;
  samples: number;
}

/**
 * The inverse of the decoder: the packets that a sensor of this description would send for a block of samples.
 * Values are rounded to counts and clipped at the type's limits, as a sensor does. Used for the demo's replay.
 * @param block at the rate of `settings`, without gaps
 * @param first_counter counter of the first packet (or sample), to start anywhere in its range
 */
export function encodePackets(
  description: StreamDescription,
  settings: StreamSettings,
  block: SampleBlock,
  options: { first_counter?: number; first_time_s?: number; battery_percent?: number } = {},
): EncodedPacket[] {
  const targets = channelTargets(description, settings);
  const { packet } = description;
  const little = packet.byte_order === 'little';
  const columns = [block.acc_mps2.x, block.acc_mps2.y, block.acc_mps2.z];
  if (block.gyr_radps) columns.push(block.gyr_radps.x, block.gyr_radps.y, block.gyr_radps.z);
  const per_packet = typeof packet.samples === 'number' ? packet.samples : packet.max_samples;
  const total = block.time_s.length;
  const packets: EncodedPacket[] = [];
  for (let at = 0; at < total; at += per_packet) {
    const samples = Math.min(per_packet, total - at);
    if (typeof packet.samples === 'number' && samples < per_packet) break;
    packets.push({ bytes: encodeOne(at, samples, packets.length), first_sample: at, samples });
  }
  return packets;

  function encodeOne(at: number, samples: number, number: number): Uint8Array {
    const view = new DataView(new ArrayBuffer(4096));
    let offset = 0;
    const put = (type: keyof typeof NUMBER_CODECS, value: number) => {
      NUMBER_CODECS[type].write(view, offset, value, little);
      offset += NUMBER_CODECS[type].bytes;
    };
    for (const entry of packet.header) {
      const modulus = NUMBER_CODECS[entry.type].max + 1;
      put(entry.type, headerValue(entry.field, at, samples, number) % modulus);
    }
    const previous = new Float64Array(packet.sample.length);
    for (let i = 0; i < samples; i++) {
      packet.sample.forEach((entry, k) => {
        const delta = i > 0 && entry.delta_type !== undefined;
        const type = delta ? entry.delta_type! : entry.type;
        const { min, max } = NUMBER_CODECS[type];
        const target = entry.channel === 'skip' ? null : targets.get(entry.channel)!;
        const exact = target === null ? 0 : columns[target.index][at + i] / target.factor;
        const counts = entry.type.startsWith('float') ? exact : Math.round(exact);
        const sent = Math.min(max, Math.max(min, delta ? counts - previous[k] : counts));
        previous[k] = delta ? previous[k] + sent : sent;
        put(type, sent);
      });
    }
    return new Uint8Array(view.buffer.slice(0, offset));
  }

  function headerValue(field: string, at: number, samples: number, number: number): number {
    const first = options.first_counter ?? 0;
    if (field === 'counter') return first + (description.counter.counts === 'packets' ? number : at);
    if (field === 'sample_count') return samples;
    if (field === 'battery_percent') return options.battery_percent ?? 90;
    if (field === 'time_stamp') {
      const stamped = description.time_stamp!.of === 'first_sample' ? at : at + samples - 1;
      const time_s = (options.first_time_s ?? 0) + stamped / settings.rate_hz;
      return Math.round(time_s / description.time_stamp!.tick_s);
    }
    return 0;
  }
}

import type { SampleBlock } from '../../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { channelTargets } from './decode-packet.ts';
import { type PacketStream, packetStreams } from '../../../shared/packet-streams.ts';
import { checksumOf } from './checksums.ts';
import { aligned } from './number-types.ts';
import { type HeaderStep, packetShape } from './packet-shape.ts';

export interface EncodedPacket {
  bytes: Uint8Array;
  /** Index of the packet's first sample, and how many it carries. */
  first_sample: number;
  samples: number;
}

export interface EncodeOptions {
  first_counter?: number;
  first_time_s?: number;
  battery_percent?: number;
  /** The main kind of packet when absent. */
  stream?: PacketStream;
}

/**
 * The inverse of the decoder: the packets that a sensor of this description would send for a block of samples.
 * Values are rounded to counts and clipped at the type's limits, as a sensor does. Used for the demo's replay.
 * @param block at the rate of the stream, without gaps
 */
export function encodePackets(
  description: StreamDescription,
  settings: StreamSettings,
  block: SampleBlock,
  options: EncodeOptions = {},
): EncodedPacket[] {
  const targets = channelTargets(description, settings);
  const stream = options.stream ?? packetStreams(description)[0];
  const { packet } = stream;
  const shape = packetShape(packet);
  const rate_hz = settings.rate_hz * (stream.rate_ratio ?? 1);
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
    const body_end = shape.header_bytes + shape.bodyBytes(samples);
    const bytes = new Uint8Array(body_end + shape.trailer_bytes + shape.checksum_bytes);
    const view = new DataView(bytes.buffer);
    const value = (field: string) => headerValue(field, at, samples, number);
    writeFields(shape.header, view, 0, value);
    writeSamples(view, at, samples);
    writeFields(shape.trailer, view, body_end, value);
    if (stream.kind) bytes[stream.kind.at] = stream.kind.value;
    if (packet.checksum) {
      const end = bytes.length - shape.checksum_bytes;
      const sum = checksumOf(packet.checksum, bytes.subarray(0, end));
      const little = (packet.checksum.byte_order ?? packet.byte_order) === 'little';
      if (shape.checksum_bytes === 1) view.setUint8(end, sum);
      else if (shape.checksum_bytes === 2) view.setUint16(end, sum, little);
      else view.setUint32(end, sum, little);
    }
    return bytes;
  }

  function writeSamples(view: DataView, first: number, samples: number): void {
    const previous = new Float64Array(packet.sample.length);
    let at = 8 * shape.header_bytes;
    for (const { sample, field, codec, little, delta } of shape.steps(samples)) {
      const { channel } = packet.sample[field];
      const target = channel === 'skip' ? null : targets.get(channel)!;
      const exact = target === null ? 0 : columns[target.index][first + sample] / target.factor + target.zero;
      const counts = Number.isFinite(codec.max) ? Math.round(exact) : exact;
      const sent = Math.min(codec.max, Math.max(codec.min, delta ? counts - previous[field] : counts));
      previous[field] = delta ? previous[field] + sent : sent;
      codec.write(view, at, sent, little);
      at += codec.bits;
    }
  }

  function headerValue(field: string, at: number, samples: number, number: number): number {
    const first = options.first_counter ?? 0;
    if (field === 'counter') return first + (stream.counter?.counts === 'packets' ? number : at);
    if (field === 'sample_count') return samples;
    if (field === 'battery_percent') return options.battery_percent ?? 90;
    if (field === 'battery_volts') return batteryCounts(description, options.battery_percent ?? 90);
    if (field === 'time_stamp') {
      const stamped = stream.time_stamp!.of === 'first_sample' ? at : at + samples - 1;
      return ((options.first_time_s ?? 0) + stamped / rate_hz) / stream.time_stamp!.tick_s;
    }
    return 0;
  }
}

function writeFields(
  steps: HeaderStep[],
  view: DataView,
  from_byte: number,
  make: (field: HeaderStep['field']) => number,
): void {
  let at = 8 * from_byte;
  for (const { field, codec, little } of steps) {
    at = aligned(at, codec);
    const value = make(field);
    codec.write(view, at, Number.isFinite(codec.max) ? Math.round(value) % (codec.max + 1) : value, little);
    at += codec.bits;
  }
}

function batteryCounts({ battery }: StreamDescription, percent: number): number {
  if (battery === undefined) return 0;
  const volts = battery.empty_v + (percent / 100) * (battery.full_v - battery.empty_v);
  return Math.round(volts / battery.per_count_v);
}

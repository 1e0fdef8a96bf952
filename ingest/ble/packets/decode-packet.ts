import { FaultError, fault, type Where } from '../../../shared/fault.ts';
import type { RawChannel, StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { type PacketStream, packetStreams } from '../../../shared/packet-streams.ts';
import { checksumOf } from './checksums.ts';
import { aligned } from './number-types.ts';
import { type HeaderStep, packetShape } from './packet-shape.ts';

/** Channels of a decoded packet, in the order of `DecodedPacket.channels`. */
export const CHANNELS = ['acc_x', 'acc_y', 'acc_z', 'gyr_x', 'gyr_y', 'gyr_z'] as const;

const UNIT_FACTORS: Record<string, number> = {
  g: STANDARD_GRAVITY_MPS2,
  mps2: 1,
  dps: RADIANS_PER_DEGREE,
  radps: 1,
};

export interface DecodedPacket {
  /** As sent, before unwrapping; null where the sensor sends none. */
  counter: number | null;
  /** Ticks as sent, before unwrapping; null where the sensor sends none. */
  time_stamp: number | null;
  battery_percent: number | null;
  samples: number;
  /**
   * m/s2 and rad/s in block axes, one array a channel: 6, or 3 without gyroscope. Of `samples` values where this kind of packet
   * carries the channel, else empty.
   */
  channels: Float64Array[];
}

export interface PacketDecoder {
  description: StreamDescription;
  settings: StreamSettings;
  /**
   * @throws FaultError PACKET_UNREADABLE when the packet is shorter or longer than the description says
   */
  decode(bytes: Uint8Array): DecodedPacket;
}

/** Where a raw channel goes: its place in the block, and on the way (value - zero) * factor, of scale, unit and sign. */
export interface ChannelTarget {
  index: number;
  factor: number;
  zero: number;
}

/**
 * Raw channel name -> target, for the ranges chosen.
 * @throws FaultError STREAM_SETTINGS_INVALID when a chosen rate or range is not in the description
 */
export function channelTargets(
  description: StreamDescription,
  settings: StreamSettings,
): Map<RawChannel, ChannelTarget> {
  const targets = new Map<RawChannel, ChannelTarget>();
  chosen(
    'rate_hz',
    settings.rate_hz,
    description.rates.map((rate) => rate.rate_hz),
  );
  const quantities = [
    ['acc', description.acc, settings.acc_full_scale],
    ['gyr', description.gyr, settings.gyr_full_scale],
  ] as const;
  for (const [prefix, quantity, full_scale] of quantities) {
    if (quantity === null) continue;
    const at = chosen(
      `${prefix}_full_scale`,
      full_scale,
      quantity.ranges.map((range) => range.full_scale),
    );
    const factor = quantity.ranges[at].per_count * UNIT_FACTORS[quantity.unit];
    const zero = quantity.ranges[at].zero_count ?? 0;
    (['x', 'y', 'z'] as const).forEach((axis, place) => {
      const [sign, raw] = quantity.axes[axis];
      const index = place + (prefix === 'gyr' ? 3 : 0);
      targets.set(`${prefix}_${raw}` as RawChannel, { index, factor: sign === '-' ? -factor : factor, zero });
    });
  }
  return targets;
}

function chosen(field: string, value: number | null, allowed: number[]): number {
  const at = value === null ? -1 : allowed.indexOf(value);
  if (at < 0) {
    throw new FaultError(fault('STREAM_SETTINGS_INVALID', { field, found: value, known: allowed }, { field, value }));
  }
  return at;
}

/** The full scale of both quantities in SI units, for the block's range fields. */
export function fullScales(description: StreamDescription, settings: StreamSettings) {
  return {
    acc_range_mps2: settings.acc_full_scale * UNIT_FACTORS[description.acc.unit],
    gyr_range_radps:
      description.gyr === null || settings.gyr_full_scale === null
        ? null
        : settings.gyr_full_scale * UNIT_FACTORS[description.gyr.unit],
  };
}

/** The description's first rate and first ranges. */
export function defaultSettings(description: StreamDescription): StreamSettings {
  return {
    rate_hz: description.rates[0].rate_hz,
    acc_full_scale: description.acc.ranges[0].full_scale,
    gyr_full_scale: description.gyr?.ranges[0].full_scale ?? null,
  };
}

/**
 * Makes the function that turns one packet's bytes into SI columns. Runs in the browser as well as on the server.
 * @param stream one of the description's kinds of packet; the main one when absent
 * @throws FaultError STREAM_SETTINGS_INVALID
 */
export function createPacketDecoder(
  description: StreamDescription,
  settings: StreamSettings,
  stream: PacketStream = packetStreams(description)[0],
): PacketDecoder {
  const targets = channelTargets(description, settings);
  const { packet } = stream;
  const shape = packetShape(packet);
  const fields = packet.sample.map(({ channel }) => (channel === 'skip' ? null : targets.get(channel)!));
  const around = shape.header_bytes + shape.trailer_bytes + shape.checksum_bytes;
  const channel_count = description.gyr === null ? 3 : 6;
  const carried = new Set(fields.flatMap((target) => (target === null ? [] : [target.index])));

  function decode(bytes: Uint8Array): DecodedPacket {
    if (bytes.length < around)
      throw new FaultError(fault('PACKET_UNREADABLE.short', { ...packetOf(bytes), least: around }, whereOf(bytes)));
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    checkSum(bytes, view);
    const head: Record<string, number> = {};
    readFields(shape.header, view, 0, head);
    const samples =
      packet.samples === 'rest' ? shape.samplesIn(bytes.length - around) : (head.sample_count ?? packet.samples);
    const whole = Number.isInteger(samples) && samples >= 1 && samples <= packet.max_samples;
    if (!whole || around + shape.bodyBytes(samples) !== bytes.length) {
      const values = { ...packetOf(bytes), most: packet.max_samples, around };
      throw new FaultError(fault('PACKET_UNREADABLE.samples', values, whereOf(bytes)));
    }
    readFields(shape.trailer, view, shape.header_bytes + shape.bodyBytes(samples), head);
    return {
      counter: head.counter ?? null,
      time_stamp: head.time_stamp ?? null,
      battery_percent: batteryPercent(description, head),
      samples,
      channels: readSamples(view, samples),
    };
  }

  function readSamples(view: DataView, samples: number): Float64Array[] {
    const channels = Array.from({ length: channel_count }, (_, c) => new Float64Array(carried.has(c) ? samples : 0));
    const previous = new Float64Array(fields.length);
    let at = 8 * shape.header_bytes;
    for (const { sample, field, codec, little, delta } of shape.steps(samples)) {
      const raw = codec.read(view, at, little);
      at += codec.bits;
      previous[field] = delta ? previous[field] + raw : raw;
      const target = fields[field];
      if (target !== null) channels[target.index][sample] = (previous[field] - target.zero) * target.factor;
    }
    return channels;
  }

  function checkSum(bytes: Uint8Array, view: DataView): void {
    const { checksum } = packet;
    if (checksum === undefined) return;
    const at = bytes.length - shape.checksum_bytes;
    const little = (checksum.byte_order ?? packet.byte_order) === 'little';
    const told =
      shape.checksum_bytes === 1
        ? view.getUint8(at)
        : shape.checksum_bytes === 2
          ? view.getUint16(at, little)
          : view.getUint32(at, little);
    if (checksumOf(checksum, bytes.subarray(0, at)) === told) return;
    const values = { ...packetOf(bytes), kind: checksum.kind };
    throw new FaultError(fault('PACKET_UNREADABLE.checksum', values, whereOf(bytes)));
  }

  function packetOf(bytes: Uint8Array): { description: string; bytes: number } {
    return { description: description.name, bytes: bytes.length };
  }

  function whereOf(bytes: Uint8Array): Where {
    return { description_id: description.id, bytes: bytes.length };
  }

  return { description, settings, decode };
}

function readFields(steps: HeaderStep[], view: DataView, from_byte: number, into: Record<string, number>): void {
  let at = 8 * from_byte;
  for (const { field, codec, little } of steps) {
    at = aligned(at, codec);
    into[field] = codec.read(view, at, little);
    at += codec.bits;
  }
}

function batteryPercent({ battery }: StreamDescription, head: Record<string, number>): number | null {
  if (head.battery_percent !== undefined) return head.battery_percent <= 100 ? head.battery_percent : null;
  if (head.battery_volts === undefined || battery === undefined) return null;
  const part = (head.battery_volts * battery.per_count_v - battery.empty_v) / (battery.full_v - battery.empty_v);
  return Math.round(100 * Math.min(1, Math.max(0, part)));
}

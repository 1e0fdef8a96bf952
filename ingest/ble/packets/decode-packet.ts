import { FaultError } from '../../../shared/fault.ts';
import type { RawChannel, StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { NUMBER_CODECS } from './number-types.ts';

/** Channels of a decoded packet, in the order of `DecodedPacket.channels`. */
export const CHANNELS = ['acc_x', 'acc_y', 'acc_z', 'gyr_x', 'gyr_y', 'gyr_z'] as const;

const UNIT_FACTORS: Record<string, number> = {
  g: STANDARD_GRAVITY_MPS2,
  mps2: 1,
  dps: RADIANS_PER_DEGREE,
  radps: 1,
};

export interface DecodedPacket {
  /** As sent, before unwrapping. */
  counter: number;
  /** Ticks as sent, before unwrapping; null where the sensor sends none. */
  time_stamp: number | null;
  battery_percent: number | null;
  samples: number;
  /** m/s2 and rad/s in block axes, one array of `samples` values a channel: 6, or 3 without gyroscope. */
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

/** Where a raw channel goes: its place in the block, and the factor (scale, unit and sign) on the way. */
export interface ChannelTarget {
  index: number;
  factor: number;
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
    (['x', 'y', 'z'] as const).forEach((axis, place) => {
      const [sign, raw] = quantity.axes[axis];
      const index = place + (prefix === 'gyr' ? 3 : 0);
      targets.set(`${prefix}_${raw}` as RawChannel, { index, factor: sign === '-' ? -factor : factor });
    });
  }
  return targets;
}

function chosen(field: string, value: number | null, allowed: number[]): number {
  const at = value === null ? -1 : allowed.indexOf(value);
  if (at < 0) {
    throw new FaultError({
      code: 'STREAM_SETTINGS_INVALID',
      message: `${field} is ${value}; the sensor's description allows ${allowed.join(', ')}. Nothing was changed.`,
      where: { field, value },
      hint: 'Choose one of the allowed values.',
    });
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
 * @throws FaultError STREAM_SETTINGS_INVALID
 */
export function createPacketDecoder(description: StreamDescription, settings: StreamSettings): PacketDecoder {
  const targets = channelTargets(description, settings);
  const { packet } = description;
  const little = packet.byte_order === 'little';
  const header = packet.header.map((entry) => ({ field: entry.field, codec: NUMBER_CODECS[entry.type] }));
  const header_bytes = header.reduce((sum, entry) => sum + entry.codec.bytes, 0);
  const fields = packet.sample.map((entry) => ({
    target: entry.channel === 'skip' ? null : targets.get(entry.channel)!,
    first: NUMBER_CODECS[entry.type],
    later: NUMBER_CODECS[entry.delta_type ?? entry.type],
    delta: entry.delta_type !== undefined,
  }));
  const first_bytes = fields.reduce((sum, entry) => sum + entry.first.bytes, 0);
  const later_bytes = fields.reduce((sum, entry) => sum + entry.later.bytes, 0);
  const channel_count = description.gyr === null ? 3 : 6;

  function countSamples(length: number, told: number | null): number {
    const body = length - header_bytes;
    if (packet.samples === 'rest') return body < first_bytes ? 0 : 1 + (body - first_bytes) / later_bytes;
    return told ?? (packet.samples as number);
  }

  function decode(bytes: Uint8Array): DecodedPacket {
    if (bytes.length < header_bytes) throw unreadable(bytes, `at least ${header_bytes} bytes of header`);
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const head: Record<string, number> = {};
    let offset = 0;
    for (const { field, codec } of header) {
      head[field] = codec.read(view, offset, little);
      offset += codec.bytes;
    }
    const samples = countSamples(bytes.length, head.sample_count ?? null);
    const expected = header_bytes + first_bytes + (samples - 1) * later_bytes;
    if (!Number.isInteger(samples) || samples < 1 || samples > packet.max_samples || expected !== bytes.length) {
      throw unreadable(
        bytes,
        `1 to ${packet.max_samples} samples of ${first_bytes} bytes after ${header_bytes} of header`,
      );
    }
    const channels = Array.from({ length: channel_count }, () => new Float64Array(samples));
    const previous = new Float64Array(fields.length);
    for (let i = 0; i < samples; i++) {
      fields.forEach((entry, k) => {
        const codec = i === 0 ? entry.first : entry.later;
        const raw = codec.read(view, offset, little);
        offset += codec.bytes;
        previous[k] = entry.delta && i > 0 ? previous[k] + raw : raw;
        if (entry.target !== null) channels[entry.target.index][i] = previous[k] * entry.target.factor;
      });
    }
    const battery = head.battery_percent;
    return {
      counter: head.counter,
      time_stamp: head.time_stamp ?? null,
      battery_percent: battery !== undefined && battery <= 100 ? battery : null,
      samples,
      channels,
    };
  }

  function unreadable(bytes: Uint8Array, expected: string): FaultError {
    return new FaultError({
      code: 'PACKET_UNREADABLE',
      message: `a packet of ${bytes.length} bytes from ${description.name}: expected ${expected}. It was kept, but not used.`,
      where: { description_id: description.id, bytes: bytes.length },
      hint: "Check that the stream description fits the sensor's firmware.",
    });
  }

  return { description, settings, decode };
}

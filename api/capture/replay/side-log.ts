import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import type { PlayedLog } from '../../../ingest/ble/sources/replay-source.ts';
import { firstAtOrAfter } from '../../../shared/first-at-or-after.ts';
import type { LogHeader, PacketRecord } from '../../../shared/packet-record.ts';
import type { SampleBlock, SensorRecording } from '../../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';

export interface PlacedRecording {
  recording: SensorRecording;
  /** When its first sample comes, on the replay's clock. */
  from_s: number;
}

/** Packets are made this much of the replay's time ahead of the one that is due, seconds. */
const PIECE_S = 2;

/**
 * What one sensor would have sent: each of its recordings at its time, and in between the packets of somebody who stands still, so
 * that it stays live and its numbers run on as at the track. Its packets are made while they are played, so that an evening
 * of a dozen athletes begins at once, and what it comes to in packets is never held whole.
 * @param base the packet layout to send them in
 * @param placed in the order they are played
 * @param total_s until when it sends
 */
export function sideLog(
  base: StreamDescription,
  sensor: { id: string; name: string },
  placed: PlacedRecording[],
  total_s: number,
): PlayedLog {
  const [{ recording }] = placed;
  const { description, settings } = fittedTo(base, placed);
  const header = {
    format: 'packet-log/1' as const,
    sensor_id: sensor.id,
    sensor_name: sensor.name,
    side: recording.side,
    mounting: recording.mounting,
    description,
    settings,
  };
  return { header, records: { [Symbol.iterator]: () => madePackets(header, placed, total_s) } };
}

function* madePackets(
  { description, settings }: LogHeader,
  placed: PlacedRecording[],
  total_s: number,
): Generator<PacketRecord, void> {
  const { packet } = description;
  const per_packet = typeof packet.samples === 'number' ? packet.samples : packet.max_samples;
  /** A slot of the grid that a packet begins with. */
  const slotAt = (time_s: number) => Math.max(0, Math.floor((time_s * settings.rate_hz) / per_packet) * per_packet);
  const piece = Math.max(per_packet, slotAt(PIECE_S));
  for (const [n, one] of placed.entries()) {
    const end = slotAt(placed[n + 1]?.from_s ?? total_s);
    for (let first = n === 0 ? 0 : slotAt(one.from_s); first < end; first += piece) {
      yield* packetsOfPiece({ description, settings }, one, first, Math.min(piece, end - first), per_packet);
    }
  }
}

/** The packets of one stretch of the grid, without those that lie in a gap of the recording. */
function* packetsOfPiece(
  { description, settings }: Pick<LogHeader, 'description' | 'settings'>,
  one: PlacedRecording,
  first: number,
  count: number,
  per_packet: number,
): Generator<PacketRecord, void> {
  const { rate_hz } = settings;
  const encoded = encodePackets(description, settings, onGrid(one, first, count, rate_hz), {
    first_counter: description.counter?.counts === 'packets' ? first / per_packet : first,
    first_time_s: first / rate_hz,
  });
  const gaps = one.recording.samples.gaps.map((gap) => ({
    from_s: gap.start_s + one.from_s,
    to_s: gap.end_s + one.from_s,
  }));
  for (const { bytes, first_sample, samples } of encoded) {
    const start_s = (first + first_sample) / rate_hz;
    const arrival_s = start_s + samples / rate_hz;
    const lost = gaps.some((gap) => start_s < gap.to_s && arrival_s > gap.from_s);
    if (!lost) yield { kind: 'packet', arrival_s, bytes };
  }
}

/**
 * The base description as if its sensor had the recording's own rate and ranges, with sixteen bits over each range: a replay
 * must not clip or thin what was measured.
 */
function fittedTo(
  base: StreamDescription,
  placed: PlacedRecording[],
): { description: StreamDescription; settings: StreamSettings } {
  const blocks = placed.map(({ recording }) => recording.samples);
  const rate_hz = Math.round(blocks[0].sampling_rate_hz);
  const acc_full_scale =
    fullScale(blocks.map((block) => [block.acc_range_mps2, block.acc_mps2])) / STANDARD_GRAVITY_MPS2;
  const gyr_full_scale =
    fullScale(blocks.map((block) => [block.gyr_range_radps, block.gyr_radps])) / RADIANS_PER_DEGREE;
  const has_gyroscope = blocks.every((block) => block.gyr_radps !== null);
  const range = (full_scale: number) => [{ full_scale, per_count: full_scale / 32768, writes: [] }];
  const description: StreamDescription = {
    ...base,
    id: `${base.id}-replay`,
    packet: {
      ...base.packet,
      sample: base.packet.sample.filter(({ channel }) => has_gyroscope || !channel.startsWith('gyr')),
    },
    acc: { ...base.acc, unit: 'g', ranges: range(acc_full_scale) },
    gyr: has_gyroscope && base.gyr ? { ...base.gyr, unit: 'dps', ranges: range(gyr_full_scale) } : null,
    rates: [{ rate_hz, writes: [] }],
  };
  return {
    description,
    settings: { rate_hz, acc_full_scale, gyr_full_scale: has_gyroscope ? gyr_full_scale : null },
  };
}

/** The stated ranges' largest; where one is not known, a little above the largest value. */
function fullScale(parts: [number | null, SampleBlock['gyr_radps']][]): number {
  return Math.max(1, ...parts.map(([range, columns]) => range ?? 1.05 * greatest(columns)));
}

function greatest(columns: SampleBlock['gyr_radps']): number {
  let most = 0;
  for (const column of columns === null ? [] : [columns.x, columns.y, columns.z]) {
    for (const value of column) if (Math.abs(value) > most) most = Math.abs(value);
  }
  return most;
}

/**
 * A recording on the even grid of the replay's clock: straight lines between its samples (good enough to send, at the rates that
 * sensors have); before it its first value, after it its last one, as of somebody who stands still.
 * @param first slot of the grid
 * @param count slots
 */
function onGrid({ recording, from_s }: PlacedRecording, first: number, count: number, rate_hz: number): SampleBlock {
  const { samples } = recording;
  const column = (values: Float64Array) =>
    interpolated(values, samples.time_s, first / rate_hz - from_s, rate_hz, count);
  const axes = ({ x, y, z }: Record<'x' | 'y' | 'z', Float64Array>) => ({ x: column(x), y: column(y), z: column(z) });
  return {
    ...samples,
    sampling_rate_hz: rate_hz,
    time_s: Float64Array.from({ length: count }, (_, k) => k / rate_hz),
    acc_mps2: axes(samples.acc_mps2),
    gyr_radps: samples.gyr_radps && axes(samples.gyr_radps),
    gaps: [],
  };
}

/** @param start_s on the recording's clock */
function interpolated(
  values: Float64Array,
  time_s: Float64Array,
  start_s: number,
  rate_hz: number,
  count: number,
): Float64Array {
  const out = new Float64Array(count);
  const [earliest, latest] = [time_s[0], time_s[time_s.length - 1]];
  // A long recording is not gone through from its beginning for every piece of it.
  let i = Math.max(0, Math.min(firstAtOrAfter(time_s, start_s), time_s.length - 1) - 1);
  for (let k = 0; k < count; k++) {
    const t = Math.min(Math.max(start_s + k / rate_hz, earliest), latest);
    while (i + 2 < time_s.length && time_s[i + 1] <= t) i++;
    const part = (t - time_s[i]) / (time_s[i + 1] - time_s[i]);
    out[k] = (values[i] || 0) * (1 - part) + (values[i + 1] || 0) * part;
  }
  return out;
}

/**
 * The one binary form of captured packets: on disk (a packet log is a row of records) and on the wire from a browser.
 * A record, little-endian: length of the payload (uint32), kind (uint8), arrival (float64, seconds of the host's
 * monotonic clock), payload, CRC-32 (uint32) over all before it. A log's first record is a header.
 */
import type { Notice } from './notice-shape.ts';
import type { StreamDescription, StreamSettings } from './schemas/stream-description.ts';
import type { Mounting, Side } from './words.ts';
import { crc32, StretchChecksums } from './crc32.ts';

const PREFIX = 13;
const MAX_PAYLOAD = 1 << 20;
const KIND_NUMBERS = { header: 72, packet: 80, event: 69 } as const;
const KINDS = new Set<number>(Object.values(KIND_NUMBERS));
/** A packet of another than the first characteristic: its number comes before the payload. */
const SOURCED_PACKET = 83;

/** Everything needed to decode the rest: a log can be read by itself, whatever became of the project's settings. */
export interface LogHeader {
  format: 'packet-log/1';
  sensor_id: string;
  sensor_name: string;
  side: Side;
  mounting: Mounting;
  description: StreamDescription;
  settings: StreamSettings;
  /** A sensor without stamps whose rate is not the one described: the rate that its samples are timed by. */
  measured_rate_hz?: number;
  /** Arrivals that were put on a common clock afterwards: how well that is known, standard uncertainty beside that of the arrivals. */
  clock_offset_u_s?: number;
}

/** What happened to the link or the host, in the order it happened among the packets. */
export type LogEvent =
  /** The host's two clocks read together, when the log was opened or opened again: UTC of arrival times. */
  | { event: 'clock'; utc_ms: number; monotonic_s: number; boot_id: string }
  /** `awaits_start`: `start_written` and `stream_started` follow; packets before are of the time before. */
  | { event: 'link_started'; awaits_start?: boolean }
  | { event: 'start_written' }
  | { event: 'stream_started' }
  | { event: 'link_lost'; reason: Notice }
  | { event: 'stopped' };

export type PacketRecord =
  | { kind: 'header'; arrival_s: number; header: LogHeader }
  /** `source`: which of the description's data characteristics it came from; the first when absent. */
  | { kind: 'packet'; arrival_s: number; bytes: Uint8Array; source?: number }
  | { kind: 'event'; arrival_s: number; event: LogEvent };

export function encodeRecord(record: PacketRecord): Uint8Array {
  const sourced = record.kind === 'packet' && (record.source ?? 0) > 0;
  const payload =
    record.kind === 'packet'
      ? sourced
        ? Uint8Array.of(record.source!, ...record.bytes)
        : record.bytes
      : new TextEncoder().encode(JSON.stringify(record.kind === 'header' ? record.header : record.event));
  const bytes = new Uint8Array(PREFIX + payload.length + 4);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, payload.length, true);
  view.setUint8(4, sourced ? SOURCED_PACKET : KIND_NUMBERS[record.kind]);
  view.setFloat64(5, record.arrival_s, true);
  bytes.set(payload, PREFIX);
  view.setUint32(PREFIX + payload.length, crc32(bytes.subarray(0, PREFIX + payload.length)), true);
  return bytes;
}

export interface DecodedRecords {
  records: PacketRecord[];
  /** Bytes up to the end of the last whole record. */
  good_bytes: number;
  /** Stretches that were skipped because their checksum, form or JSON was wrong. */
  damaged: { at: number; bytes: number }[];
}

const NO_BYTES = new Uint8Array(0);

/**
 * Reads records, in a time that grows with their length alone, whatever is damaged. A torn tail (power cut in mid-write) ends the
 * reading; damage in the middle is skipped up to the next record whose checksum is right, and reported.
 * @param with_packets false where only the places of packets are wanted: they come without their bytes
 */
export function decodeRecords(bytes: Uint8Array, with_packets = true): DecodedRecords {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const records: PacketRecord[] = [];
  const damaged: DecodedRecords['damaged'] = [];
  let at = 0;
  let good_bytes = 0;
  let skipped_from = -1;
  let stretches: StretchChecksums | null = null;
  const skippedTo = (end: number) => {
    if (skipped_from >= 0) damaged.push({ at: skipped_from, bytes: end - skipped_from });
    skipped_from = -1;
    stretches = null;
  };
  while (at + PREFIX + 4 <= bytes.length) {
    const end = endOfRecord(view, at);
    const checksum = (start: number, stop: number): number => {
      if (skipped_from < 0) return crc32(bytes.subarray(start, stop));
      stretches ??= new StretchChecksums(bytes.subarray(skipped_from));
      return stretches.of(start - skipped_from, stop - skipped_from);
    };
    if (end === null || checksum(at, end) !== view.getUint32(end, true)) {
      if (skipped_from < 0) skipped_from = at;
      at++;
      if (stretches !== null && at % 65536 === 0) (stretches as StretchChecksums).forget(at - skipped_from);
      continue;
    }
    skippedTo(at);
    const record = readRecord(bytes, view, at, end, with_packets);
    if (record === null) damaged.push({ at, bytes: end + 4 - at });
    else records.push(record);
    at = end + 4;
    good_bytes = at;
  }
  return { records, good_bytes, damaged };
}

/** Where the payload of the record that would begin here ends; null where none can. */
function endOfRecord(view: DataView, at: number): number | null {
  const length = view.getUint32(at, true);
  const kind = view.getUint8(at + 4);
  if (length > MAX_PAYLOAD || (kind === SOURCED_PACKET && length === 0)) return null;
  if (kind !== SOURCED_PACKET && !KINDS.has(kind)) return null;
  const end = at + PREFIX + length;
  return end + 4 > view.byteLength ? null : end;
}

/** A record whose checksum is right; null where it makes no sense all the same. */
function readRecord(
  bytes: Uint8Array,
  view: DataView,
  at: number,
  end: number,
  with_packets: boolean,
): PacketRecord | null {
  const number = view.getUint8(at + 4);
  const arrival_s = view.getFloat64(at + 5, true);
  if (!with_packets && Number.isFinite(arrival_s) && number !== KIND_NUMBERS.header && number !== KIND_NUMBERS.event)
    return { kind: 'packet', arrival_s, bytes: NO_BYTES };
  // A copy: the slice of a Node buffer would be a view of the whole.
  const payload = new Uint8Array(bytes.subarray(at + PREFIX, end));
  if (!Number.isFinite(arrival_s)) return null;
  if (number === SOURCED_PACKET) return { kind: 'packet', arrival_s, bytes: payload.slice(1), source: payload[0] };
  if (number === KIND_NUMBERS.packet) return { kind: 'packet', arrival_s, bytes: payload };
  const value = objectOf(payload);
  if (value === null) return null;
  if (number === KIND_NUMBERS.header) return { kind: 'header', arrival_s, header: value as unknown as LogHeader };
  return typeof value.event === 'string' ? { kind: 'event', arrival_s, event: value as unknown as LogEvent } : null;
}

function objectOf(payload: Uint8Array): Record<string, unknown> | null {
  try {
    const value: unknown = JSON.parse(new TextDecoder().decode(payload));
    return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : null;
  } catch {
    return null;
  }
}

import { closeSync, openSync, readSync } from 'node:fs';
import { HostClocks } from '../../../ingest/ble/assembly/host-clocks.ts';
import type { PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { decodeRecords, type LogHeader, type PacketRecord } from '../../../shared/packet-record.ts';

/** Some milliseconds of work: others wait for this thread. */
const PIECE_BYTES = 1 << 17;
/** Bytes that may wait for the end of a record; more are damage, and their beginning is let go. */
const MOST_WAITING_BYTES = 4 << 20;

export interface TimedRecord {
  record: PacketRecord;
  /** Arrival on the clock of the log's first start of the machine. */
  at_s: number;
}

export interface PieceOfLog {
  records: TimedRecord[];
  /** Bytes up to the end of the last whole record. */
  good_bytes: number;
  damaged_bytes: number;
  clocks: HostClocks;
}

/** What a log comes to at its end, without holding it. */
export interface LogEnd {
  /** The last header: a sensor may be given another side while it is recorded. */
  header: LogHeader;
  first_s: number;
  last_s: number;
  last_utc_ms: number;
  /** The machine's start at the last reading of its clocks. */
  boot_id: string;
  /** Bytes up to the end of the last whole record. */
  good_bytes: number;
}

/**
 * Records of a log, a piece of the file at a time: memory does not grow with its length.
 * @param with_packets false where only the places of packets are wanted: they come without their bytes
 */
export function* streamLog(file: string, with_packets = true): Generator<PieceOfLog> {
  const fd = openSync(file, 'r');
  const clocks = new HostClocks();
  try {
    // One buffer for all pieces: what is left of one is moved to its beginning.
    let buffer = Buffer.alloc(2 * PIECE_BYTES);
    let waiting = 0;
    let start = 0;
    for (;;) {
      if (buffer.length < waiting + PIECE_BYTES) buffer = Buffer.concat([buffer], 2 * (waiting + PIECE_BYTES));
      const read = readSync(fd, buffer, waiting, PIECE_BYTES, start + waiting);
      if (read === 0) return;
      const bytes = buffer.subarray(0, waiting + read);
      const { records, good_bytes, damaged } = decodeRecords(bytes, with_packets);
      const let_go = bytes.length - good_bytes > MOST_WAITING_BYTES ? bytes.length - PIECE_BYTES - 64 : good_bytes;
      buffer.copyWithin(0, let_go, bytes.length);
      waiting = bytes.length - let_go;
      start += let_go;
      const timed = records.map((record) => ({ record, at_s: clocks.place(record) }));
      const skipped = damaged.reduce((sum, part) => sum + part.bytes, 0) + let_go - good_bytes;
      yield { records: timed, good_bytes: start, damaged_bytes: skipped, clocks };
    }
  } finally {
    closeSync(fd);
  }
}

/**
 * Reads a log through to its end, letting others have the thread between pieces. Packets are passed over.
 * @returns null for what is no packet log
 */
export async function readLogEnd(file: string): Promise<LogEnd | null> {
  let header: LogHeader | null = null;
  let end: LogEnd | null = null;
  let first_s = Number.NaN;
  for (const { records, good_bytes, clocks } of streamLog(file, false)) {
    for (const { record, at_s } of records) {
      if (record.kind === 'header') header = record.header;
      if (record.kind === 'packet' && Number.isNaN(first_s)) first_s = at_s;
    }
    const last = records.at(-1);
    if (header === null || header.format !== 'packet-log/1') return null;
    if (last) {
      const last_utc_ms = clocks.zero_ms + 1000 * last.record.arrival_s;
      end = { header, first_s, last_s: last.at_s, last_utc_ms, boot_id: clocks.boot_id, good_bytes };
    }
    await new Promise((resolve) => setImmediate(resolve));
  }
  return end;
}

/**
 * The last seconds of a log, with every reading of the clocks before.
 * @param end as `readLogEnd` found it
 */
export async function readLogTail(file: string, end: LogEnd, keep_s: number): Promise<PacketLog> {
  const [clocks, tail]: PacketRecord[][] = [[], []];
  for (const { records } of streamLog(file)) {
    for (const { record, at_s } of records) {
      if (at_s > end.last_s - keep_s) tail.push(record);
      else if (record.kind === 'event' && record.event.event === 'clock') clocks.push(record);
    }
    await new Promise((resolve) => setImmediate(resolve));
  }
  return { header: end.header, records: [...clocks, ...tail], good_bytes: end.good_bytes, damaged: [] };
}

/** The records of a log in order, on one clock; the file is open while they are gone through. */
export function* recordsOf(file: string): Generator<PacketRecord, void> {
  for (const { records } of streamLog(file)) {
    for (const { record, at_s } of records) yield { ...record, arrival_s: at_s };
  }
}

import { FaultError, fault } from '../../../shared/fault.ts';
import {
  decodeRecords,
  type DecodedRecords,
  type LogHeader,
  type PacketRecord,
} from '../../../shared/packet-record.ts';
import { HostClocks } from './host-clocks.ts';
import { StreamAssembler } from './stream-assembler.ts';

export interface PacketLog extends DecodedRecords {
  header: LogHeader;
}

/**
 * The header is the last one in the log: a sensor may be given another side while it is recorded.
 * @throws FaultError PACKET_LOG_UNREADABLE when the first record is not a whole header
 */
export function readPacketLog(source: string, bytes: Uint8Array): PacketLog {
  const decoded = decodeRecords(bytes);
  const first = decoded.records[0];
  if (first?.kind !== 'header' || first.header.format !== 'packet-log/1') {
    throw new FaultError(fault('PACKET_LOG_UNREADABLE', { source }, { source, bytes: bytes.length }));
  }
  const headers = decoded.records.filter((record) => record.kind === 'header');
  return { ...decoded, header: headers[headers.length - 1].header };
}

/**
 * Feeds a log's packets through the same assembler that live packets take. Where the machine was started anew in
 * between, its monotonic clock began at 0 again: such packets are moved by the log's readings of the UTC clock.
 */
export function assembleLog(log: PacketLog, keep_s?: number): StreamAssembler {
  const { description, settings, measured_rate_hz = null } = log.header;
  const assembler = new StreamAssembler(description, settings, keep_s, measured_rate_hz);
  feedLog(log, assembler);
  assembler.finish();
  return assembler;
}

export function feedLog(log: PacketLog, assembler: StreamAssembler): void {
  const clocks = new HostClocks();
  for (const record of log.records) feedRecord(record, clocks.place(record), assembler);
}

/** @param at_s its arrival, on the clock of the log's first start of the machine */
export function feedRecord(record: PacketRecord, at_s: number, assembler: StreamAssembler): void {
  if (record.kind === 'packet') assembler.add(record.bytes, at_s, record.source);
  if (record.kind !== 'event') return;
  if (record.event.event === 'link_started') assembler.linkStarted(at_s, record.event.awaits_start);
  if (record.event.event === 'start_written') assembler.startWritten(at_s);
  if (record.event.event === 'stream_started') assembler.streamStarted(at_s);
}

/** UTC milliseconds of host time 0, by the log's first reading of both clocks; null when it holds none. */
export function utcOfHostZero(log: PacketLog): number | null {
  for (const record of log.records) {
    if (record.kind === 'event' && record.event.event === 'clock') {
      return record.event.utc_ms - record.event.monotonic_s * 1000;
    }
  }
  return null;
}

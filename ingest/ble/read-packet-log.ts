import { FaultError } from '../../shared/fault.ts';
import { decodeRecords, type DecodedRecords, type LogEvent, type LogHeader } from './packet-record.ts';
import { StreamAssembler } from './stream-assembler.ts';

export interface PacketLog extends DecodedRecords {
  header: LogHeader;
}

/**
 * @throws FaultError PACKET_LOG_UNREADABLE when the first record is not a whole header
 */
export function readPacketLog(source: string, bytes: Uint8Array): PacketLog {
  const decoded = decodeRecords(bytes);
  const first = decoded.records[0];
  if (first?.kind !== 'header' || first.header.format !== 'packet-log/1') {
    throw new FaultError({
      code: 'PACKET_LOG_UNREADABLE',
      message: `${source}: its first record is not the header of a packet log. Nothing was read; the file is unchanged.`,
      where: { source, bytes: bytes.length },
      hint: 'Check that this is a packet log of this project, and that it is whole.',
    });
  }
  return { ...decoded, header: first.header };
}

/** Feeds a log's packets through the same assembler that live packets take. */
export function assembleLog(log: PacketLog, keep_s?: number): StreamAssembler {
  const assembler = new StreamAssembler(log.header.description, log.header.settings, keep_s);
  for (const record of log.records) {
    if (record.kind === 'packet') assembler.add(record.bytes, record.arrival_s);
    else if (record.kind === 'event' && record.event.event === 'link_started') assembler.linkStarted();
  }
  return assembler;
}

/** UTC milliseconds of host time 0, by the log's latest reading of both clocks; null when it holds none. */
export function utcOfHostZero(log: PacketLog): number | null {
  let zero: number | null = null;
  for (const record of log.records) {
    const event: LogEvent | null = record.kind === 'event' ? record.event : null;
    if (event?.event === 'clock') zero = event.utc_ms - event.monotonic_s * 1000;
  }
  return zero;
}

import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';
import { encodeRecord, type PacketRecord } from '../../../shared/packet-record.ts';

/** Writes a packet log whole; it is on the disk when this returns. */
export function writeLog(file: string, records: PacketRecord[]): void {
  const fd = openSync(file, 'w', 0o600);
  try {
    writeSync(fd, Buffer.concat(records.map(encodeRecord)));
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
}

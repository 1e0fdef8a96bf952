import { readFileSync } from 'node:fs';
import { assembleLog, type PacketLog, readPacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { align, MOST_U_S } from '../../../ingest/clock/align.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import type { PacketRecord } from '../../../shared/packet-record.ts';
import type { ArrivalFit } from '../../../ingest/ble/assembly/arrival-clock.ts';
import { writeLog } from '../recording/write-log.ts';

/** A sensor's own calendar clock is told to the second. */
const SECOND_U_S = 1 / Math.sqrt(12);

/** Two recordings of one athlete, of the left and the right, each on its own clock. */
export interface JoinRequest {
  left: string;
  right: string;
  /** When each began by its sensor, UTC seconds; null where the sensor did not know. */
  left_start_s: number | null;
  right_start_s: number | null;
  /** Files that are written, with both on one clock. */
  joined_left: string;
  joined_right: string;
}

interface Side {
  log: PacketLog;
  block: SampleBlock;
  first_s: number;
  fit: ArrivalFit;
}

/**
 * Puts two recordings from sensors' own memories on one clock, as two files are: by the sensors' calendars where they know the day, by
 * what both feet felt, by how the steps alternate. Both are written anew with arrivals on that clock. Slow work, for a thread of its own.
 * @returns false where they cannot be put together, and nothing is written
 */
export function joinRecordings(request: JoinRequest): boolean {
  const left = readSide(request.left, request.left_start_s);
  const right = readSide(request.right, request.right_start_s);
  if (left === null || right === null) return false;
  const found = align(left.block, right.block);
  if (found.method === 'none' || found.u > MOST_U_S) return false;
  write(request.joined_left, left, { offset_s: found.left_offset_s, drift: 0, u_s: 0 });
  write(request.joined_right, right, { offset_s: found.right_offset_s, drift: found.drift, u_s: found.u });
  return true;
}

function readSide(file: string, start_s: number | null): Side | null {
  const log = readPacketLog(file, readFileSync(file));
  const assembler = assembleLog(log);
  const made = assembler.block();
  const fit = assembler.clockFit();
  if (made === null || fit === null) return null;
  const start_utc = start_s === null ? null : new Date(start_s * 1000).toISOString();
  return { log, block: { ...made.block, start_utc, start_utc_u_s: SECOND_U_S }, first_s: made.first_s, fit };
}

/** Arrivals were made up from the sensor's rate; a straight line leads from them over the sensor's own time to the common one. */
function write(
  file: string,
  { log, first_s, fit }: Side,
  { offset_s, drift, u_s }: { offset_s: number; drift: number; u_s: number },
): void {
  const common = (arrival_s: number) =>
    offset_s + ((arrival_s - fit.offset_s) / (1 + fit.drift) - first_s) * (1 + drift);
  const moved = log.records.map((record): PacketRecord => {
    if (record.kind === 'packet') return { ...record, arrival_s: common(record.arrival_s) };
    return record.kind === 'header' ? { ...record, header: { ...record.header, clock_offset_u_s: u_s } } : record;
  });
  writeLog(file, moved);
}

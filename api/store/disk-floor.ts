import { statfsSync } from 'node:fs';
import { fault, FaultError } from '../../shared/fault.ts';

/** Kept free on the disk for what is being recorded: two sensors write about 90 MB an hour. */
const FLOOR_BYTES = 200 * 1024 * 1024;

/**
 * Refuses what may be large while the disk is nearly full, so that a capture and the database's own log still find room.
 * @param folder where it would be written
 * @throws FaultError DISK_FULL
 */
export function keepDiskFloor(folder: string, floorBytes = FLOOR_BYTES): void {
  const free = freeBytes(folder);
  if (free >= floorBytes) return;
  const values = { folder, free_mb: Math.floor(free / 1e6), floor_mb: Math.ceil(floorBytes / 1e6) };
  throw new FaultError(fault('DISK_FULL.floor', values, { folder, free_bytes: free }));
}

function freeBytes(folder: string): number {
  try {
    const { bavail, bsize } = statfsSync(folder);
    return bavail * bsize;
  } catch {
    // The file system tells nothing; writing will say so.
    return Number.POSITIVE_INFINITY;
  }
}

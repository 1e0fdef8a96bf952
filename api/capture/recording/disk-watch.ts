import { statfs } from 'node:fs/promises';
import { diskWords } from '../sensors/capture-words.ts';
import type { PacketLogWriter } from './packet-log-writer.ts';

const LOOK_MS = 10_000;
const LOW_BYTES = 500 * 1024 * 1024;

/** Whether packets reach the disk, and whether there is room for more. */
export class DiskWatch {
  private readonly folder: string;
  private readonly timer: NodeJS.Timeout;
  private free_bytes = Number.POSITIVE_INFINITY;

  constructor(folder: string) {
    this.folder = folder;
    this.timer = setInterval(() => void this.look(), LOOK_MS).unref();
    void this.look();
  }

  /** Empty while all is well, else what is the matter and what to do. */
  problem(logs: PacketLogWriter[]): string {
    const stuck = logs.find((log) => log.problem !== '');
    if (stuck !== undefined) return diskWords(stuck.problem, stuck.waiting_records, stuck.lost_records);
    if (this.free_bytes > LOW_BYTES) return '';
    return `Only ${Math.round(this.free_bytes / 1e6)} MB are free on the disk; two sensors need about 90 MB an hour. Free some space.`;
  }

  close(): void {
    clearInterval(this.timer);
  }

  private async look(): Promise<void> {
    try {
      const { bavail, bsize } = await statfs(this.folder);
      this.free_bytes = bavail * bsize;
    } catch {
      // The folder is gone or the file system tells nothing; writing will say so.
    }
  }
}

import { statfs } from 'node:fs/promises';
import { type Notice, notice, SILENT } from '../../../shared/notice.ts';
import type { PacketLogWriter } from './packet-log-writer.ts';

const LOOK_MS = 10_000;
const LOW_BYTES = 500 * 1024 * 1024;

/** Why a log takes nothing, and what becomes of its packets. */
export function stuckNotice({
  problem,
  waiting_records: waiting,
  lost_records: lost,
}: Pick<PacketLogWriter, 'problem' | 'waiting_records' | 'lost_records'>): Notice {
  return /ENOSPC|EDQUOT|EFBIG/.test(problem)
    ? notice('disk_full', { waiting, lost })
    : notice('disk_refuses', { problem, waiting, lost });
}

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
  problem(logs: PacketLogWriter[]): Notice {
    const stuck = logs.find((log) => log.problem !== '');
    if (stuck !== undefined) return stuckNotice(stuck);
    if (this.free_bytes > LOW_BYTES) return SILENT;
    return notice('disk_low', { free_mb: this.free_bytes / 1e6 });
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

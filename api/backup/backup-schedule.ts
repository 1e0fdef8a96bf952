import { mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';

const LOOK_MS = 10 * 60_000;
const HOUR_MS = 3_600_000;
/** Names of scheduled backups, which sort by time; no other file of the folder is ever touched. */
const NAME = /^cinderlane-\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2}Z\.(?:sqlite|sealed)$/;

export interface BackupSchedule {
  folder: string;
  every_hours: number;
  /** Backups kept; older ones go once a newer one is good. */
  keep: number;
  sealed: boolean;
  /** Makes one; in a process of its own, so that the server goes on answering. */
  make: (file: string) => Promise<unknown>;
  tellFailure: (error: unknown) => void;
}

/** Makes a backup whenever the newest is older than asked for, at once where there is none. @returns ends it */
export function scheduleBackups(schedule: BackupSchedule, lookMs = LOOK_MS): () => void {
  let busy = false;
  const look = async () => {
    if (busy) return;
    busy = true;
    try {
      await backUpWhenDue(schedule, new Date());
    } catch (error) {
      schedule.tellFailure(error);
    } finally {
      busy = false;
    }
  };
  const timer = setInterval(() => void look(), lookMs).unref();
  void look();
  return () => clearInterval(timer);
}

/** @returns the backup made; null while the newest is young enough */
export async function backUpWhenDue(schedule: BackupSchedule, now: Date): Promise<string | null> {
  const { folder, every_hours, keep, sealed, make } = schedule;
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const newest = backupsIn(folder).at(-1);
  if (newest && now.getTime() - statSync(join(folder, newest)).mtimeMs < every_hours * HOUR_MS) return null;
  const stamp = now.toISOString().slice(0, 19).replaceAll(':', '-');
  const file = join(folder, `cinderlane-${stamp}Z.${sealed ? 'sealed' : 'sqlite'}`);
  await make(file);
  for (const old of backupsIn(folder).slice(0, -keep)) rmSync(join(folder, old), { force: true });
  return file;
}

function backupsIn(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => NAME.test(name))
    .sort();
}

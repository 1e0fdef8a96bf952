import { chmodSync, type Dirent, lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

/** Ours in a data folder: the database with its logs and former copies, the lock, the mark, the log of failures, and folders. */
const OURS =
  /^(?:(?:cinderlane(?:-before-[\dT-]+)?|lock)\.sqlite(?:-wal|-shm|-journal)?|server\.json|errors\.log(?:\.before)?|captures|stream-descriptions|tls|backup-\d+\.(?:part|check)|restore\.part)$/;
const OTHERS = 0o077;
/** A folder such as /tmp belongs to everybody. */
const STICKY = 0o1000;

/**
 * Takes the rights of others away from what an older version, a copy or a restored archive left open: folders 0700, files 0600. What is not
 * ours stays as it is, links are not followed, and what belongs to another user is left.
 * @returns how many were tightened
 */
export function tightenFolder(folder: string): number {
  if (process.platform === 'win32') return 0;
  const entries = list(folder).filter(({ name }) => OURS.test(name));
  const database_is_here = entries.some(({ name }) => name === 'cinderlane.sqlite');
  let tightened = database_is_here ? tighten(folder) : 0;
  for (const entry of entries) tightened += tightenTree(folder, entry);
  return tightened;
}

function tightenTree(folder: string, entry: Dirent): number {
  const path = join(folder, entry.name);
  if (entry.isSymbolicLink()) return 0;
  let tightened = tighten(path);
  if (entry.isDirectory()) for (const inner of list(path)) tightened += tightenTree(path, inner);
  return tightened;
}

function tighten(path: string): number {
  try {
    const { mode } = lstatSync(path);
    if ((mode & OTHERS) === 0 || (mode & STICKY) !== 0) return 0;
    chmodSync(path, mode & 0o7700);
    return 1;
  } catch {
    return 0;
  }
}

function list(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch {
    return [];
  }
}

import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The database in a data folder. */
export const DATABASE_NAME = 'cinderlane.sqlite';

/** Names the address of the server that works on a data folder, for the command line and for a second server. */
const FILE_NAME = 'server.json';

interface Mark {
  address: string;
  /** The server says the same word at /api/health; an other program at that address does not. */
  instance: string;
}

/** Leaves the mark of a server that has begun to listen. */
export function markServer(dataFolder: string, mark: Mark): void {
  writeFileSync(join(dataFolder, FILE_NAME), JSON.stringify(mark));
}

/** Takes a server's own mark away. */
export function unmarkServer(dataFolder: string, instance: string): void {
  if (readMark(dataFolder)?.instance === instance) rmSync(join(dataFolder, FILE_NAME), { force: true });
}

/**
 * Address of the server that works on a data folder, or null. A mark left by a killed server is no server: it must answer.
 */
export async function findRunningServer(dataFolder: string): Promise<string | null> {
  const mark = readMark(dataFolder);
  if (!mark) return null;
  try {
    const answer = await fetch(`${mark.address}/api/health`, { signal: AbortSignal.timeout(2000) });
    const health = (await answer.json()) as { instance?: string };
    return health.instance === mark.instance ? mark.address : null;
  } catch {
    return null;
  }
}

function readMark(dataFolder: string): Mark | null {
  try {
    return JSON.parse(readFileSync(join(dataFolder, FILE_NAME), 'utf8')) as Mark;
  } catch {
    return null;
  }
}

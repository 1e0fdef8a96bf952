import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Folders of the real recordings (`CINDERLANE_DATA`, several parted by ':'), or null where there is none. */
export function recordingsFolders(): string[] | null {
  const beside = ['data', 'more-runners'].map((name) =>
    fileURLToPath(new URL(`../../../shared/${name}`, import.meta.url)),
  );
  const folders = process.env.CINDERLANE_DATA?.split(':') ?? beside;
  const present = folders.filter((folder) => existsSync(folder));
  return present.length > 0 ? present : null;
}

/** The first of those folders: the one with shoes, ankles and the first runners on plates. */
export function recordingsFolder(): string | null {
  return recordingsFolders()?.[0] ?? null;
}

/** Folder of the published reference values, or null where there is none. */
export function referenceFolder(): string | null {
  const folder =
    process.env.CINDERLANE_REFERENCE ?? fileURLToPath(new URL('../../../shared/reference', import.meta.url));
  return existsSync(folder) ? folder : null;
}

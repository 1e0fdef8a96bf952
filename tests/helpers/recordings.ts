import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Folder of the real recordings, or null where there is none. */
export function recordingsFolder(): string | null {
  const folder = process.env.CINDERLANE_DATA ?? fileURLToPath(new URL('../../../shared/data', import.meta.url));
  return existsSync(folder) ? folder : null;
}

/** Folder of the published reference values, or null where there is none. */
export function referenceFolder(): string | null {
  const folder =
    process.env.CINDERLANE_REFERENCE ?? fileURLToPath(new URL('../../../shared/reference', import.meta.url));
  return existsSync(folder) ? folder : null;
}

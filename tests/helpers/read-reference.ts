import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { referenceFolder } from './recordings.ts';

/** Columns of a file of published values, by header; null where the folder is absent. */
export function readReference(name: string): Record<string, number[]> | null {
  const folder = referenceFolder();
  if (folder === null || !existsSync(join(folder, name))) return null;
  const [header, ...lines] = readFileSync(join(folder, name), 'utf8').trim().split(/\r?\n/);
  const names = header.split(',');
  const rows = lines.map((line) => line.split(','));
  return Object.fromEntries(
    names.map((column, k) => [column, rows.map((row) => (row[k] === '' ? Number.NaN : Number(row[k])))]),
  );
}

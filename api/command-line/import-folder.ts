import { readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { sideInWords } from '../../ingest/csv/columns/side-in-words.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import type { ImportLine } from '../export/motion-bids/import-line.ts';

/** What recordings are called; pictures and notes beside them are left alone. */
const RECORDING_NAME = /\.((csv|txt|tsv|dat|asc|log)(\.gz)?|xlsx)$/i;

/**
 * One import for every recording of a folder: files whose names differ by the side alone ("run3_left.csv", "run3_right.csv") are the two
 * feet of one recording; a file whose name tells no side says it itself, or holds both.
 * @param line what all of them share
 * @returns in the order of the names, numbers counted as numbers
 * @throws FaultError FILE_NOT_FOUND when the folder cannot be read or holds no recording
 */
export function readImportFolder(folder: string, line: Omit<ImportLine, 'label' | 'files'>): ImportLine[] {
  const byName = new Map<string, ImportLine['files'][]>();
  for (const name of namesIn(folder)) {
    const side = sideInWords(name.replace(RECORDING_NAME, ''));
    const key = side === 'unknown' ? name : withoutSide(name, side);
    const place = side === 'unknown' ? 'file' : side;
    const sets = byName.get(key) ?? [];
    byName.set(key, sets);
    const open = sets.find((files) => files[place] === undefined);
    if (open) open[place] = join(folder, name);
    else sets.push({ [place]: join(folder, name) });
  }
  return [...byName.values()].flat().map((files) => ({ ...line, files, label: labelOf(files) }));
}

function namesIn(folder: string): string[] {
  let names: string[];
  try {
    names = readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile() && !entry.name.startsWith('.') && RECORDING_NAME.test(entry.name))
      .map(({ name }) => name);
  } catch {
    throw notThere(folder, 'is no folder, or cannot be read');
  }
  if (names.length === 0)
    throw notThere(folder, 'holds no recording (.csv, .txt, .tsv, .dat, .asc, .log, these with .gz, or .xlsx)');
  return names.sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
}

/** The name with the word for its side taken out, the same for both feet. */
function withoutSide(name: string, side: string): string {
  return name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .split(/([^\p{L}]+)/u)
    .filter((word) => sideInWords(word) !== side)
    .join('')
    .toLowerCase();
}

function labelOf(files: ImportLine['files']): string {
  return Object.values(files)
    .map((path) => basename(path!))
    .join(' + ');
}

function notThere(folder: string, why: string): FaultError {
  return new FaultError(fault('FILE_NOT_FOUND.folder', { folder, why }, { folder }));
}

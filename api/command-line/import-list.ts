import { FILE_COLUMNS, type ImportLine } from '../export/motion-bids/import-line.ts';
import { readFileSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import Papa from 'papaparse';
import { FaultError, fault } from '../../shared/fault.ts';

/** Columns of a list besides the files: athlete and date, then fields of the import form. */
export const FORM_COLUMNS = [
  'athlete',
  'session_date',
  'mounting',
  'effort_percent',
  'course',
  'time',
  'splits',
  'belt_speed',
  'rate',
  'clock',
  'timing_method',
  'start_style',
  'wind',
  'surface',
  'footwear',
  'notes',
  'layout',
] as const;

/** Reads a list of imports. File names are relative to it. @throws FaultError LIST_UNREADABLE, FILE_NOT_FOUND */
export function readImportList(path: string): ImportLine[] {
  let text: string;
  try {
    text = readFileSync(path, 'utf8').replace(/^\uFEFF/, '');
  } catch {
    throw new FaultError(fault('FILE_NOT_FOUND.list', { file: path }, { file: path }));
  }
  const table = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: 'greedy' });
  const columns = table.meta.fields ?? [];
  const known: readonly string[] = [...FILE_COLUMNS, ...FORM_COLUMNS];
  const unknown = columns.find((column) => !known.includes(column));
  if (unknown !== undefined)
    throw unreadable(path, 1, `column "${unknown}" is not known; columns are ${known.join(', ')}`);
  const missing = ['athlete', 'session_date', 'mounting'].find((column) => !columns.includes(column));
  if (missing) throw unreadable(path, 1, `column "${missing}" is missing`);
  const broken = table.errors[0];
  if (broken) throw unreadable(path, (broken.row ?? 0) + 2, broken.message);
  return table.data.map((row, i) => lineOf(path, row, i + 2));
}

function lineOf(path: string, row: Record<string, string>, lineNumber: number): ImportLine {
  const { left, right, file, athlete, session_date, ...form } = row;
  const files = Object.fromEntries(
    Object.entries({ left, right, file })
      .filter(([, name]) => name)
      .map(([side, name]) => [side, resolve(dirname(path), name)]),
  );
  if (Object.keys(files).length === 0) throw unreadable(path, lineNumber, 'no file is named');
  if (!athlete || !session_date) throw unreadable(path, lineNumber, 'athlete or session_date is empty');
  return {
    label: `${basename(path)} line ${lineNumber}`,
    files,
    athlete,
    date: session_date,
    form: Object.fromEntries(Object.entries(form).map(([name, value]) => [name, value || undefined])),
  };
}

function unreadable(path: string, line: number, why: string): FaultError {
  return new FaultError(fault('LIST_UNREADABLE', { file: path, line, why }, { file: path, line }));
}

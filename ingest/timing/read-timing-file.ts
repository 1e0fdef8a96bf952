import { type TimingEntry, repetitionKey } from './timing-entry.ts';
import { createHash } from 'node:crypto';
import { parseDistance } from '../../shared/course-text.ts';
import { type Fault, FaultError, fault } from '../../shared/fault.ts';
import { because, type CodedReason } from '../../shared/reason.ts';
import { METRES_PER_FOOT, METRES_PER_YARD } from '../../shared/units.ts';
import type { TimingMethod } from '../../shared/words.ts';
import { splitCells } from '../csv/text/cells.ts';
import { type RejectedRow, RejectedRows } from '../csv/rows/rejected-rows.ts';
import { sniffEncoding } from '../csv/text/text-blocks.ts';
import { readTime } from './read-time.ts';
import { timingFaults } from './timing-faults.ts';
import { clockStart, type TimingColumn, timingColumn, timingMethod } from './timing-words.ts';

export interface TimingFile {
  entries: TimingEntry[];
  faults: Fault[];
  rejected_rows: RejectedRow[];
  sha256: string;
}

interface DistanceColumn {
  column: number;
  distance_m: number;
}

/**
 * Reads gate, split and hand times from CSV: one time a row (athlete, repetition, distance, time, method), or one repetition a row with
 * a column for each distance (`10 m`, `20 m`, ...). Hand times stay hand times, with the step they were read to.
 * @param bytes the file; UTF-8, UTF-16 or Latin-1; comma, semicolon or tab; decimal points or commas
 * @throws FaultError TIMING_COLUMNS_MISSING when no column of distance or time is there; TOO_MANY_BAD_ROWS
 */
export function readTimingFile(bytes: Uint8Array, options: { file_name: string; method?: TimingMethod }): TimingFile {
  const file = options.file_name;
  if (bytes.length === 0) throw missing(file, null);
  const text = new TextDecoder(sniffEncoding(bytes, file).encoding).decode(bytes);
  const lines = text.split(/\r\n|\n|\r/);
  const top = lines.findIndex((line) => headerOf(line) !== null);
  if (top < 0) throw missing(file, lines[0].slice(0, 80));
  const { delimiter, columns, distances, names } = headerOf(lines[top])!;
  const rejected = new RejectedRows(file);
  const entries: TimingEntry[] = [];
  for (let index = top + 1; index < lines.length; index++) {
    if (lines[index].trim() === '') continue;
    const cells = splitCells(lines[index], delimiter);
    const row = { cells, line: index + 1, columns, names, delimiter, told: options.method ?? null };
    entries.push(...(distances.length > 0 ? readWide(row, distances, rejected) : readLong(row, rejected)));
  }
  rejected.check(entries.length);
  const summed = columns.has('interval') ? sumIntervals(entries) : entries;
  return {
    entries: summed,
    faults: timingFaults(summed, rejected, file),
    rejected_rows: rejected.kept,
    sha256: createHash('sha256').update(bytes).digest('hex'),
  };
}

function headerOf(line: string) {
  let best: {
    delimiter: string;
    columns: Map<TimingColumn, number>;
    distances: DistanceColumn[];
    names: string[];
  } | null = null;
  for (const delimiter of [',', ';', '\t', '|']) {
    const names = splitCells(line, delimiter);
    const columns = new Map<TimingColumn, number>();
    const distances: DistanceColumn[] = [];
    names.forEach((name, column) => {
      const distance_m = distanceInName(name);
      if (distance_m !== null) distances.push({ column, distance_m });
      else {
        const kind = timingColumn(name);
        if (kind && !columns.has(kind)) columns.set(kind, column);
      }
    });
    const timed = columns.has('time') || columns.has('interval');
    const usable = distances.length > 0 ? names.length > 1 : timed && columns.has('distance');
    if (usable && (!best || names.length > best.names.length)) best = { delimiter, columns, distances, names };
  }
  return best;
}

/** `10 m`, `split_20m`, `t30 (m)`: the distance a column of times stands for. */
function distanceInName(name: string): number | null {
  const match = /(?:^|[^\d.])(\d+(?:\.\d+)?)[\s_(]*(m|yd|ft)\)?(?:[\s_]*(?:split|time|s|\(s\)|\[s\]))?$/i.exec(
    name.trim(),
  );
  return match ? parseDistance(match[1] + match[2].toLowerCase()) : null;
}

interface Row {
  cells: string[];
  line: number;
  columns: Map<TimingColumn, number>;
  names: string[];
  delimiter: string;
  told: TimingMethod | null;
}

function cell(row: Row, column: TimingColumn): string {
  const index = row.columns.get(column);
  return index === undefined ? '' : (row.cells[index] ?? '');
}

function common(row: Row) {
  const whole = (column: TimingColumn) => {
    const digits = /\d+/.exec(cell(row, column));
    return digits ? Number(digits[0]) : null;
  };
  return {
    line: row.line,
    athlete: cell(row, 'athlete') || null,
    date: cell(row, 'date') || null,
    set: whole('set'),
    repetition: whole('repetition'),
    clock: clockStart(cell(row, 'clock')),
  };
}

function readLong(row: Row, rejected: RejectedRows): TimingEntry[] {
  const timeColumn = row.columns.has('time') ? 'time' : 'interval';
  const distanceName = row.names[row.columns.get('distance')!];
  const distance_m = readDistance(cell(row, 'distance'), distanceName);
  if (distance_m === null) return reject(row, 'distance', because('row_distance'), rejected);
  return readOne(row, distance_m, cell(row, timeColumn), row.names[row.columns.get(timeColumn)!], rejected);
}

function readWide(row: Row, distances: DistanceColumn[], rejected: RejectedRows): TimingEntry[] {
  return distances.flatMap(({ column, distance_m }) => {
    const text = row.cells[column] ?? '';
    return text === '' ? [] : readOne(row, distance_m, text, row.names[column], rejected);
  });
}

function readOne(row: Row, distance_m: number, text: string, name: string, rejected: RejectedRows): TimingEntry[] {
  const time = readTime(text);
  if (!time || time.time_s <= 0) {
    rejected.add(row.line, name, `"${text}"`, because('row_race_time'), row.cells, row.delimiter);
    return [];
  }
  const inMs = /ms\b|millisec/i.test(name) && time.time_s > 100 ? 0.001 : 1;
  const written = cell(row, 'method');
  const method = time.hand ? 'hand' : written ? timingMethod(written) : row.told;
  return [
    {
      ...common(row),
      distance_m,
      // A number of milliseconds times 0.001 carries rounding.
      time_s: Number((time.time_s * inMs).toPrecision(12)),
      as_written: text,
      resolution_s: time.resolution_s * inMs,
      method,
    },
  ];
}

function readDistance(text: string, name: string): number | null {
  const plain = text.trim().replace(',', '.');
  if (/^[\d.]+\s*(km|m|yd|ft)$/i.test(plain)) return positive(() => parseDistance(plain));
  const factor = /yd|yard/i.test(name) ? METRES_PER_YARD : /ft|feet|foot/i.test(name) ? METRES_PER_FOOT : 1;
  return /^(?:\d+(?:\.\d+)?|\.\d+)$/.test(plain) ? positive(() => Number(plain) * factor) : null;
}

function positive(read: () => number): number | null {
  try {
    const value = read();
    return value > 0 ? value : null;
  } catch {
    return null;
  }
}

function reject(row: Row, column: TimingColumn, expected: CodedReason, rejected: RejectedRows): TimingEntry[] {
  rejected.add(
    row.line,
    row.names[row.columns.get(column)!],
    `"${cell(row, column)}"`,
    expected,
    row.cells,
    row.delimiter,
  );
  return [];
}

/** Times between gates become times from the start. */
function sumIntervals(entries: TimingEntry[]): TimingEntry[] {
  const soFar = new Map<string, number>();
  return [...entries]
    .sort((a, b) => a.distance_m - b.distance_m)
    .map((entry) => {
      const time_s = (soFar.get(repetitionKey(entry)) ?? 0) + entry.time_s;
      soFar.set(repetitionKey(entry), time_s);
      return { ...entry, time_s };
    })
    .sort((a, b) => a.line - b.line);
}

function missing(file: string, begins: string | null): FaultError {
  return new FaultError(fault('TIMING_COLUMNS_MISSING', { file, begins }, { file }));
}

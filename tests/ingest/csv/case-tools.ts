import { type KnownRecording, makeSignal } from './make-signal.ts';

export const G = 9.80665;
export const DEG = Math.PI / 180;
/** Names of a file that says everything. */
export const PLAIN = ['time_s', 'acc_x_mps2', 'acc_y_mps2', 'acc_z_mps2', 'gyr_x_radps', 'gyr_y_radps', 'gyr_z_radps'];
/** The six channels of them. */
export const SIX = PLAIN.slice(1);
export const AXES = ['x', 'y', 'z'];
export const pad = (value: number, length = 2) => String(Math.floor(value)).padStart(length, '0');

/** What a case's reader must get back. Values come from the invented signal, never from the reader. */
export interface Expected {
  what: string;
  recordings: {
    side: 'left' | 'right' | 'unknown';
    samples: number;
    rate_hz: number;
    start_utc: string | null;
    gaps: { start_s: number; end_s: number; lost_samples: number | null }[];
    /** Some rows in full, SI units. */
    rows: { row: number; time_s: number; acc_mps2: (number | null)[]; gyr_radps: (number | null)[] | null }[];
  }[];
  tolerance: { time_s: number; acc_mps2: number; gyr_radps: number };
  faults: string[];
  rejected_lines: number[];
  /** Parts of the layout that must have been found. */
  layout: Record<string, unknown>;
}

export interface Refused {
  what: string;
  refused: { code: string; about?: string; fewest_choices?: number };
}

export interface Case {
  name: string;
  file_name: string;
  bytes: Buffer;
  options?: Record<string, unknown>;
  expected: Expected | Refused;
}

/** What most files keep of their signal. */
export const TOLERANCE = { time_s: 1e-4, acc_mps2: 1e-3, gyr_radps: 2e-4 };

/** Collects the cases of one list. `put` takes the whole expectation; `read` and `refuse` make it of what a case is about. */
export function caseList(tolerance: Expected['tolerance'] = TOLERANCE, usual_name = 'input.csv') {
  const cases: Case[] = [];
  const put = (
    name: string,
    content: string | Buffer,
    expected: Expected | Refused,
    options?: Case['options'],
    file_name = usual_name,
  ) => cases.push({ name, file_name, bytes: Buffer.from(content), expected, options });
  const read = (
    name: string,
    content: string | Buffer,
    what: string,
    recordings: Expected['recordings'],
    more: Partial<Expected> = {},
    options?: Case['options'],
    file_name?: string,
  ) => {
    const nothing_else = { faults: [], rejected_lines: [], layout: {} };
    put(name, content, { what, recordings, tolerance, ...nothing_else, ...more }, options, file_name);
  };
  const refuse = (
    name: string,
    content: string | Buffer,
    what: string,
    refused: Refused['refused'],
    options?: Case['options'],
    file_name?: string,
  ) => put(name, content, { what, refused }, options, file_name);
  return { cases, put, read, refuse };
}

/** Signals at 200 Hz with rest before the motion, each another one. */
export function signalsFrom(seed: number) {
  let next = seed;
  return (rest = 100, moving = 60) => makeSignal(next++, 200, rest, moving);
}

export interface ExpectOptions {
  side?: 'left' | 'right' | 'unknown';
  /** Rows of the signal that the file keeps; all by default. */
  kept?: number[];
  start_utc?: string | null;
  rate_hz?: number;
  gyr?: boolean;
  gaps?: Expected['recordings'][number]['gaps'];
  time_s?: (row: number) => number;
  missing?: { row: number; axis: number }[];
}

const ROWS_CHECKED = [0, 1, 50, 99, 110, 125, 140, 155];

/** The expectation of one sensor of a file. */
export function expectSensor(signal: KnownRecording, options: ExpectOptions = {}): Expected['recordings'][number] {
  const kept = options.kept ?? signal.time_s.map((_, row) => row);
  const first = signal.time_s[kept[0]];
  const lost = (axis: number, row: number) => options.missing?.some((cell) => cell.row === row && cell.axis === axis);
  return {
    side: options.side ?? 'unknown',
    samples: kept.length,
    rate_hz: options.rate_hz ?? signal.rate_hz,
    start_utc: options.start_utc ?? null,
    gaps: options.gaps ?? [],
    rows: [...ROWS_CHECKED.filter((row) => row < kept.length - 1), kept.length - 1].map((row) => ({
      row,
      time_s: options.time_s ? options.time_s(row) : signal.time_s[kept[row]] - first,
      acc_mps2: signal.acc[kept[row]].map((value, axis) => (lost(axis, kept[row]) ? null : value)),
      gyr_radps: options.gyr === false ? null : signal.gyr[kept[row]],
    })),
  };
}

export interface TableOptions {
  delimiter?: string;
  decimal?: '.' | ',';
  newline?: string;
  header?: string[] | null;
  units?: string[] | null;
  preamble?: string[];
  final_newline?: boolean;
  rows: string[][];
}

/** Text of a table; cells are written as given but for the decimal mark of plain numbers. */
export function table(options: TableOptions): string {
  const { delimiter = ',', decimal = '.', newline = '\n' } = options;
  const written = options.rows.map((cells) =>
    cells.map((cell) => (decimal === ',' && /^-?\d+\.\d+$/.test(cell) ? cell.replace('.', ',') : cell)).join(delimiter),
  );
  const lines = [
    ...(options.preamble ?? []),
    ...(options.header ? [options.header.join(delimiter)] : []),
    ...(options.units ? [options.units.join(delimiter)] : []),
    ...written,
  ];
  return lines.join(newline) + (options.final_newline === false ? '' : newline);
}

/** Rows of time and six channels, each with its factor and decimals. */
export function sixAxes(
  signal: KnownRecording,
  time: (row: number) => string,
  acc: { per_si: number; decimals: number } = { per_si: 1, decimals: 4 },
  gyr: { per_si: number; decimals: number } | null = { per_si: 1, decimals: 5 },
): string[][] {
  return signal.time_s.map((_, row) => [
    time(row),
    ...signal.acc[row].map((value) => (value * acc.per_si).toFixed(acc.decimals)),
    ...(gyr ? signal.gyr[row].map((value) => (value * gyr.per_si).toFixed(gyr.decimals)) : []),
  ]);
}

export const seconds =
  (signal: KnownRecording, decimals = 4) =>
  (row: number) =>
    signal.time_s[row].toFixed(decimals);

import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { AxisColumns, SensorRecording } from '../../../shared/sample-block.ts';
import type { Mounting, Side } from '../../../shared/words.ts';

/** What BIDS has no key for; kept under derivatives by our own exports. */
export interface RecordingSidecar {
  Side?: Side;
  Mounting?: Mounting;
  ClockOffset?: number;
  ClockDrift?: number;
  ClockOffsetUncertainty?: number;
  Gaps?: SensorRecording['samples']['gaps'];
  AccelerometerRange?: number | null;
  GyroscopeRange?: number | null;
}

/**
 * Reads one motion file with its channels and sidecars back into a recording, sample by sample as it was exported. A data set
 * of other makers lacks our own sidecar: side and mounting are then taken from the tracked point's name.
 * @param own our own sidecar's file, which need not be there
 * @throws FaultError DATASET_UNREADABLE
 */
export function readMotionFile(file: string, own: string): SensorRecording {
  const stem = join(dirname(file), basename(file).replace(/_motion\.tsv$/, ''));
  const motion = readJson(`${stem}_motion.json`) as {
    SamplingFrequency?: number;
    SamplingFrequencyEffective?: number | string;
  };
  const sidecar = existsSync(own) ? (readJson(own) as RecordingSidecar) : {};
  const channels = readTsv(`${stem}_channels.tsv`);
  const lines = readText(file).split('\n');
  if (lines.at(-1) === '') lines.pop();
  const columns = channels.map(() => new Float64Array(lines.length));
  lines.forEach((line, i) => {
    const cells = line.split('\t');
    if (cells.length !== channels.length) {
      throw unreadable('columns', file, { line: i + 1, found: cells.length, expected: channels.length });
    }
    for (let k = 0; k < cells.length; k++) columns[k][i] = cells[k] === 'n/a' ? Number.NaN : Number(cells[k]);
  });
  const find = (type: string, component: string): Float64Array | undefined =>
    columns[channels.findIndex((c) => c.type === type && (c.component === component || type === 'LATENCY'))];
  const axes = (type: string): AxisColumns | null => {
    const [x, y, z] = ['x', 'y', 'z'].map((axis) => find(type, axis));
    return x && y && z ? { x, y, z } : null;
  };
  const acc = axes('ACCEL');
  const rate = Number(motion.SamplingFrequencyEffective) || motion.SamplingFrequency;
  const point = channels.find((c) => c.type === 'ACCEL')?.tracked_point ?? '';
  if (!acc || typeof rate !== 'number' || !(rate > 0 && rate <= 1e6))
    throw unreadable(acc ? 'no_rate' : 'no_acceleration', file);
  return {
    side: sidecar.Side ?? (/left/i.test(point) ? 'left' : /right/i.test(point) ? 'right' : 'unknown'),
    mounting: sidecar.Mounting ?? (/shank|shin|tibia|ankle/i.test(point) ? 'shank' : 'foot'),
    clock_offset_s: sidecar.ClockOffset ?? 0,
    clock_drift: sidecar.ClockDrift ?? 0,
    clock_offset_u_s: sidecar.ClockOffsetUncertainty ?? 0,
    samples: {
      start_utc: null,
      sampling_rate_hz: rate,
      time_s: find('LATENCY', '') ?? Float64Array.from(lines, (_, i) => i / rate),
      acc_mps2: acc,
      gyr_radps: axes('GYRO'),
      gaps: sidecar.Gaps ?? [],
      acc_range_mps2: sidecar.AccelerometerRange ?? null,
      gyr_range_radps: sidecar.GyroscopeRange ?? null,
    },
  };
}

/** A table with a header row; `n/a` stays as it is. */
export function readTsv(file: string): Record<string, string>[] {
  const [header, ...lines] = readText(file).trimEnd().split('\n');
  const names = header.split('\t');
  return lines.map((line) => Object.fromEntries(line.split('\t').map((cell, k) => [names[k], cell])));
}

function readText(file: string): string {
  if (!existsSync(file)) throw unreadable('missing', file);
  return readFileSync(file, 'utf8');
}

/** A sidecar. @throws FaultError DATASET_UNREADABLE when the file is missing or holds no JSON object */
export function readJson(file: string): object {
  let value: unknown;
  try {
    value = JSON.parse(readText(file));
  } catch (error) {
    if (error instanceof FaultError) throw error;
  }
  if (value === null || typeof value !== 'object' || Array.isArray(value)) throw unreadable('no_object', file);
  return value;
}

type Why =
  | 'missing'
  | 'no_description'
  | 'no_motion'
  | 'no_acceleration'
  | 'no_rate'
  | 'no_derivatives'
  | 'no_raw'
  | 'not_inertial'
  | 'another_system'
  | 'none_inertial'
  | 'no_object';

export function unreadable(why: Why, file: string): FaultError;
export function unreadable(
  why: 'columns',
  file: string,
  values: { line: number; found: number; expected: number },
): FaultError;
export function unreadable(why: 'points', file: string, values: { points: string }): FaultError;
export function unreadable(why: 'unit', file: string, values: { channel: string; unit: string }): FaultError;
export function unreadable(why: Why | 'columns' | 'points' | 'unit', file: string, values: object = {}): FaultError {
  return new FaultError(fault(`DATASET_UNREADABLE.${why}`, { file, ...values } as never, { file }));
}

import type { SetAside } from '../store/set-aside.ts';
import { tmpdir } from 'node:os';
import { openCsvRecording, type RecordingSummary } from '../../ingest/csv/open-csv-recording.ts';
import { type Fault, FaultError, fault } from '../../shared/fault.ts';
import type { Layout, LayoutCorrection } from '../../shared/schemas/layout.ts';
import type { Mounting, Side } from '../../shared/words.ts';
import type { SampleSource } from '../store/sample-source.ts';
import { SampleCollector } from './collect-samples.ts';
import { placeOnOneClock } from './place-on-one-clock.ts';
import type { SampleSpool } from './sample-spool.ts';

/** One file of sensor data. `side` null: the file says itself, or holds both. */
export interface SensorFile {
  side: Side | null;
  file_name: string;
  bytes: Uint8Array | AsyncIterable<Uint8Array>;
  total_bytes?: number;
  /** How to read this file alone; null and absent alike take the common one. */
  layout?: LayoutCorrection | null;
}

export interface ReadOptions {
  mounting: Mounting;
  rate_hz?: number;
  layout?: LayoutCorrection;
  /** Layouts kept under a name: a file of the same shape is read with its own. */
  saved_layouts?: Layout[];
  /** Called with the part of all bytes that was read, 0 to 1. */
  onProgress?: (part: number) => void;
  signal?: AbortSignal;
  /** Folder for the samples of recordings that are too long for memory; the system's passing folder without it. */
  spool_folder?: string;
}

/** One sensor's recording with where it came from. */
export interface ReadSensor {
  source: SampleSource;
  /** Position of its file among the files given. */
  file_index: number;
  raw_sha256: string;
  layout: unknown;
  evidence: unknown;
  /** Where its samples lie when they are too many for memory. */
  spool: SampleSpool | null;
}

export interface ReadSensors {
  sensors: ReadSensor[];
  /** What was met and did not stop the reading. */
  faults: Fault[];
  rejected: SetAside;
}

/**
 * Reads one or two sensor files and puts them on one clock, ready for `analyseSources`.
 * @returns left before right; close every spool when done
 * @throws FaultError when a file is refused, holds no samples, or the sides do not fit together
 */
export async function readSensorFiles(files: SensorFile[], options: ReadOptions): Promise<ReadSensors> {
  const faults: Fault[] = [];
  const rejected: SetAside = { count: 0, rows: [] };
  const sensors: ReadSensor[] = [];
  const total = files.reduce((sum, file) => sum + (file.total_bytes ?? 0), 0);
  let before = 0;
  try {
    for (const [file_index, file] of files.entries()) {
      const onBytes = (bytes: number) => options.onProgress?.(total > 0 ? (before + bytes) / total : 0);
      const read = await readSensorFile(file, file_index, options, onBytes);
      before += file.total_bytes ?? 0;
      sensors.push(...read.sensors);
      faults.push(...read.summary.faults);
      rejected.count += read.summary.rejected_count;
      rejected.rows.push(...read.summary.rejected_rows.map((row) => ({ file: file.file_name, ...row })));
    }
    sensors.sort((a, b) => (a.source.side < b.source.side ? -1 : a.source.side > b.source.side ? 1 : 0));
    checkSides(
      sensors.map(({ source }) => source),
      files,
    );
    faults.push(...placeOnOneClock(sensors.map(({ source }) => source)));
    for (const sensor of sensors) {
      if (!sensor.spool || sensor.source.columns === sensor.spool) continue;
      // The times were mended: what the spool holds is out of date.
      sensor.spool.close(false);
      sensor.spool = null;
    }
    return { sensors, faults, rejected };
  } catch (error) {
    for (const { spool } of sensors) spool?.close(false);
    throw error;
  }
}

async function readSensorFile(
  file: SensorFile,
  file_index: number,
  { mounting, rate_hz, layout, saved_layouts, signal, spool_folder = tmpdir() }: ReadOptions,
  onBytes: (bytes: number) => void,
): Promise<{ sensors: ReadSensor[]; summary: RecordingSummary }> {
  const open = await openCsvRecording(file.bytes, {
    file_name: file.file_name,
    layout: file.layout ?? layout,
    saved_layouts,
    rate_hz,
    side: file.side ?? undefined,
    total_bytes: file.total_bytes,
    signal,
    onProgress: ({ bytes_read }) => onBytes(bytes_read),
  });
  const collectors: SampleCollector[] = [];
  try {
    for await (const block of open.blocks) {
      collectors[block.sensor] ??= new SampleCollector(spool_folder);
      collectors[block.sensor].append(block.samples);
    }
    const summary = open.summary();
    const sensors = summary.sensors.flatMap(({ samples: _, ...facts }, index): ReadSensor[] => {
      const collected = collectors[index]?.finish({ ...facts, side: file.side ?? facts.side, mounting });
      if (!collected) return [];
      return [{ ...collected, file_index, raw_sha256: summary.sha256, layout: open.layout, evidence: open.evidence }];
    });
    if (sensors.length === 0) throw nothingRead(file.file_name);
    return { sensors, summary };
  } catch (error) {
    for (const collector of collectors) collector?.abandon();
    throw error;
  }
}

function checkSides(read: { side: Side }[], files: SensorFile[]): void {
  const names = files.map((file) => file.file_name).join(', ');
  if (read.length > 2) {
    throw new FaultError(
      fault('TOO_MANY_SENSORS', { files: names, n: read.length }, { file: names, sensors: read.length }),
    );
  }
  if (read.length === 2 && (read[0].side === read[1].side || read.some(({ side }) => side === 'unknown'))) {
    throw new FaultError(
      fault('SIDES_UNCLEAR', { files: names, first: read[0].side, second: read[1].side }, { file: names }),
    );
  }
}

function nothingRead(fileName: string): FaultError {
  return new FaultError(fault('NO_SAMPLES.in_file', { file: fileName }, { file: fileName }));
}

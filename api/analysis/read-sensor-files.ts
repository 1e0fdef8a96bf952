import { readCsvRecording } from '../../ingest/csv/read-csv-recording.ts';
import { type Fault, FaultError } from '../../shared/fault.ts';
import type { SampleBlock, SensorRecording } from '../../shared/sample-block.ts';
import type { Layout, LayoutCorrection } from '../../shared/schemas/layout.ts';
import type { Mounting, Side } from '../../shared/words.ts';
import { placeOnOneClock } from './place-on-one-clock.ts';

/** One file of sensor data. `side` null: the file says itself, or holds both. */
export interface SensorFile {
  side: Side | null;
  file_name: string;
  bytes: Uint8Array | AsyncIterable<Uint8Array>;
  total_bytes?: number;
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
}

/** One sensor's recording with where it came from. */
export interface ReadSensor {
  recording: SensorRecording;
  /** Position of its file among the files given. */
  file_index: number;
  raw_sha256: string;
  layout: unknown;
  evidence: unknown;
}

/** Rows of the files that could not be read. The first 10 000 of a file are kept with their text. */
export interface SetAside {
  count: number;
  rows: { file: string; line: number; column: string | null; found: string; expected: string; text: string }[];
}

/**
 * Reads one or two sensor files and puts them on one clock, ready for `analyse`.
 * @returns left before right, with the faults that did not stop the reading
 * @throws FaultError when a file is refused, holds no samples, or the sides do not fit together
 */
export async function readSensorFiles(
  files: SensorFile[],
  { mounting, rate_hz, layout, saved_layouts, onProgress, signal }: ReadOptions,
): Promise<{ sensors: ReadSensor[]; faults: Fault[]; rejected: SetAside }> {
  const faults: Fault[] = [];
  const rejected: SetAside = { count: 0, rows: [] };
  const read: (Omit<ReadSensor, 'recording'> & { side: Side; samples: SampleBlock })[] = [];
  const total = files.reduce((sum, file) => sum + (file.total_bytes ?? 0), 0);
  let before = 0;
  for (const [file_index, file] of files.entries()) {
    const csv = await readCsvRecording(file.bytes, {
      file_name: file.file_name,
      layout,
      saved_layouts,
      rate_hz,
      side: file.side ?? undefined,
      total_bytes: file.total_bytes,
      signal,
      onProgress: ({ bytes_read }) => onProgress?.(total > 0 ? (before + bytes_read) / total : 0),
    });
    before += file.total_bytes ?? 0;
    faults.push(...csv.faults);
    rejected.count += csv.rejected_count;
    rejected.rows.push(...csv.rejected_rows.map((row) => ({ file: file.file_name, ...row })));
    if (csv.recordings.length === 0) throw nothingRead(file.file_name);
    for (const { side, samples } of csv.recordings) {
      const { sha256: raw_sha256, layout: found, evidence } = csv;
      read.push({ side: file.side ?? side, samples, file_index, raw_sha256, layout: found, evidence });
    }
  }
  read.sort((a, b) => (a.side < b.side ? -1 : a.side > b.side ? 1 : 0));
  checkSides(read, files);
  const placed = placeOnOneClock(read.map(({ side, samples }) => ({ side, mounting, samples })));
  faults.push(...placed.faults);
  return {
    sensors: read.map(({ side: _side, samples: _samples, ...from }, i) => ({
      ...from,
      recording: placed.recordings[i],
    })),
    faults,
    rejected,
  };
}

function checkSides(read: { side: Side }[], files: SensorFile[]): void {
  const names = files.map((file) => file.file_name).join(', ');
  if (read.length > 2) {
    throw new FaultError({
      code: 'TOO_MANY_SENSORS',
      message: `${names}: found ${read.length} sensors; an analysis takes one, or one on each side. Nothing was analysed.`,
      where: { file: names, sensors: read.length },
      hint: 'Name in a layout which columns belong to the left and the right sensor.',
    });
  }
  if (read.length === 2 && (read[0].side === read[1].side || read.some(({ side }) => side === 'unknown'))) {
    throw new FaultError({
      code: 'SIDES_UNCLEAR',
      message: `${names}: found two sensors with sides "${read[0].side}" and "${read[1].side}"; expected one left and one right. Nothing was analysed.`,
      where: { file: names },
      hint: 'Give each file as left or right, or name the sides in a layout.',
    });
  }
}

function nothingRead(fileName: string): FaultError {
  return new FaultError({
    code: 'NO_SAMPLES',
    message: `${fileName}: found no samples. Nothing was analysed.`,
    where: { file: fileName },
    hint: 'Check that the logger wrote data and that the file was copied whole.',
  });
}

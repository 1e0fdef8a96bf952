import { type Fault, FaultError, fault } from '../../shared/fault.ts';
import { because } from '../../shared/reason.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import type { Layout, LayoutCorrection } from '../../shared/schemas/layout.ts';
import type { Side } from '../../shared/words.ts';
import type { Evidence } from './columns/evidence.ts';
import { inferLayout, type LayoutFound } from './infer/infer-layout.ts';
import { planColumns, planSensors } from './plan/plan-columns.ts';
import { SensorAssembler, type SensorSummary } from './rows/assemble-sensor.ts';
import { closingFaults } from './rows/closing-faults.ts';
import { RowDecoder } from './rows/decode-rows.ts';
import { type RejectedRow, RejectedRows } from './rows/rejected-rows.ts';
import { WovenSensor } from './rows/weave-sensor.ts';
import { ByteSource, type ReadProgress } from './text/byte-source.ts';
import { splitCells } from './text/cells.ts';
import { lineBlocks, linesInQuotes, sniffEncoding, withoutQuotes } from './text/text-blocks.ts';

export interface ReadCsvOptions {
  file_name: string;
  /** A saved layout, or corrections to what would be found; null and absent alike mean 'find it'. */
  layout?: Layout | LayoutCorrection | null;
  /** Layouts kept for files of one shape each: where `layout` is absent, the one whose fingerprint fits is used. */
  saved_layouts?: Layout[];
  /** Sampling rate, where the file does not tell. */
  rate_hz?: number;
  /** Side of the sensor, where the file does not tell; picks one sensor where the file holds both. */
  side?: Side;
  /** Size of the file, for the progress of a stream. */
  total_bytes?: number;
  onProgress?: (progress: ReadProgress) => void;
  signal?: AbortSignal;
}

/** One block of one sensor. Blocks of a sensor follow each other without overlap; `time_s` runs on through all of them. */
export interface RecordingBlock {
  sensor: number;
  side: Side;
  samples: SampleBlock;
}

/** What is known when everything was read. */
export interface RecordingSummary {
  sensors: (SensorSummary & { side: Side })[];
  faults: Fault[];
  rejected_rows: RejectedRow[];
  /** All of them; `rejected_rows` keeps the first 10 000. */
  rejected_count: number;
  rows: number;
  /** Of the file as it came. */
  sha256: string;
  bytes: number;
}

export interface OpenRecording {
  layout: Layout;
  evidence: Evidence[];
  /** Every block in the order of the file. Read to the end before `summary`. */
  blocks: AsyncGenerator<RecordingBlock>;
  /** @throws when the blocks were not read to the end */
  summary(): RecordingSummary;
}

/** The layout is found from this much text at most; decoding then starts again from the first row. */
const HEAD_BYTES = 4 << 20;

/**
 * Opens a file of comma-separated values: finds its layout from the first 4 MiB, then hands out its samples block by block. Memory
 * stays the same whatever the size of the file.
 * @throws FaultError for what is no recording (FILE_EMPTY, FILE_NOT_TEXT, NOT_A_RECORDING, COLUMN_MISSING, ...), and
 *   LayoutQuestion where the file can be read in more than one way. While the blocks are read: TOO_MANY_BAD_ROWS,
 *   NO_SAMPLES, IMPORT_CANCELLED.
 */
export async function openCsvRecording(
  source: Uint8Array | AsyncIterable<Uint8Array>,
  options: ReadCsvOptions,
): Promise<OpenRecording> {
  const file = options.file_name;
  const bytes = new ByteSource(source, options);
  const { blocks, encoding } = await decodedBlocks(bytes, options);
  const head: Uint8Array[] = [];
  let headBytes = 0;
  let ended = false;
  while (headBytes < HEAD_BYTES) {
    const next = await blocks.next();
    if (next.done) {
      ended = true;
      break;
    }
    head.push(next.value);
    headBytes += next.value.length;
  }
  const text = new TextDecoder('utf-8').decode(Buffer.concat(head));
  if (text.trim() === '') throw empty(file);
  const lines = text.split(/\r\n|\n|\r/);
  const whole = ended || lines.length < 2 ? lines : lines.slice(0, -1);
  const found = inTheSheet(bytes.sheets, file, () =>
    inferLayout(whole, {
      file_name: file,
      encoding: encoding.encoding,
      told: (options.layout as LayoutCorrection | null | undefined) ?? undefined,
      saved: options.saved_layouts,
      rate_hz: options.rate_hz,
      side: options.side,
    }),
  );
  found.evidence.unshift({
    about: 'encoding',
    decided: because('took_text', { text: encoding.encoding }),
    because: encoding.because,
    source: 'measured',
  });
  if (bytes.sheets) found.evidence.unshift(sheetEvidence(bytes.sheets));
  const rejected = new RejectedRows(file);
  const columns = planColumns(found.layout, file);
  const { start_utc, start_utc_u_s } = found.preamble;
  const start = { start_utc, start_utc_u_s, first_raw: Number.NaN };
  const sensors = planSensors(found, columns, options).map((plan) =>
    plan.gyr_habits
      ? new WovenSensor(plan, plan.gyr_habits, rejected, start)
      : new SensorAssembler(plan, rejected, start),
  );
  const decoder = new RowDecoder(columns, rejected, found.first_row_line + 1);
  let finished: RecordingSummary | null = null;

  async function* read(): AsyncGenerator<RecordingBlock> {
    let rows = 0;
    const mixed = columns.side_column !== null || columns.quantity_column !== null;
    let brokenOff = false;
    const decode = function* (block: Uint8Array): Generator<RecordingBlock> {
      const before = rejected.count;
      const unfinished = !endsALine(block);
      if (unfinished && isCutNumber(block, found)) {
        const [found, expected] = [because('row_broken_off'), because('row_whole')];
        rejected.add(decoder.nextLine, null, found, expected, [decodeUtf8(block)], '');
        brokenOff = true;
        return;
      }
      const batch = decoder.decode(block);
      rows += batch.rows;
      brokenOff = unfinished && rejected.count > before;
      for (const [index, sensor] of sensors.entries()) {
        const which = sensor.plan.index;
        for (const samples of sensor.take(batch, mixed ? (row) => batch.sensor[row] === which : null))
          yield { sensor: index, side: sensor.plan.side, samples };
      }
      rejected.checkEarly(rows);
    };
    for (const block of fromFirstRow(head, found.first_row_line)) yield* decode(block);
    head.length = 0;
    for await (const block of blocks) yield* decode(block);
    const ends_early = brokenOff || bytes.cutShort;
    for (const [index, sensor] of sensors.entries()) {
      const samples = sensor.flush();
      if (samples && ends_early) samples.ends_early = true;
      if (samples) yield { sensor: index, side: sensor.plan.side, samples };
    }
    rejected.check(rows);
    if (sensors.every((sensor) => sensor.samples < 2)) throw noSamples(file, rows, rejected.count);
    if (sensors.some((sensor) => sensor.samples > 1 && !Number.isFinite(sensor.summary().sampling_rate_hz)))
      throw timeStandsStill(file);
    finished = {
      sensors: sensors.map((sensor) => ({ side: sensor.plan.side, ...sensor.summary() })),
      faults: closingFaults({
        file,
        sensors,
        rejected,
        cutShort: bytes.cutShort,
        passedOver: decoder.passedOver,
        rate_hz: options.rate_hz,
        remarks: [...sheetsLeft(bytes.sheets, file), ...found.remarks],
      }),
      rejected_rows: rejected.kept,
      rejected_count: rejected.count,
      rows,
      sha256: bytes.sha256(),
      bytes: bytes.bytes,
    };
  }

  return {
    layout: found.layout,
    evidence: found.evidence,
    blocks: read(),
    summary() {
      if (!finished) throw new Error('read the blocks to their end before asking for the summary');
      return finished;
    },
  };
}

async function decodedBlocks(bytes: ByteSource, options: ReadCsvOptions) {
  const pieces = bytes.unpacked();
  const first: Uint8Array[] = [];
  let length = 0;
  while (length < 65536) {
    const next = await pieces.next();
    if (next.done) break;
    first.push(next.value);
    length += next.value.length;
  }
  const start = Buffer.concat(first);
  if (length === 0) throw empty(options.file_name);
  const told = (options.layout as LayoutCorrection | undefined)?.text?.encoding;
  const sniffed = sniffEncoding(start, options.file_name);
  const encoding = told ? { encoding: told, because: because('by_layout') } : sniffed;
  async function* again(): AsyncGenerator<Uint8Array> {
    yield start;
    yield* pieces;
  }
  const blocks = lineBlocks(again(), encoding.encoding, options.file_name);
  return { blocks: linesInQuotes(start, encoding.encoding) ? withoutQuotes(blocks) : blocks, encoding };
}

/** The head's blocks without the lines above the first row. */
function* fromFirstRow(head: Uint8Array[], firstRowLine: number): Generator<Uint8Array> {
  let skip = firstRowLine;
  for (const block of head) {
    let at = 0;
    while (skip > 0 && at < block.length) {
      const byte = block[at++];
      if (byte === 10 || (byte === 13 && block[at] !== 10)) skip--;
    }
    if (at < block.length) yield block.subarray(at);
  }
}

function decodeUtf8(bytes: Uint8Array): string {
  return new TextDecoder('utf-8').decode(bytes);
}

function endsALine(block: Uint8Array): boolean {
  const last = block[block.length - 1];
  return last === 10 || last === 13;
}

/**
 * A last line without an end may be a row that broke off inside its last number. Loggers write a column with the same decimals in every
 * row: fewer of them in the last one tell.
 */
function isCutNumber(line: Uint8Array, { head, layout }: LayoutFound): boolean {
  const decimals = (cell: string | undefined) => /[.,](\d*)$/.exec(cell?.trim() ?? '')?.[1].length ?? 0;
  const last = layout.column_count - 1;
  const usual = decimals(head.text[0]?.[last]);
  const others = head.text.filter((cells) => decimals(cells[last]) !== usual).length;
  // The line itself may be among the rows looked at.
  const even = usual > 0 && others <= 1;
  const cells = splitCells(decodeUtf8(line), layout.text.delimiter);
  return even && cells.length === layout.column_count && decimals(cells[last]) < usual && head.text.length > 3;
}

function sheetEvidence({ sheet, others }: NonNullable<ByteSource['sheets']>): Evidence {
  const why = others.length > 0 ? because('by_first_sheet', { sheets: others.length + 1 }) : because('by_only_sheet');
  return { about: 'sheet', decided: because('took_text', { text: sheet }), because: why, source: 'assumed' };
}

/** A first sheet without a table is told by its name, with the sheets where the recording may be. */
function inTheSheet<Found>(sheets: ByteSource['sheets'], file: string, find: () => Found): Found {
  try {
    return find();
  } catch (error) {
    if (!sheets || sheets.others.length === 0) throw error;
    if (!(error instanceof FaultError) || error.code !== 'NOT_A_RECORDING') throw error;
    throw new FaultError(fault('NOT_A_RECORDING.first_sheet', { file, ...sheets }, { file }));
  }
}

/** Sheets that were not read are told: another sensor may lie there. */
function sheetsLeft(sheets: ByteSource['sheets'], file: string): Fault[] {
  if (!sheets || sheets.others.length === 0) return [];
  return [fault('SHEETS_NOT_READ', { file, sheet: sheets.sheet, others: sheets.others }, { file })];
}

function empty(file: string): FaultError {
  return new FaultError(fault('FILE_EMPTY', { file }, { file }));
}

function timeStandsStill(file: string): FaultError {
  return new FaultError(fault('RATE_MISSING.stands_still', { file }, { file }));
}

function noSamples(file: string, rows: number, rejected: number): FaultError {
  return new FaultError(fault('NO_SAMPLES', { file, rows, rejected }, { file }));
}

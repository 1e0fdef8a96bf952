import type { TextShape } from '../../shared/schemas/layout.ts';
import type { FileColumn, FileLine } from '../../shared/schemas/layout-preview.ts';
import { ByteSource } from './text/byte-source.ts';
import { readHeadTable } from './text/head-table.ts';
import { nameColumn } from './columns/name-column.ts';
import { sniffTable, type TableShape } from './text/sniff-table.ts';
import { lineBlocks, linesInQuotes, sniffEncoding, withoutQuotes } from './text/text-blocks.ts';

/** The beginning of a file as a person would see it in an editor, parted into lines and columns. */
export interface FileLook {
  lines: FileLine[];
  columns: FileColumn[];
  delimiter: string;
  decimal_mark: string;
}

/** As much as the layout is found from. */
const LOOKED_AT_BYTES = 4 << 20;
const PREAMBLE_LINES = 6;
const ROWS = 6;
const LONGEST_TEXT = 600;
/** A column with no more values than this may say which sensor a row is of. */
const MOST_VALUES = 4;

/**
 * Shows the first lines and the columns of a file, whether or not it can be read as a recording.
 * @param told how lines and cells are parted, where the file does not show it by itself
 * @returns no columns where no table is found: then delimiter, decimal mark or first row are to be told
 * @throws FaultError for what is no text: FILE_NOT_TEXT, LINE_TOO_LONG
 */
export async function lookAtFile(
  bytes: Uint8Array,
  file: string,
  told: Partial<TextShape> | undefined,
): Promise<FileLook> {
  const lines = await linesOf(bytes, file, told?.encoding);
  const table = tableOf(lines, file, told);
  if (!table) {
    const shown = lines.slice(0, PREAMBLE_LINES + ROWS);
    return {
      lines: shown.map((text, at) => ({ line: at + 1, role: 'row', text: text.slice(0, LONGEST_TEXT) })),
      columns: [],
      delimiter: told?.delimiter ?? '',
      decimal_mark: told?.decimal_mark ?? '',
    };
  }
  return {
    lines: roles(lines, table),
    columns: columnsOf(lines, table),
    delimiter: table.delimiter,
    decimal_mark: table.decimal_mark,
  };
}

async function linesOf(
  bytes: Uint8Array,
  file: string,
  encoding: TextShape['encoding'] | undefined,
): Promise<string[]> {
  const beginning = await unpackedBeginning(bytes, file);
  const known = encoding ?? sniffEncoding(beginning, file).encoding;
  const blocks: Uint8Array[] = [];
  async function* whole() {
    yield beginning;
  }
  const read = lineBlocks(whole(), known, file);
  for await (const block of linesInQuotes(beginning, known) ? withoutQuotes(read) : read) blocks.push(block);
  return new TextDecoder('utf-8').decode(Buffer.concat(blocks)).split(/\r\n|\n|\r/);
}

/** The first bytes of a file as text, of a gzip file too: as much as a layout is found from. */
export async function unpackedBeginning(bytes: Uint8Array, file: string): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const piece of new ByteSource(bytes, { file_name: file }).unpacked()) {
    pieces.push(piece);
    length += piece.length;
    if (length > LOOKED_AT_BYTES) break;
  }
  return Buffer.concat(pieces);
}

function tableOf(lines: string[], file: string, told: Partial<TextShape> | undefined): TableShape | null {
  try {
    return sniffTable(lines, file, told, []);
  } catch {
    return null;
  }
}

/** The last lines of the preamble, names, units and the first rows. */
function roles(lines: string[], table: TableShape): FileLine[] {
  const named = namedLines(lines, table);
  const top = named[0]?.at ?? table.first_row_line;
  const preamble = lines
    .slice(0, top)
    .map((text, at) => ({ at, text, role: 'preamble' as const }))
    .filter(({ text }) => text.trim() !== '');
  const rows = lines
    .slice(table.first_row_line)
    .map((text, at) => ({ at: at + table.first_row_line, text, role: 'row' as const }))
    .filter(({ text }) => text.trim() !== '')
    .slice(0, ROWS);
  return [...preamble.slice(-PREAMBLE_LINES), ...named, ...rows].map(({ at, text, role }) => ({
    line: at + 1,
    role,
    text: text.slice(0, LONGEST_TEXT),
  }));
}

function namedLines(lines: string[], { header, units, first_row_line }: TableShape) {
  const found: { at: number; text: string; role: FileLine['role'] }[] = [];
  const wanted: FileLine['role'][] = [
    ...(units.length > 0 ? (['units'] as const) : []),
    ...(header.length > 0 ? (['names'] as const) : []),
  ];
  for (let at = first_row_line - 1; at >= 0 && wanted.length > 0; at--) {
    if (lines[at].trim() !== '') found.unshift({ at, text: lines[at], role: wanted.shift()! });
  }
  return found;
}

function columnsOf(lines: string[], table: TableShape): FileColumn[] {
  const head = readHeadTable(lines, table);
  return head.numbers.map((numbers, index) => {
    const name = nameColumn(index, table.header[index] ?? '', table.units[index] ?? '');
    const cells = head.text.map((row) => row[index] ?? '');
    const values = new Set(cells);
    const { least, greatest } = range(numbers);
    return {
      index,
      name: table.header[index] ?? '',
      unit: table.units[index] || (name.unit && name.unit.kind !== 'other' ? name.unit.unit : ''),
      first: cells.slice(0, ROWS),
      least,
      greatest,
      values: values.size <= MOST_VALUES ? [...values] : [],
      kind: name.kind,
      axis: name.axis,
      sign: name.sign,
      side: name.side,
    };
  });
}

function range(numbers: Float64Array): { least: number | null; greatest: number | null } {
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of numbers) {
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return Number.isFinite(least) ? { least, greatest } : { least: null, greatest: null };
}

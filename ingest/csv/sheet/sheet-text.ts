import { MOST_COLUMNS } from '../../../shared/schemas/layout.ts';
import type { Workbook } from './open-workbook.ts';
import { dateText } from './sheet-dates.ts';
import { xmlReader } from './xml-parts.ts';

const PIECE_BYTES = 1 << 18;
/** No sheet has more columns (ECMA-376: XFD). */
const LAST_COLUMN = 16_384;
/** Names and notes; no number is longer. */
const LONGEST_TEXT = 2000;
/** Rows with fewer cells are notes above the table. */
const LEAST_OF_A_TABLE = 3;

/**
 * A sheet's rows as text, cells parted by tabs, numbers with the digits that the workbook holds. Rows of the table that end in empty
 * cells get as many as the widest row before them.
 * @throws Error where the sheet's document is broken
 */
export function* sheetText(workbook: Workbook): Generator<Uint8Array> {
  const encoder = new TextEncoder();
  const decoder = new TextDecoder('utf-8');
  const rows = new RowWriter(workbook);
  const reader = xmlReader(rows);
  for (let at = 0; at < workbook.xml.length; at += PIECE_BYTES) {
    reader.write(decoder.decode(workbook.xml.subarray(at, at + PIECE_BYTES), { stream: true }));
    const written = rows.take();
    if (written.length > 0) yield encoder.encode(written);
  }
  reader.end();
  yield encoder.encode(rows.take());
}

/** Listens to a sheet's elements and writes its rows. */
class RowWriter {
  #written = '';
  #cells: string[] = [];
  #widest = 0;
  #column = 0;
  #type = 'n';
  #style = 0;
  #value = '';
  /** Inside a cell's value or its own text, not inside its formula. */
  #inValue = false;

  constructor(readonly workbook: Workbook) {}

  /** What was written since it was last asked. */
  take(): string {
    const written = this.#written;
    this.#written = '';
    return written;
  }

  open(name: string, attributes: () => Record<string, string>): void {
    if (name === 'row') [this.#cells, this.#column] = [[], 0];
    else if (name === 'c') {
      const { r, t = 'n', s = '0' } = attributes();
      // A cell without a place of its own stands beside the one before.
      this.#column = (r === undefined ? null : columnOf(r)) ?? this.#column + 1;
      if (this.#column > LAST_COLUMN) throw new Error(`a cell in column ${this.#column}`);
      [this.#type, this.#style, this.#value] = [t, Number(s), ''];
    } else if (name === 'v' || name === 't') this.#inValue = true;
  }

  text(text: string): void {
    if (this.#inValue && this.#value.length < LONGEST_TEXT) this.#value += text;
  }

  close(name: string): void {
    if (name === 'v' || name === 't') this.#inValue = false;
    else if (name === 'c') {
      const text = this.#text()
        .replace(/[\t\r\n]+/g, ' ')
        .trim();
      if (text === '' || this.#column > MOST_COLUMNS) return;
      while (this.#cells.length < this.#column - 1) this.#cells.push('');
      this.#cells[this.#column - 1] = text.slice(0, LONGEST_TEXT);
    } else if (name === 'row') {
      if (this.#cells.length >= LEAST_OF_A_TABLE) {
        this.#widest = Math.max(this.#widest, this.#cells.length);
        while (this.#cells.length < this.#widest) this.#cells.push('');
      }
      this.#written += `${this.#cells.join('\t')}\n`;
    }
  }

  #text(): string {
    const { texts, dates, from1904 } = this.workbook;
    if (this.#type === 's') return withPoint(texts[Number(this.#value)] ?? '');
    if (this.#type === 'str' || this.#type === 'inlineStr') return withPoint(this.#value);
    const number = this.#type === 'n' && this.#value !== '' ? Number(this.#value) : Number.NaN;
    // Beyond year 9999 a sheet shows no date.
    const shown = dates[this.#style] === true && number >= 0 && number < 2_958_466;
    return shown ? dateText(number, from1904) : this.#value;
  }
}

/** A number kept as text has the decimal mark of whoever wrote it; numbers beside it have a point. */
function withPoint(text: string): string {
  return /^\s*[+-]?\d+,\d+(e[+-]?\d+)?\s*$/i.test(text) ? text.replace(',', '.') : text;
}

/** The number of a column from a cell's place, 1 for A; null where it names none. */
function columnOf(place: string): number | null {
  let column = 0;
  for (let i = 0; i < place.length && i < 4; i++) {
    const letter = place.charCodeAt(i) & ~32;
    if (letter < 65 || letter > 90) break;
    column = 26 * column + letter - 64;
  }
  return column === 0 ? null : column;
}

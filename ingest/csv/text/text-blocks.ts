import { FaultError, fault } from '../../../shared/fault.ts';
import { because, type CodedReason } from '../../../shared/reason.ts';
import type { TextShape } from '../../../shared/schemas/layout.ts';
import { sniffCodePage } from './code-page.ts';
import { otherFormat } from './other-formats.ts';

export type Encoding = TextShape['encoding'];

/** A line longer than this is no row of a recording. */
const LONGEST_LINE_BYTES = 1 << 20;
const LF = 10;
const CR = 13;
const QUOTE = 34;

/**
 * Tells a text's encoding from its first bytes: byte-order mark, the zero bytes of UTF-16, valid UTF-8, else the code page in which
 * its names are words, else Windows-1252 (the superset of Latin-1 that programs mean by it).
 * @throws FaultError FILE_NOT_TEXT for a spreadsheet, archive, picture or other binary file
 */
export function sniffEncoding(head: Uint8Array, file: string): { encoding: Encoding; because: CodedReason } {
  const other = otherFormat(head);
  if (other) {
    throw new FaultError(fault(`FILE_NOT_TEXT.${other.to_do}`, { file, format: other.format }, { file }));
  }
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf)
    return { encoding: 'utf-8', because: because('by_byte_order_mark') };
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: 'utf-16le', because: because('by_byte_order_mark') };
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: 'utf-16be', because: because('by_byte_order_mark') };
  const bytes = head.subarray(0, 65536);
  if (bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] <= 8) {
    throw new FaultError(fault('FILE_NOT_TEXT.archive', { file, format: 'zip' }, { file }));
  }
  // By whether the byte's place is even or odd: of UTF-16 one of the two holds the page, which is zero in most of a table of numbers and
  // a low number in words of other scripts.
  const zeros = [0, 0];
  const controls = [0, 0];
  for (let i = 0; i < bytes.length; i++) {
    const byte = bytes[i];
    if (byte === 0) zeros[i % 2]++;
    else if (byte < 32 && byte !== 9 && byte !== LF && byte !== CR && byte !== 12 && byte !== 26) controls[i % 2]++;
  }
  const half = bytes.length / 2;
  for (const [encoding, page] of [
    ['utf-16le', 1],
    ['utf-16be', 0],
  ] as const) {
    const sign = 1 - page;
    if (zeros[page] > 0.6 * half && zeros[sign] < 0.1 * half && controls[sign] * 50 <= half)
      return { encoding, because: because('by_zero_bytes') };
  }
  const odd = zeros[0] + zeros[1] + controls[0] + controls[1];
  if (odd * 50 > bytes.length) {
    throw new FaultError(fault('FILE_NOT_TEXT.binary', { file, bytes: odd, of: bytes.length }, { file }));
  }
  // A multi-byte character may be cut at the end of the head: streaming mode forgives that alone.
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true });
    return { encoding: 'utf-8', because: because('by_valid_utf8') };
  } catch {
    return sniffCodePage(bytes);
  }
}

/**
 * Turns pieces of any encoding into UTF-8 blocks that each end at a line's end, so that a character or a row is never cut.
 * Only a last line without an end comes as it is.
 * @throws FaultError LINE_TOO_LONG when no line ends within 1 MiB
 */
export async function* lineBlocks(
  pieces: AsyncIterable<Uint8Array>,
  encoding: Encoding,
  file: string,
): AsyncGenerator<Uint8Array> {
  let rest: Uint8Array = new Uint8Array(0);
  let atStart = true;
  for await (const piece of transcoded(pieces, encoding)) {
    let bytes = rest.length === 0 ? piece : Buffer.concat([rest, piece]);
    if (atStart && bytes.length < 3) {
      rest = bytes;
      continue;
    }
    if (atStart && bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) bytes = bytes.subarray(3);
    atStart = false;
    const end = lastLineEnd(bytes);
    if (end > 0) yield bytes.subarray(0, end);
    rest = bytes.subarray(end);
    if (rest.length > LONGEST_LINE_BYTES) throw lineTooLong(file);
  }
  if (rest.length > 0) yield rest;
}

/** Index after the last line end; a CR at the very end may be half of a CRLF and does not count. */
function lastLineEnd(bytes: Uint8Array): number {
  const lf = bytes.lastIndexOf(LF);
  if (lf >= 0) return lf + 1;
  const cr = bytes.subarray(0, bytes.length - 1).lastIndexOf(CR);
  return cr + 1;
}

/**
 * True where every line stands in quotes as a whole (`"1,2,3"`), as spreadsheets write a table that was saved once too often: the
 * quotes then part nothing and are left out by `withoutQuotes`.
 */
export function linesInQuotes(beginning: Uint8Array, encoding: Encoding): boolean {
  const text = new TextDecoder(encoding).decode(beginning.subarray(0, 16_384), { stream: true });
  const lines = text
    .split(/[\r\n]+/)
    .slice(0, -1)
    .filter((line) => line.trim() !== '');
  const whole = lines.filter((line) => {
    const plain = line.replaceAll('""', '');
    return /^"[^"]*"$/.test(plain) && /[,;\t|]/.test(plain);
  });
  return whole.length > 5 && whole.length > 0.8 * lines.length;
}

/** The same blocks, each line without the quotes around it; a doubled quote within is one. */
export async function* withoutQuotes(blocks: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  for await (const block of blocks)
    yield block.filter((byte, at) => byte !== QUOTE || (block[at + 1] === QUOTE && isOddQuote(block, at)));
}

/** True for the first, third, ... of the quotes that end with the one after `at`, the one around the line left out. */
function isOddQuote(block: Uint8Array, at: number): boolean {
  let first = at;
  while (first > 0 && block[first - 1] === QUOTE) first--;
  const opens = first === 0 || block[first - 1] === LF || block[first - 1] === CR;
  return (at - first - (opens ? 1 : 0)) % 2 === 0;
}

async function* transcoded(pieces: AsyncIterable<Uint8Array>, encoding: Encoding): AsyncGenerator<Uint8Array> {
  if (encoding === 'utf-8') {
    yield* pieces;
    return;
  }
  const decoder = new TextDecoder(encoding);
  const encoder = new TextEncoder();
  for await (const piece of pieces) yield encoder.encode(decoder.decode(piece, { stream: true }));
  const last = decoder.decode();
  if (last.length > 0) yield encoder.encode(last);
}

function lineTooLong(file: string): FaultError {
  return new FaultError(fault('LINE_TOO_LONG', { file, bytes: LONGEST_LINE_BYTES }, { file }));
}

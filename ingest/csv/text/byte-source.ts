import { createHash } from 'node:crypto';
import { Readable } from 'node:stream';
import { constants, createGunzip } from 'node:zlib';
import { FaultError, fault } from '../../../shared/fault.ts';
import { openWorkbook, type Workbook } from '../sheet/open-workbook.ts';
import { sheetText } from '../sheet/sheet-text.ts';

export interface ReadProgress {
  /** Bytes of the file as it lies on disk (compressed where it is) that were read so far. */
  bytes_read: number;
  /** Size of the file, null where the source does not tell. */
  bytes_total: number | null;
}

export interface ByteSourceOptions {
  file_name: string;
  total_bytes?: number;
  onProgress?: (progress: ReadProgress) => void;
  signal?: AbortSignal;
}

const PIECE_BYTES = 1 << 18;
/** Rows of numbers shrink three- to tenfold, those of a sensor at rest somewhat more; what unpacks further was made to fill a disk. */
const MOST_TIMES = 200;
/** Up to here any file is unpacked. */
const SMALL_BYTES = 256 << 20;
/** A workbook is held whole while it is read; a million rows of seven columns come to about so much. */
const LARGEST_WORKBOOK_BYTES = 128 << 20;
const LARGEST_SHEET_BYTES = 384 << 20;

/**
 * Reads a file once: counts and hashes the bytes as they came, and hands them out unpacked (gzip and workbooks are told by their first
 * bytes, never by their names). Memory stays at a few pieces whatever the size, but for a workbook, of which the first sheet is handed
 * out as text parted by tabs.
 */
export class ByteSource {
  private readonly hash = createHash('sha256');
  private hashHex: string | null = null;
  private bytesRead = 0;
  /** True when a gzip stream ended early: what came before the break was still handed out. */
  cutShort = false;
  /** The sheet that was read and those that were not, where the file is a workbook. */
  sheets: Pick<Workbook, 'sheet' | 'others'> | null = null;

  constructor(
    private readonly source: Uint8Array | AsyncIterable<Uint8Array>,
    private readonly options: ByteSourceOptions,
  ) {}

  /** SHA-256 of the file as it came, hex. Known once everything was read. */
  sha256(): string {
    this.hashHex ??= this.hash.digest('hex');
    return this.hashHex;
  }

  get bytes(): number {
    return this.bytesRead;
  }

  /** @returns pieces of the unpacked file, in order */
  async *unpacked(): AsyncGenerator<Uint8Array> {
    const raw = this.counted();
    const first = await firstBytes(raw, ZIP.length);
    if (first.head[0] === 0x1f && first.head[1] === 0x8b) yield* this.gunzipped(first.all());
    else if (ZIP.every((byte, i) => first.head[i] === byte)) yield* this.firstSheet(first.all());
    else yield* first.all();
  }

  private async *firstSheet(raw: AsyncGenerator<Uint8Array>): AsyncGenerator<Uint8Array> {
    const { file_name: file } = this.options;
    const pieces: Uint8Array[] = [];
    for await (const piece of raw) {
      pieces.push(piece);
      if (this.bytesRead > LARGEST_WORKBOOK_BYTES) throw workbookTooLarge(file);
    }
    const bytes = Buffer.concat(pieces);
    try {
      const found = openWorkbook(bytes, LARGEST_SHEET_BYTES);
      if (found === 'too_large') throw workbookTooLarge(file);
      if (typeof found === 'string')
        throw new FaultError(fault(`FILE_NOT_TEXT.${OTHER_ZIPS[found]}`, { file, format: found }, { file }));
      this.sheets = { sheet: found.sheet, others: found.others };
      yield* sheetText(found);
    } catch (cause) {
      if (cause instanceof FaultError) throw cause;
      const why = cause instanceof Error ? cause.message : String(cause);
      throw new FaultError(fault('WORKBOOK_UNREADABLE', { file, why }, { file }));
    }
  }

  private async *counted(): AsyncGenerator<Uint8Array> {
    const total = this.source instanceof Uint8Array ? this.source.length : (this.options.total_bytes ?? null);
    for await (const piece of pieces(this.source)) {
      if (this.options.signal?.aborted) throw cancelled(this.options.file_name);
      if (piece.length === 0) continue;
      this.hash.update(piece);
      this.bytesRead += piece.length;
      yield piece;
      this.options.onProgress?.({ bytes_read: this.bytesRead, bytes_total: total });
    }
  }

  private async *gunzipped(raw: AsyncGenerator<Uint8Array>): AsyncGenerator<Uint8Array> {
    // A sync flush at the end hands out all that a broken file holds; whether it is whole, its length at the end tells.
    const gunzip = createGunzip({ chunkSize: PIECE_BYTES, finishFlush: constants.Z_SYNC_FLUSH });
    const tail = new GzipTail();
    const input = Readable.from(tail.watch(raw), { objectMode: false, highWaterMark: PIECE_BYTES });
    input.on('error', (cause) => gunzip.destroy(cause));
    input.pipe(gunzip);
    let unpackedBytes = 0;
    try {
      for await (const piece of gunzip) {
        unpackedBytes += piece.length;
        if (unpackedBytes > Math.max(SMALL_BYTES, MOST_TIMES * this.bytesRead))
          throw tooMuch(this.options.file_name, this.bytesRead, unpackedBytes);
        yield piece;
      }
      if (unpackedBytes === 0 && !tail.isWhole(0)) throw new Error('it breaks off at once');
      this.cutShort = !tail.isWhole(unpackedBytes);
    } catch (cause) {
      if (cause instanceof FaultError) throw cause;
      if (unpackedBytes === 0) throw unreadableGzip(this.options.file_name, cause);
      this.cutShort = true;
      for await (const _rest of raw); // the hash covers the whole file
    } finally {
      input.destroy();
      gunzip.destroy();
    }
  }
}

/** Remembers the end of a gzip file, where the length of what it holds is written (RFC 1952, ISIZE). */
class GzipTail {
  private last = Buffer.alloc(0);
  private members = 0;

  async *watch(raw: AsyncGenerator<Uint8Array>): AsyncGenerator<Uint8Array> {
    for await (const piece of raw) {
      const bytes = Buffer.from(piece.buffer, piece.byteOffset, piece.byteLength);
      for (let at = bytes.indexOf(GZIP_MEMBER); at >= 0; at = bytes.indexOf(GZIP_MEMBER, at + 3)) this.members++;
      this.last = Buffer.concat([this.last, bytes.subarray(-4)]).subarray(-4);
      yield piece;
    }
  }

  /** Several members in one file have several lengths; then the last one alone tells nothing. */
  isWhole(unpackedBytes: number): boolean {
    return this.members > 1 || (this.last.length === 4 && this.last.readUInt32LE(0) === unpackedBytes % 2 ** 32);
  }
}

const GZIP_MEMBER = Buffer.from([0x1f, 0x8b, 8]);

/**
 * Pieces of one size, the last one shorter: everything behind holds memory in proportion to it, and what becomes of a damaged file
 * does not depend on how its bytes happened to arrive.
 */
async function* pieces(source: Uint8Array | AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  if (source instanceof Uint8Array) {
    for (let at = 0; at < source.length; at += PIECE_BYTES) yield source.subarray(at, at + PIECE_BYTES);
    return;
  }
  let waiting: Uint8Array[] = [];
  let length = 0;
  for await (const piece of source) {
    for (let at = 0; at < piece.length; ) {
      const part = piece.subarray(at, at + PIECE_BYTES - length);
      waiting.push(part);
      length += part.length;
      at += part.length;
      if (length < PIECE_BYTES) break;
      yield waiting.length === 1 ? part : Buffer.concat(waiting);
      waiting = [];
      length = 0;
    }
  }
  if (length > 0) yield waiting.length === 1 ? waiting[0] : Buffer.concat(waiting);
}

/** How every zip file begins, workbooks among them; and what helps with those that are none. */
const ZIP = [0x50, 0x4b, 0x03, 0x04];
const OTHER_ZIPS = {
  zip: 'archive',
  ods: 'save_sheet',
  xlsb: 'save_sheet',
  docx: 'printed',
  npz: 'save_text',
} as const;

/** Takes pieces until so many bytes are there, and gives everything back untouched. */
async function firstBytes(raw: AsyncGenerator<Uint8Array>, bytes: number) {
  const taken: Uint8Array[] = [];
  let length = 0;
  while (length < bytes) {
    const next = await raw.next();
    if (next.done) break;
    taken.push(next.value);
    length += next.value.length;
  }
  const head = taken.length === 1 ? taken[0] : Buffer.concat(taken);
  return {
    head,
    async *all(): AsyncGenerator<Uint8Array> {
      if (head.length > 0) yield head;
      yield* raw;
    },
  };
}

function cancelled(file: string): FaultError {
  return new FaultError(fault('IMPORT_CANCELLED', { file }, { file }));
}

function tooMuch(file: string, packed: number, unpacked: number): FaultError {
  return new FaultError(fault('UPLOAD_TOO_LARGE.unpacked', { file, packed, unpacked }, { file }));
}

function workbookTooLarge(file: string): FaultError {
  return new FaultError(fault('WORKBOOK_TOO_LARGE', { file }, { file }));
}

function unreadableGzip(file: string, cause: unknown): FaultError {
  return new FaultError(
    fault('GZIP_UNREADABLE', { file, why: cause instanceof Error ? cause.message : String(cause) }, { file }),
  );
}

import { createHash } from 'node:crypto';
import { dirname } from 'node:path';
import { promisify } from 'node:util';
import { gunzipSync, gzip } from 'node:zlib';
import { freeMemory, freePassingBuffers } from '../free-memory.ts';
import { keepDiskFloor } from './disk-floor.ts';
import { freshId } from './fresh-id.ts';
import { nowUtc, type Store } from './store.ts';

const gzipAsync = promisify(gzip);

/** Bytes a chunk of a raw file: bounds the memory of an upload whatever its size. */
const CHUNK_BYTES = 1024 * 1024;

/** Chunks that go by between two collections of what they left. */
const FREE_EVERY = 4;
/** Chunks after which what outlived that is collected, too: it comes to 60 MB in a long upload. */
const FREE_ALL_EVERY = 64;
/** Chunks between two looks at the room on the disk. */
const FLOOR_EVERY = 16;

export interface StoredRawFile {
  raw_file_id: number;
  raw_sha256: string;
  bytes: number;
  /** True when the same bytes were stored before; `raw_file_id` is then that of the first. */
  seen_before: boolean;
}

/**
 * Writes a file as it comes, chunk by chunk, straight into the database; one that fits in a chunk all at once when it is whole. Until
 * `finish` it has no hash and counts as incomplete: `abort`, or the next start of the program after a crash, takes it away. The disk is
 * waited for by the change that the caller then makes with the file: until that is done, nobody was told that it is stored.
 */
export class RawFileWriter {
  readonly #store: Store;
  readonly #fileName: string;
  #id: number | null = null;
  readonly #hash = createHash('sha256');
  /** One chunk, filled again and again: memory does not depend on how small the pieces come. */
  readonly #chunk = new Uint8Array(CHUNK_BYTES);
  #filled = 0;
  #bytes = 0;
  #sequence = 0;
  #isPacked: boolean | null = null;

  /** @throws FaultError DISK_FULL, here and while it is written */
  constructor(store: Store, fileName: string) {
    keepDiskFloor(dirname(store.file));
    this.#store = store;
    this.#fileName = fileName;
  }

  get bytes(): number {
    return this.#bytes;
  }

  /** Takes the next bytes. Resolves once no more than a chunk waits in memory. */
  async append(bytes: Uint8Array): Promise<void> {
    this.#hash.update(bytes);
    this.#bytes += bytes.length;
    for (let from = 0; from < bytes.length; ) {
      const part = bytes.subarray(from, from + CHUNK_BYTES - this.#filled);
      this.#chunk.set(part, this.#filled);
      this.#filled += part.length;
      from += part.length;
      if (this.#filled === CHUNK_BYTES) await this.#writeChunk();
    }
  }

  /** Completes the file. The same content stored before is recognised and not kept twice. */
  async finish(): Promise<StoredRawFile> {
    const last = this.#filled > 0 ? await this.#packed() : null;
    const raw_sha256 = this.#hash.digest('hex');
    return this.#store.passing(() => {
      const { query } = this.#store;
      const first = this.#store.first(
        query.selectFrom('raw_files').select('raw_file_id').where('raw_sha256', '=', raw_sha256),
      );
      const stored = { raw_sha256, bytes: this.#bytes, seen_before: first !== undefined };
      if (first) {
        this.abort();
        return { raw_file_id: first.raw_file_id, ...stored };
      }
      if (last) this.#insert(last);
      const raw_file_id = this.#fileId();
      const { bytes } = stored;
      this.#store.run(query.updateTable('raw_files').set({ raw_sha256, bytes }).where('raw_file_id', '=', raw_file_id));
      return { raw_file_id, ...stored };
    });
  }

  /** Takes away what was written, unless an import uses it already. */
  abort(): void {
    if (this.#id === null) return;
    this.#store
      .prepare(
        'DELETE FROM raw_files WHERE raw_file_id = ? AND raw_file_id NOT IN (SELECT raw_file_id FROM import_files)',
      )
      .run(this.#id);
  }

  async #writeChunk(): Promise<void> {
    const packed = await this.#packed();
    this.#store.passing(() => this.#insert(packed));
    if (this.#sequence % FLOOR_EVERY === 0) keepDiskFloor(dirname(this.#store.file));
    if (this.#sequence % FREE_ALL_EVERY === 0) freeMemory();
    else if (this.#sequence % FREE_EVERY === 0) freePassingBuffers();
  }

  /** What waits, as it is stored. */
  async #packed(): Promise<Uint8Array> {
    const bytes = this.#chunk.subarray(0, this.#filled);
    this.#filled = 0;
    // Files that are packed already (gzip) do not shrink further.
    this.#isPacked ??= bytes[0] === 0x1f && bytes[1] === 0x8b;
    return this.#isPacked ? bytes : await gzipAsync(bytes, { level: 1 });
  }

  #insert(bytes: Uint8Array): void {
    this.#store
      .prepare('INSERT INTO raw_chunks (raw_file_id, sequence, encoding, bytes) VALUES (?, ?, ?, ?)')
      .run(this.#fileId(), this.#sequence++, this.#isPacked ? 'plain' : 'gzip', bytes);
  }

  /** The file's identifier; its row is made with the first chunk. */
  #fileId(): number {
    if (this.#id !== null) return this.#id;
    const raw_file_id = freshId(this.#store, 'raw_files');
    this.#store.run(
      this.#store.query
        .insertInto('raw_files')
        .values({ raw_file_id, file_name: this.#fileName, created_utc: nowUtc() }),
    );
    this.#id = raw_file_id;
    return raw_file_id;
  }
}

/** The bytes of a raw file exactly as they came, chunk by chunk. */
export async function* readRawFile(store: Store, rawFileId: number): AsyncGenerator<Uint8Array> {
  for (const chunk of storedChunks(store, rawFileId)) {
    yield unpacked(chunk);
    if (chunk.sequence % FREE_EVERY === FREE_EVERY - 1) freePassingBuffers();
  }
}

/** A stretch of a raw file as it is stored. */
export interface RawChunk {
  sequence: number;
  encoding: string;
  bytes: Uint8Array;
}

/** The chunks of a raw file as they are stored, one after the other. */
export function* storedChunks(store: Store, rawFileId: number): Generator<RawChunk> {
  const chunk = store.prepare(
    'SELECT sequence, encoding, bytes FROM raw_chunks WHERE raw_file_id = ? AND sequence = ?',
  );
  for (let sequence = 0; ; sequence++) {
    const row = chunk.get(rawFileId, sequence) as RawChunk | undefined;
    if (!row) return;
    yield row;
  }
}

/** The bytes of a stored chunk as they came. */
export function unpacked({ encoding, bytes }: Pick<RawChunk, 'encoding' | 'bytes'>): Uint8Array {
  return encoding === 'gzip' ? gunzipSync(bytes) : bytes;
}

/** Takes away files that were never completed: an upload that broke off, a program that was killed. */
export function removeIncompleteRawFiles(store: Store): number {
  return store.run(store.query.deleteFrom('raw_files').where('raw_sha256', 'is', null)).changes;
}

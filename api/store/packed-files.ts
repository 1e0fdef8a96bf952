import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { brotliCompressSync, brotliDecompressSync, constants } from 'node:zlib';
import type Database from 'better-sqlite3';

/** Only a backup has this table: pieces of what lies beside the database. It goes when the files are in their place again. */
const TABLE = 'backup_files';
const PIECE_BYTES = 1 << 20;
/** Fast, and about half of what sensors send. */
const PRESSED = { params: { [constants.BROTLI_PARAM_QUALITY]: 3, [constants.BROTLI_PARAM_LGWIN]: 20 } };
/** Captures and the descriptions of sensors that were added. A replay's copy passes by itself. */
const PATHS = /^(?:captures\/[^/]+\/(?:capture\.json|[^/]+\.packets)|stream-descriptions\/[^/]+\.json)$/;
const REPLAY = /^captures\/[^/]*-replay\//;
const ARRIVING = 'unpacking.part';

/** What is known of captures before the database is copied: a repetition stored meanwhile is then found again, and never thought stored. */
export type CaptureRecords = ReadonlyMap<string, Buffer>;

/** Reads the records of a data folder's captures. To be called before the database is copied. */
export function readCaptureRecords(folder: string): CaptureRecords {
  const records = pathsIn(folder).filter((path) => path.endsWith('/capture.json'));
  return new Map(records.map((path) => [path, readFileSync(join(folder, path))]));
}

/**
 * Puts packet logs, the records of captures and added descriptions into a copy of the database. A log that is being written is taken up to
 * where it is; its torn end is cut by whoever reads it.
 * @returns how many files
 */
export function packFiles(copy: Database.Database, folder: string, records: CaptureRecords): number {
  copy.exec(
    `CREATE TABLE ${TABLE} (path TEXT NOT NULL, piece INTEGER NOT NULL, bytes BLOB NOT NULL, PRIMARY KEY (path, piece)) STRICT`,
  );
  const add = copy.prepare(`INSERT INTO ${TABLE} (path, piece, bytes) VALUES (?, ?, ?)`);
  let files = 0;
  copy.transaction(() => {
    for (const path of pathsIn(folder)) {
      const pieces = path.endsWith('/capture.json') ? [records.get(path)] : piecesOf(join(folder, path));
      let number = 0;
      for (const piece of pieces) if (piece) add.run(path, number++, brotliCompressSync(piece, PRESSED));
      if (number > 0) files++;
    }
  })();
  return files;
}

/**
 * Puts the files of a restored backup beside the database and takes them out of it. A capture that lies there is left as it is: it holds as
 * much or more. Killed in the middle, it is done anew.
 * @returns how many files were put in their place
 */
export function unpackFiles(database: Database.Database, folder: string): number {
  const packed = database.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?").get(TABLE);
  if (packed === undefined) return 0;
  const arriving = join(folder, ARRIVING);
  rmSync(arriving, { recursive: true, force: true });
  const paths = database.prepare(`SELECT DISTINCT path FROM ${TABLE} ORDER BY path`).pluck().all() as string[];
  const places = new Set(paths.filter((path) => PATHS.test(path)).map(placeOf));
  let files = 0;
  for (const place of places) {
    if (existsSync(join(folder, place))) continue;
    for (const path of paths.filter((one) => placeOf(one) === place)) {
      writePieces(database, path, join(arriving, path));
      files++;
    }
    mkdirSync(dirname(join(folder, place)), { recursive: true, mode: 0o700 });
    renameSync(join(arriving, place), join(folder, place));
  }
  rmSync(arriving, { recursive: true, force: true });
  database.exec(`DROP TABLE ${TABLE}`);
  database.exec('VACUUM');
  return files;
}

/** What is put in its place in one step: a whole capture, or one description. */
function placeOf(path: string): string {
  return path.startsWith('captures/') ? path.split('/').slice(0, 2).join('/') : path;
}

function pathsIn(folder: string): string[] {
  const list = (under: string) => (existsSync(join(folder, under)) ? readdirSync(join(folder, under)) : []);
  const inCaptures = list('captures').flatMap((name) => {
    try {
      return readdirSync(join(folder, 'captures', name)).map((file) => `captures/${name}/${file}`);
    } catch {
      return [];
    }
  });
  const descriptions = list('stream-descriptions').map((name) => `stream-descriptions/${name}`);
  return [...inCaptures, ...descriptions].filter((path) => PATHS.test(path) && !REPLAY.test(path)).sort();
}

function* piecesOf(file: string): Generator<Buffer> {
  const fd = openSync(file, 'r');
  try {
    for (;;) {
      const piece = Buffer.alloc(PIECE_BYTES);
      const read = readSync(fd, piece, 0, PIECE_BYTES, null);
      if (read > 0) yield piece.subarray(0, read);
      if (read < PIECE_BYTES) return;
    }
  } finally {
    closeSync(fd);
  }
}

function writePieces(database: Database.Database, path: string, file: string): void {
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
  const pieces = database.prepare(`SELECT bytes FROM ${TABLE} WHERE path = ? ORDER BY piece`).pluck();
  const fd = openSync(file, 'w', 0o600);
  try {
    for (const bytes of pieces.iterate(path) as Iterable<Buffer>) writeSync(fd, brotliDecompressSync(bytes));
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
}

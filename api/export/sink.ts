import { createWriteStream, existsSync, mkdirSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Readable } from 'node:stream';
import { once } from 'node:events';
import { strToU8, Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { FaultError, fault } from '../../shared/fault.ts';

/** What a file is made of, in order. */
export type FileParts = Iterable<string | Uint8Array> | AsyncIterable<string | Uint8Array>;

/** Where an export's files go. Parts of one file are added in order; files one after another. */
export interface ExportSink {
  /** @param packed false puts the file into a zip as it is, byte for byte */
  add(path: string, parts: FileParts, packed?: boolean): Promise<void>;
}

/**
 * Files in a folder that is new or empty.
 * @throws FaultError FOLDER_NOT_EMPTY
 */
export function folderSink(folder: string): ExportSink {
  if (existsSync(folder) && readdirSync(folder).length > 0) {
    throw new FaultError(fault('FOLDER_NOT_EMPTY', { folder }, { folder }));
  }
  return {
    async add(path, parts) {
      const file = join(folder, path);
      mkdirSync(dirname(file), { recursive: true });
      const stream = createWriteStream(file);
      for await (const part of parts) if (!stream.write(part)) await once(stream, 'drain');
      stream.end();
      await once(stream, 'finish');
    },
  };
}

/** A zip that is made while it is sent. `work` writes the files; the stream ends after it, or breaks with its error. */
export function zipOf(work: (sink: ExportSink) => Promise<void>): Readable {
  const out = new Readable({ read() {}, highWaterMark: 1 << 20 });
  const zip = new Zip((error, chunk, final) => {
    if (error) out.destroy(error);
    else {
      out.push(chunk);
      if (final) out.push(null);
    }
  });
  const sink: ExportSink = {
    async add(path, parts, packed = true) {
      const file = packed ? new ZipDeflate(path, { level: 6 }) : new ZipPassThrough(path);
      zip.add(file);
      for await (const part of parts) {
        file.push(typeof part === 'string' ? strToU8(part) : part, false);
        // Leaves the loop to other requests, and to the receiver when it is slower than we are.
        do await new Promise((resolve) => setImmediate(resolve));
        while (out.readableLength > 8 << 20 && !out.destroyed);
        if (out.destroyed) return;
      }
      file.push(new Uint8Array(0), true);
    },
  };
  work(sink).then(
    () => zip.end(),
    (error: Error) => out.destroy(error),
  );
  return out;
}

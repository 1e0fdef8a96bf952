import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ExportSink, FileParts } from './sink.ts';

/** A file of an export that is not as it was written. */
export interface ChangedFile {
  file: string;
  problem: 'changed' | 'missing';
}

const NAME = 'checksums.sha256';

/** Where the list lies: BIDS knows no such file at its root. */
export function checksumsPath(kind: 'tables' | 'motion_bids'): string {
  return kind === 'tables' ? NAME : `derivatives/cinderlane/${NAME}`;
}

/**
 * A sink that remembers the SHA-256 of every file that goes through it.
 * @returns the sink, and what writes the list in the form that `sha256sum --check` reads, from the export's root
 */
export function withChecksums(sink: ExportSink): { sink: ExportSink; write: (path: string) => Promise<void> } {
  const lines: string[] = [];
  return {
    sink: {
      async add(path, parts, packed) {
        const hash = createHash('sha256');
        async function* hashed(): AsyncGenerator<string | Uint8Array> {
          for await (const part of parts as FileParts) {
            hash.update(part);
            yield part;
          }
        }
        await sink.add(path, hashed(), packed);
        lines.push(`${hash.digest('hex')}  ${path}\n`);
      },
    },
    write: (path) =>
      sink.add(
        path,
        lines.sort((a, b) => (a.slice(66) < b.slice(66) ? -1 : 1)),
      ),
  };
}

/**
 * Files of an exported set that differ from their checksum or are gone.
 * @returns null where the set has no list of checksums, as sets of earlier versions
 */
export function changedFiles(folder: string): ChangedFile[] | null {
  const list = [checksumsPath('tables'), checksumsPath('motion_bids')]
    .map((path) => join(folder, path))
    .find(existsSync);
  if (!list) return null;
  const lines = readFileSync(list, 'utf8')
    .split('\n')
    .filter((line) => line.length > 66);
  return lines.flatMap((line): ChangedFile[] => {
    const file = line.slice(66);
    if (!existsSync(join(folder, file))) return [{ file, problem: 'missing' }];
    const found = createHash('sha256')
      .update(readFileSync(join(folder, file)))
      .digest('hex');
    return found === line.slice(0, 64) ? [] : [{ file, problem: 'changed' }];
  });
}

import { createReadStream, readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import { FaultError, fault } from '../../shared/fault.ts';

const PIECE_BYTES = 1024 * 1024;

/** A file to be read piece by piece. @throws FaultError FILE_NOT_FOUND */
export function openInputFile(path: string): {
  file_name: string;
  bytes: AsyncIterable<Uint8Array>;
  total_bytes: number;
} {
  const size = sizeOf(path);
  return {
    file_name: basename(path),
    bytes: createReadStream(path, { highWaterMark: PIECE_BYTES }),
    total_bytes: size,
  };
}

/** A JSON file, parsed. @throws FaultError FILE_NOT_FOUND, JSON_UNREADABLE */
export async function readJsonFile(path: string): Promise<unknown> {
  sizeOf(path);
  const text = readFileSync(path, 'utf8');
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw new FaultError(
      fault(
        'JSON_UNREADABLE',
        { file: path, why: error instanceof Error ? error.message : String(error) },
        { file: path },
      ),
    );
  }
}

function sizeOf(path: string): number {
  try {
    const status = statSync(path);
    if (status.isFile()) return status.size;
  } catch {
    throw notFound(path, 'is not there or cannot be opened');
  }
  throw notFound(path, 'is not a file');
}

function notFound(path: string, why: string): FaultError {
  return new FaultError(fault('FILE_NOT_FOUND', { file: path, why }, { file: path }));
}

import { createReadStream, createWriteStream, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { openCsvRecording } from '../../../ingest/csv/open-csv-recording.ts';
import { largeCsv } from '../../ingest/csv/make-large.ts';
import { measured } from './measured.ts';

/** @param megabytes of the file */
export async function measure(megabytes: number) {
  const folder = mkdtempSync(join(tmpdir(), 'growth-file-'));
  const file = join(folder, 'long.csv');
  try {
    await pipeline(Readable.from(largeCsv(megabytes * 1e6)), createWriteStream(file));
    return await measured(async () => {
      const { blocks } = await openCsvRecording(createReadStream(file, { highWaterMark: 1 << 18 }), {
        file_name: file,
      });
      for await (const _block of blocks);
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { openCsvRecording } from '../../../ingest/csv/open-csv-recording.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import { recordingsFolder } from '../../helpers/recordings.ts';
import { checkSampleBlocks } from '../contract.ts';
import { largeCsv } from './make-large.ts';

const cases = fileURLToPath(new URL('./cases/', import.meta.url));

async function readBlocks(
  source: Uint8Array | AsyncIterable<Uint8Array>,
  options: { file_name: string },
): Promise<SampleBlock[][]> {
  const open = await openCsvRecording(source, options);
  const sensors: SampleBlock[][] = [];
  for await (const { sensor, samples } of open.blocks) {
    sensors[sensor] ??= [];
    sensors[sensor].push(samples);
  }
  return sensors;
}

describe('the contract of sample blocks', () => {
  for (const name of readdirSync(cases)) {
    const files = readdirSync(cases + name);
    if (!files.includes('expected.json')) continue;
    test(`is kept by ${name}`, async () => {
      const file_name = files.find((file) => !file.endsWith('.json'))!;
      const options = files.includes('options.json')
        ? JSON.parse(readFileSync(`${cases}${name}/options.json`, 'utf8'))
        : {};
      const sensors = await readBlocks(readFileSync(`${cases}${name}/${file_name}`), { file_name, ...options });
      expect(sensors.length).toBeGreaterThan(0);
      sensors.forEach(checkSampleBlocks);
    });
  }

  const folder = recordingsFolder();
  test.skipIf(folder === null)('is kept by every real recording', async () => {
    let read = 0;
    for (const home of readdirSync(folder!).filter((entry) => statSync(`${folder}/${entry}`).isDirectory())) {
      for (const file_name of readdirSync(`${folder}/${home}`).filter((entry) => entry.endsWith('.csv.gz'))) {
        (await readBlocks(readFileSync(`${folder}/${home}/${file_name}`), { file_name })).forEach(checkSampleBlocks);
        read++;
      }
    }
    expect(read).toBeGreaterThan(80);
  });

  test('is kept over several blocks, which join to what reading at once gives', async () => {
    const bytes: Uint8Array[] = [];
    for await (const piece of largeCsv(12e6)) bytes.push(piece);
    const whole = Buffer.concat(bytes);
    const [blocks] = await readBlocks(largeCsv(12e6), { file_name: 'large.csv' });
    expect(blocks.length).toBeGreaterThan(2);
    checkSampleBlocks(blocks);
    const { recordings } = await readCsvRecording(whole, { file_name: 'large.csv' });
    const { samples } = recordings[0];
    expect(samples.time_s.length).toBe(blocks.reduce((sum, block) => sum + block.time_s.length, 0));
    checkSampleBlocks([samples]);
    let at = 0;
    for (const block of blocks) {
      expect(samples.acc_mps2.z.subarray(at, at + block.time_s.length)).toEqual(block.acc_mps2.z);
      at += block.time_s.length;
    }
  });
});

describe('reading a stream', () => {
  test('reports progress by bytes that grows to the whole', async () => {
    const seen: number[] = [];
    let total = 0;
    for await (const piece of largeCsv(6e6)) total += piece.length;
    await readCsvRecording(largeCsv(6e6), {
      file_name: 'large.csv',
      total_bytes: total,
      onProgress: ({ bytes_read, bytes_total }) => {
        expect(bytes_total).toBe(total);
        seen.push(bytes_read);
      },
    });
    expect(seen.length).toBeGreaterThan(5);
    expect([...seen].sort((a, b) => a - b)).toEqual(seen);
    expect(seen[seen.length - 1]).toBe(total);
  });

  test('stops at once when cancelled, and keeps nothing', async () => {
    const controller = new AbortController();
    let pieces = 0;
    async function* endless(): AsyncGenerator<Uint8Array> {
      for await (const piece of largeCsv(500e6)) {
        pieces++;
        if (pieces === 20) controller.abort();
        yield piece;
      }
    }
    const reading = readCsvRecording(endless(), { file_name: 'large.csv', signal: controller.signal });
    await expect(reading).rejects.toMatchObject({ code: 'IMPORT_CANCELLED' });
    expect(pieces).toBeLessThan(25);
  });

  test('recognises the same content by its hash, whatever the file is called', async () => {
    const bytes = readFileSync(`${cases}plain/input.csv`);
    const [one, other] = await Promise.all(
      ['a.csv', 'b.csv'].map((file_name) => readCsvRecording(bytes, { file_name })),
    );
    expect(one.sha256).toBe(other.sha256);
    expect(one.sha256).toMatch(/^[0-9a-f]{64}$/);
    expect(one.layout.fingerprint).toBe(other.layout.fingerprint);
  });
});

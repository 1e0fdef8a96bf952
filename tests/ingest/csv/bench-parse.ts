/**
 * Parsing speed as a ratio to pandas' C reader on the same file in one run, and peak memory against file size:
 * `npm run bench:parse [-- MB [MB of the large stream]]`. Exits with 1 when the ratio by processor time is below 0.5 or memory above 300 MB.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { createReadStream, createWriteStream, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { fileURLToPath } from 'node:url';
import { RowDecoder } from '../../../ingest/csv/rows/decode-rows.ts';
import { openCsvRecording } from '../../../ingest/csv/open-csv-recording.ts';
import { planColumns } from '../../../ingest/csv/plan/plan-columns.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { RejectedRows } from '../../../ingest/csv/rows/rejected-rows.ts';
import { largeCsv } from './make-large.ts';

const MB = 1e6;
const REPEATS = 3;

if (process.argv[2] === 'memory') await measureMemory(Number(process.argv[3]));
else if (process.argv[2] === 'read') await measureReading(process.argv[3], process.argv[4] as 'blocks' | 'whole');
else await compare(Number(process.argv[2] ?? 100), Number(process.argv[3] ?? 2000));

async function compare(megabytes: number, largest: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'parse-'));
  try {
    const file = join(folder, 'recording.csv');
    await pipeline(Readable.from(largeCsv(megabytes * MB)), createWriteStream(file));
    const size = statSync(file).size / MB;
    const pandas = pandasSeconds(file);
    const blocks = ownSeconds(file, 'blocks');
    const whole = ownSeconds(file, 'whole');
    console.log(`file: ${size.toFixed(0)} MB, 10 columns; best of ${REPEATS}, one after the other`);
    console.log('reader                                             s   MB/s  ratio to pandas  by processor time');
    const line = (name: string, [wall, cpu]: Seconds) => {
      const rate = (size / wall).toFixed(0).padStart(5);
      const [byWall, byCpu] = [pandas[0] / wall, pandas[1] / cpu].map((ratio) => ratio.toFixed(2).padStart(8));
      console.log(`${name.padEnd(46)} ${wall.toFixed(2).padStart(5)}  ${rate}  ${byWall}         ${byCpu}`);
    };
    line('pandas read_csv, C engine', pandas);
    line('openCsvRecording, SI blocks, checks and hash', blocks);
    line('readCsvRecording, the whole recording', whole);
    const [plain, papaparse] = await decodeSeconds(Math.min(megabytes, 40));
    console.log(
      `\nrows to numbers alone: straight from the bytes ${plain.toFixed(2)} s, papaparse ${papaparse.toFixed(2)} s (processor time): ${(papaparse / plain).toFixed(1)} times`,
    );
    console.log('\nstream of           peak memory of the process');
    let worst = 0;
    for (const amount of [largest / 20, largest / 4, largest]) {
      const peak = Number(runSelf(['memory', String(amount)]));
      worst = Math.max(worst, peak);
      console.log(`${String(amount).padStart(6)} MB           ${peak.toFixed(0)} MB`);
    }
    if (pandas[1] / blocks[1] < 0.5 || worst > 300) process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Wall-clock and processor seconds; the second does not mind what else the machine does. */
type Seconds = [number, number];

function numbers(text: string): Seconds {
  const [wall, cpu] = text.trim().split(/\s+/).map(Number);
  return [wall, cpu];
}

function pandasSeconds(file: string): Seconds {
  const script = `
import time, pandas, sys
best = cpu = 1e9
for _ in range(${REPEATS}):
    start, used = time.perf_counter(), time.process_time()
    pandas.read_csv(sys.argv[1], engine='c')
    best, cpu = min(best, time.perf_counter() - start), min(cpu, time.process_time() - used)
print(best, cpu)`;
  return numbers(execFileSync('/usr/bin/python3', ['-c', script, file], { encoding: 'utf8' }));
}

function ownSeconds(file: string, form: 'blocks' | 'whole'): Seconds {
  return numbers(runSelf(['read', file, form]));
}

/** In a process of its own, so that nothing is warm or counted twice. */
function runSelf(args: string[]): string {
  const result = spawnSync(process.execPath, ['--import', 'tsx', fileURLToPath(import.meta.url), ...args], {
    encoding: 'utf8',
  });
  if (result.status !== 0) throw new Error(result.stderr);
  return result.stdout.trim();
}

/** Processor seconds of decoding the same blocks both ways. */
async function decodeSeconds(megabytes: number): Promise<[number, number]> {
  const blocks: Uint8Array[] = [];
  for await (const block of largeCsv(megabytes * MB)) blocks.push(block);
  const { layout } = await openCsvRecording(Buffer.concat(blocks), { file_name: 'rows.csv' });
  const columns = planColumns(layout, 'rows.csv');
  const [plain, papaparse] = [false, true].map((papaparseOnly) => {
    let best = Number.POSITIVE_INFINITY;
    for (let repeat = 0; repeat < REPEATS; repeat++) {
      const decoder = new RowDecoder(columns, new RejectedRows('rows.csv'), 2, papaparseOnly);
      const used = process.cpuUsage();
      for (const block of blocks.slice(1)) decoder.decode(block);
      const { user, system } = process.cpuUsage(used);
      best = Math.min(best, (user + system) / 1e6);
    }
    return best;
  });
  return [plain, papaparse];
}

async function measureReading(file: string, form: 'blocks' | 'whole'): Promise<void> {
  let best = Number.POSITIVE_INFINITY;
  let cpu = Number.POSITIVE_INFINITY;
  for (let repeat = 0; repeat < REPEATS; repeat++) {
    const start = performance.now();
    const used = process.cpuUsage();
    const source = createReadStream(file, { highWaterMark: 1 << 20 });
    if (form === 'whole') await readCsvRecording(source, { file_name: file });
    else await drain(source, file);
    best = Math.min(best, (performance.now() - start) / 1000);
    const { user, system } = process.cpuUsage(used);
    cpu = Math.min(cpu, (user + system) / 1e6);
  }
  console.log(best, cpu);
}

async function measureMemory(megabytes: number): Promise<void> {
  await drain(largeCsv(megabytes * MB), 'stream.csv');
  console.log((process.resourceUsage().maxRSS * 1024) / MB);
}

async function drain(source: AsyncIterable<Uint8Array>, file_name: string): Promise<void> {
  const open = await openCsvRecording(source, { file_name });
  let samples = 0;
  for await (const block of open.blocks) samples += block.samples.time_s.length;
  if (samples !== open.summary().rows) throw new Error(`${samples} samples of ${open.summary().rows} rows`);
}

/**
 * Memory of the server while large files are imported: `npm run bench:memory [-- MEGABYTES ...]`, 400 and 2000 without. The server is
 * the real command in a process of its own; its peak, threads included, is read from the system (VmHWM, Linux). Prints file size,
 * times and peaks; exit code 1 above 300 MB.
 */
import { spawn } from 'node:child_process';
import { createWriteStream, mkdtempSync, openAsBlob, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { peakMegabytes } from './process-figures.ts';

const SIZES_MB = process.argv.length > 2 ? process.argv.slice(2).map(Number) : [400, 2000];
const TARGET_MB = 300;
const command = fileURLToPath(new URL('../../api/command-line/cinderlane.mjs', import.meta.url));
/** As the shipped service and container set them. */
const ALLOCATOR = { MALLOC_ARENA_MAX: '2', MALLOC_MMAP_THRESHOLD_: '131072', MALLOC_TRIM_THRESHOLD_: '131072' };

for (const megabytes of SIZES_MB) {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-memory-'));
  const file = join(folder, 'long.csv');
  await writeLongFile(file, megabytes * 1e6);
  const server = spawn(process.execPath, [command, 'serve', '--port', '0', '--data', join(folder, 'data')], {
    env: { ...process.env, ...ALLOCATOR },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const address = await new Promise<string>((resolve) =>
    server.stdout.once('data', (bytes) => resolve(/http:\S+/.exec(String(bytes))![0])),
  );
  try {
    const peak = await importFile(address, file, () => Math.round(peakMegabytes(server.pid!)));
    if (peak > TARGET_MB) process.exitCode = 1;
  } finally {
    const ended = new Promise((resolve) => server.once('exit', resolve));
    server.kill('SIGTERM');
    await ended;
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Imports the file and prints what it took. @returns the peak in all, MB */
async function importFile(address: string, file: string, peak: () => number): Promise<number> {
  const call = async (path: string, body?: object) => {
    const answer = await fetch(`${address}/api${path}`, {
      method: body ? 'POST' : 'GET',
      body: body instanceof FormData ? body : body && JSON.stringify(body),
      headers: !body || body instanceof FormData ? {} : { 'content-type': 'application/json' },
    });
    return (await answer.json()) as Record<string, never>;
  };
  await call('/athletes', { name: 'Long' });
  await call('/sessions', { session_date: '2026-03-02' });
  const idle = peak();
  const form = new FormData();
  for (const [name, value] of Object.entries({ athlete_id: 1, session_id: 1, mounting: 'foot' }))
    form.set(name, `${value}`);
  form.set('left', await openAsBlob(file), 'long.csv');
  const start = performance.now();
  const { import_id } = await call('/imports', form);
  const uploaded = performance.now();
  const afterUpload = peak();
  await (await fetch(`${address}/api/imports/${import_id}/events`)).text();
  const end = await call(`/imports/${import_id}`);
  const seconds = (from: number, to: number) => `${((to - from) / 1000).toFixed(1)} s`;
  process.stdout.write(
    [
      `file ${(statSync(file).size / 1e6).toFixed(0)} MB, import ${end.state}, ${(end.repetition_ids as number[]).length} repetitions`,
      `upload ${seconds(start, uploaded)}, reading, analysis and storing ${seconds(uploaded, performance.now())}`,
      `peak memory: idle ${idle} MB, after the upload ${afterUpload} MB, in all ${peak()} MB (at most ${TARGET_MB})`,
      '',
    ].join('\n'),
  );
  return peak();
}

/** One sprint after the other on one clock, until the file is large enough. */
async function writeLongFile(path: string, bytes: number): Promise<void> {
  const [header, ...rows] = sprintFiles().left.trim().split('\n');
  const out = createWriteStream(path);
  out.write(`${header}\n`);
  let sample = 0;
  for (let written = 0; written < bytes; ) {
    const text = rows.map((row) => `${(sample++ / 500).toFixed(3)}${row.slice(row.indexOf(','))}\n`).join('');
    written += text.length;
    if (!out.write(text)) await new Promise<void>((resolve) => out.once('drain', () => resolve()));
  }
  await new Promise((resolve) => out.end(() => resolve(null)));
}

/**
 * Start-up of the package, installed outside the checkout: `--help`, the first answer of `serve`, and one whole `analyze` of two
 * sensors, 30 s at 1000 Hz; beside them a bare start of Node, which no program can beat, the same analyze from the sources, and
 * the analysis alone in a process that is warm. Prints a table; exit code 1 where the median misses its target.
 */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { analyse } from '../../dsp/analyse.ts';
import { generateRepetition } from '../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { installPackage } from '../helpers/installed-package.ts';
import { addressOf } from '../helpers/package-server.ts';
import { sensorCsv } from '../helpers/sensor-csv.ts';

const RUNS = 7;
const SOURCES = fileURLToPath(new URL('../../api/command-line/cinderlane.mjs', import.meta.url));
const COURSE = { ...UNKNOWN_COURSE, distance_m: 60, time_s: 8.4 };

const { left, right } = generateRepetition({
  seed: 4,
  mountings: ['foot'],
  repetitions: [{ effort: 1, distance_m: 60 }],
  stand_before_s: 8,
  walk_steps: 6,
  stand_after_s: 4,
  sensor: { rate_hz: 1000 },
}).sensors.foot;

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-bench-'));
const installed = installPackage();
try {
  writeFileSync(join(folder, 'left.csv'), sensorCsv(thirtySeconds(left)));
  writeFileSync(join(folder, 'right.csv'), sensorCsv(thirtySeconds(right)));
  process.stdout.write(`${RUNS} runs each; two sensors, 30 s at 1000 Hz\n`);
  await show('node alone', () => runNode(['--eval', '0']));
  await show('package: cinderlane --help', () => runNode([installed.command, '--help']), 400);
  await show('package: serve, to its first answer', () => serveOnce(installed.command), 1500);
  await show('package: analyze, whole command', () => runAnalyze(installed.command), 800);
  await show('checkout: analyze, whole command', () => runAnalyze(SOURCES));
  await show('analyse() alone, warm', runAnalysis, 250);
} finally {
  installed.remove();
  rmSync(folder, { recursive: true, force: true });
}

/** Times something and prints one line; the wanted median is in ms. */
async function show(name: string, once: () => number | Promise<number>, target?: number): Promise<void> {
  const times: number[] = [];
  for (let run = 0; run < RUNS; run++) times.push(await once());
  const [least, median, most] = [0, Math.floor(RUNS / 2), RUNS - 1].map((i) => times.sort((a, b) => a - b)[i]);
  const wanted = target === undefined ? '' : `, target ${target} ms: ${median <= target ? 'met' : 'NOT MET'}`;
  const figures = [least, median, most].map((ms) => ms.toFixed(0).padStart(5)).join(' ');
  process.stdout.write(`${name.padEnd(38)} least, median, most ${figures} ms${wanted}\n`);
  if (target !== undefined && median > target) process.exitCode = 1;
}

/** Exactly 30 s: what is missing at the end is more standing, what is too much is cut. */
function thirtySeconds(block: SampleBlock): SampleBlock {
  const n = 30_000;
  const have = block.time_s.length;
  const column = (values: Float64Array) =>
    Float64Array.from({ length: n }, (_, i) => values[i < have ? i : have - 1 - (i % 500)]);
  const axes = (of: SampleBlock['acc_mps2']) => ({ x: column(of.x), y: column(of.y), z: column(of.z) });
  return {
    ...block,
    time_s: Float64Array.from({ length: n }, (_, i) => i / 1000),
    acc_mps2: axes(block.acc_mps2),
    gyr_radps: block.gyr_radps && axes(block.gyr_radps),
  };
}

function runNode(words: string[]): number {
  const start = performance.now();
  const end = spawnSync(process.execPath, words, { cwd: folder, encoding: 'utf8' });
  if (end.status !== 0) throw new Error(end.stderr);
  return performance.now() - start;
}

function runAnalyze(entry: string): number {
  const words = ['analyze', '--left', 'left.csv', '--right', 'right.csv', '--mount', 'foot'];
  return runNode([entry, ...words, '--course', '60m', '--time', '8.4s', '--out', 'out']);
}

async function serveOnce(entry: string): Promise<number> {
  const start = performance.now();
  const server = spawn(process.execPath, [entry, 'serve', '--port', '0', '--data', join(folder, 'data')]);
  await (await fetch(`${await addressOf(server)}/api/health`)).text();
  const taken = performance.now() - start;
  const ended = once(server, 'exit');
  server.kill('SIGTERM');
  await ended;
  return taken;
}

function runAnalysis(): number {
  const place = { mounting: 'foot', clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 } as const;
  const sensors = [
    { ...place, side: 'left' as const, samples: thirtySeconds(left) },
    { ...place, side: 'right' as const, samples: thirtySeconds(right) },
  ];
  const start = performance.now();
  analyse({ sensors, course: COURSE, conditions: UNKNOWN_CONDITIONS });
  return performance.now() - start;
}

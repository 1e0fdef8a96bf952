/**
 * How long `cinderlane analyze` takes for one repetition of two sensors, 30 s at 1000 Hz, start-up included, and how
 * long the analysis itself takes in a process that is warm. Prints a table; exit code 1 above the targets (2.5 s, 250 ms).
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { analyse } from '../../dsp/analyse.ts';
import { generateRepetition } from '../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { sensorCsv } from '../helpers/sensor-csv.ts';

const RUNS = 7;
const TARGET_COMMAND_MS = 2500;
const TARGET_ANALYSIS_MS = 250;
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
try {
  writeFileSync(join(folder, 'left.csv'), sensorCsv(thirtySeconds(left)));
  writeFileSync(join(folder, 'right.csv'), sensorCsv(thirtySeconds(right)));
  const command = sorted(Array.from({ length: RUNS }, runCommand));
  const analysis = sorted(Array.from({ length: RUNS }, runAnalysis));
  const line = (name: string, times: number[], target: number) =>
    `${name.padEnd(34)} median ${median(times).toFixed(0).padStart(5)} ms, slowest ${times.at(-1)!.toFixed(0).padStart(5)} ms, target ${target} ms`;
  process.stdout.write(`two sensors, 30 s at 1000 Hz, ${RUNS} runs\n`);
  process.stdout.write(`${line('cinderlane analyze, whole command', command, TARGET_COMMAND_MS)}\n`);
  process.stdout.write(`${line('analyse() alone, warm', analysis, TARGET_ANALYSIS_MS)}\n`);
  if (median(command) > TARGET_COMMAND_MS || median(analysis) > TARGET_ANALYSIS_MS) process.exitCode = 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
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

function runCommand(): number {
  const start = performance.now();
  const entry = fileURLToPath(new URL('../../api/command-line/cinderlane.mjs', import.meta.url));
  const words = ['analyze', '--left', 'left.csv', '--right', 'right.csv', '--mount', 'foot'];
  const end = spawnSync(process.execPath, [entry, ...words, '--course', '60m', '--time', '8.4s', '--out', 'out'], {
    cwd: folder,
    encoding: 'utf8',
  });
  if (end.status !== 0) throw new Error(end.stderr);
  return performance.now() - start;
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

function sorted(values: number[]): number[] {
  return values.sort((a, b) => a - b);
}

function median(values: number[]): number {
  return values[Math.floor(values.length / 2)];
}

/**
 * How long the analysis of one repetition takes, and how much memory the process holds: two foot sensors with gyroscope,
 * 30 s at 1000 Hz. Prints a line; the process needs no arguments.
 */
import { analyse } from '../../dsp/analyse.ts';
import { generateRepetition } from '../../seeds/generate-repetition.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';

const LIMIT_MS = 150;
const LIMIT_MB = 200;
const SECONDS = 30;
const ROUNDS = 15;

function first(block: SampleBlock, seconds: number): SampleBlock {
  const n = Math.min(block.time_s.length, Math.round(seconds * block.sampling_rate_hz));
  const cut = ({ x, y, z }: SampleBlock['acc_mps2']) => ({ x: x.slice(0, n), y: y.slice(0, n), z: z.slice(0, n) });
  return {
    ...block,
    time_s: block.time_s.slice(0, n),
    acc_mps2: cut(block.acc_mps2),
    gyr_radps: block.gyr_radps && cut(block.gyr_radps),
  };
}

const made = generateRepetition({
  seed: 7,
  mountings: ['foot'],
  sensor: { rate_hz: 1000 },
  repetitions: [
    { effort: 1, distance_m: 40 },
    { effort: 0.7, distance_m: 40 },
  ],
});
const sensors = (['left', 'right'] as const).map((side) => ({
  side,
  mounting: 'foot' as const,
  samples: first(made.sensors.foot[side], SECONDS),
  clock_offset_s: 0,
  clock_drift: 0,
  clock_offset_u_s: 0,
}));
const times: number[] = [];
let contacts = 0;
for (let i = 0; i < ROUNDS; i++) {
  const start = performance.now();
  const result = analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
  times.push(performance.now() - start);
  contacts = result.repetitions.reduce((sum, repetition) => sum + repetition.contacts.length, 0);
}
const [cold] = times;
const warm = times.slice(1).sort((a, b) => a - b);
const median = warm[warm.length >> 1];
const memory = process.memoryUsage().rss / 1e6;
console.log(
  `analysis of 2 sensors x 6 channels, ${SECONDS} s at 1000 Hz, ${contacts} contacts: median ${median.toFixed(0)} ms ` +
    `(fastest ${warm[0].toFixed(0)}, first ${cold.toFixed(0)}; target ${LIMIT_MS}), memory ${memory.toFixed(0)} MB ` +
    `(target ${LIMIT_MB})`,
);

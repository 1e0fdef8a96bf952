/** Prints how well two feet on drifting clocks are put on one: `npm run bench:clocks`. Truth is chosen, not measured. */
import { align } from '../../../ingest/clock/align.ts';
import { addKnocks } from './add-knocks.ts';
import { makePair, type Pair, type PairOptions } from './make-pair.ts';

const RUNS = Number(process.argv[2] ?? 12);
const situations: { name: string; options: Partial<PairOptions>; knocks: boolean }[] = [
  { name: 'three knocks before, three after', options: { jumps_before: 0, stand_s: 8 }, knocks: true },
  { name: 'three jumps before, three after', options: { jumps_before: 3, jumps_after: 3 }, knocks: false },
  { name: 'three jumps before', options: { jumps_before: 3 }, knocks: false },
  { name: 'steps alone', options: { jumps_before: 0 }, knocks: false },
];
console.log(
  'clocks: right starts 1 to 3.4 s later and runs up to 200 ppm off, left 30 ppm slow; 250 and 500 Hz; foot and shank',
);
console.log(
  'situation                            aligned  refused  a stride off  rms error  worst  rms error / stated u',
);
let missed = false;
for (const { name, options, knocks } of situations) {
  const errors: number[] = [];
  const ratios: number[] = [];
  let refused = 0;
  let strideOff = 0;
  for (let run = 0; run < RUNS; run++) {
    const full: PairOptions = {
      jumps_before: 0,
      seed: 500 + run,
      mounting: run % 2 ? 'foot' : 'shank',
      rate_hz: run % 4 < 2 ? 500 : 250,
      right_starts_s: 1 + 0.8 * (run % 4),
      left_drift: -3e-5,
      right_drift: 2e-4 * ((run % 3) - 1),
      ...options,
    };
    const pair = makePair(full);
    const [left, right] = knocks ? knocked(pair, full) : [pair.left, pair.right];
    const found = align(left, right);
    if (found.method === 'none') {
      refused++;
      continue;
    }
    const world = (pair.run_s[0] + pair.run_s[1]) / 2;
    const onLeft = world * (1 + full.left_drift!) + found.left_offset_s;
    const onRight = (world - full.right_starts_s) * (1 + full.right_drift!) * (1 + found.drift) + found.right_offset_s;
    const error = onRight - onLeft;
    if (Math.abs(error) > 0.1) strideOff++;
    else {
      errors.push(error);
      ratios.push(error / found.u);
    }
  }
  const rms = (values: number[]) =>
    Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / Math.max(1, values.length));
  const ms = (seconds: number) => `${(1000 * seconds).toFixed(2)} ms`.padStart(9);
  console.log(
    `${name.padEnd(36)} ${String(errors.length).padStart(7)}  ${String(refused).padStart(7)}  ${String(strideOff).padStart(12)}  ${ms(rms(errors))}  ${ms(Math.max(0, ...errors.map(Math.abs)))}  ${rms(ratios).toFixed(2)}`,
  );
  if (strideOff > 0 || (knocks && rms(errors) > 0.002)) missed = true;
}
process.exitCode = missed ? 1 : 0;

function knocked(pair: Pair, options: PairOptions) {
  const first = options.right_starts_s + 0.8;
  const instants = [first, first + 0.8, first + 1.4, pair.end_s - 1.8, pair.end_s - 1.2, pair.end_s - 0.4];
  return [
    addKnocks(
      pair.left,
      instants.map((world) => world * (1 + options.left_drift!)),
      'x',
    ),
    addKnocks(
      pair.right,
      instants.map((world) => (world - options.right_starts_s) * (1 + options.right_drift!)),
      'z',
    ),
  ];
}

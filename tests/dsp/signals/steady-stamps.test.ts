import { expect, test } from 'vitest';
import { steadyTimes } from '../../../dsp/signals/steady-stamps.ts';
import { makeRandom } from '../../../seeds/random.ts';

const RATE_HZ = 500;
const random = makeRandom(5);
/** Slow and fast movement together, as a swinging foot has. */
const movement = (t: number): number => 9 * Math.sin(2 * Math.PI * 2.3 * t) + 2 * Math.sin(2 * Math.PI * 17 * t);
const measured = (times: readonly number[]): Float64Array =>
  Float64Array.from(times, (t) => movement(t) + random.normal(0, 0.005));
/** Up to a third of an interval off. */
const jitter = (n: number, sd_s: number): number[] => Array.from({ length: n }, () => random.within(0, sd_s, 2.2));
const even = (n: number): number[] => Array.from({ length: n }, (_, i) => i / RATE_HZ);
const increasing = (stamps: readonly number[]): Float64Array => {
  const out = Float64Array.from(stamps);
  for (let i = 1; i < out.length; i++) out[i] = Math.max(out[i], out[i - 1] + 1e-5);
  return out;
};
const furthest = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  Math.max(...Array.from({ length: a.length }, (_, i) => Math.abs(a[i] - b[i])));

test('even samples with jittering stamps get their own times back, ten times nearer than the stamps', () => {
  const times = even(3000);
  const off = jitter(3000, 0.0006);
  const stamps = increasing(times.map((t, i) => t + off[i]));
  const steady = steadyTimes(stamps, [measured(times)], []);
  expect(steady).not.toBeNull();
  expect(furthest(stamps, times)).toBeGreaterThan(0.001);
  // The ends have neighbours on one side only.
  expect(furthest(steady!.subarray(100, -100), times.slice(100, -100))).toBeLessThan(0.00015);
});

test('samples that were really taken unevenly keep their stamps: there the signal is smooth', () => {
  const off = jitter(3000, 0.0006);
  const taken = [...increasing(even(3000).map((t, i) => t + off[i]))];
  expect(steadyTimes(Float64Array.from(taken), [measured(taken)], [])).toBeNull();
});

test('even stamps, stamps that come in batches and a few samples are left as they are', () => {
  const times = even(3000);
  expect(steadyTimes(Float64Array.from(times), [measured(times)], [])).toBeNull();
  // Ten samples at a time, each batch early or late as a whole.
  const batches = jitter(300, 0.0008);
  const late = increasing(times.map((t, i) => t + batches[Math.floor(i / 10)]));
  expect(steadyTimes(late, [measured(times)], [])).toBeNull();
  const few = even(150);
  const off = jitter(150, 0.0006);
  expect(steadyTimes(increasing(few.map((t, i) => t + off[i])), [measured(few)], [])).toBeNull();
});

test('a clock that wanders by a hundredth is followed, a loss has its length still', () => {
  const taken: number[] = [];
  for (let i = 0, t = 0; i < 4000; i++) {
    taken.push(t);
    t += (1 + 0.01 * Math.sin(i / 1500)) / RATE_HZ;
  }
  const kept = taken.filter((_, i) => i < 2000 || i >= 2013);
  const off = jitter(kept.length, 0.0006);
  const stamps = increasing(kept.map((t, i) => t + off[i]));
  const gaps = [{ start_s: stamps[1999], end_s: stamps[2000], lost_samples: 13 }];
  const steady = steadyTimes(stamps, [measured(kept)], gaps)!;
  expect(steady).not.toBeNull();
  expect(furthest(steady.subarray(100, 1900), kept.slice(100, 1900))).toBeLessThan(0.0002);
  expect(furthest(steady.subarray(2100, -100), kept.slice(2100, -100))).toBeLessThan(0.0002);
  expect(Math.abs(steady[2000] - steady[1999] - 14 / RATE_HZ)).toBeLessThan(0.0006);
});

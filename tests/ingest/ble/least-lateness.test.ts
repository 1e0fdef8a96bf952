import { expect, test } from 'vitest';
import { ArrivalClock } from '../../../ingest/ble/assembly/arrival-clock.ts';
import { LeastLateness } from '../../../ingest/ble/assembly/least-lateness.ts';

test('the least lateness forgets what is three seconds old, so that a slow clock is followed', () => {
  const lateness = new LeastLateness();
  lateness.begin(10.2, 0.03);
  // A clock 10 ms a second slow: every packet seems later than those before.
  for (let second = 11; second < 20; second++) {
    lateness.add(second, 0.03 + 0.01 * (second - 10));
    lateness.add(second + 0.5, 0.4);
    expect(lateness.value_s).toBeCloseTo(0.03 + 0.01 * Math.max(0, second - 12), 12);
  }
});

test('the least lateness moves with the length of the counts, in all of its seconds', () => {
  const lateness = new LeastLateness();
  lateness.begin(1, 0.05);
  lateness.add(2, 0.02);
  lateness.add(3, 0.04);
  lateness.shift(-0.5);
  expect(lateness.value_s).toBeCloseTo(-0.48, 12);
  lateness.add(4, -0.46);
  lateness.add(5, -0.46);
  expect(lateness.value_s).toBeCloseTo(-0.46, 12);
});

test("a link's own delay is known once three seconds agree on it, and not after a stall at the beginning", () => {
  const lateness = new LeastLateness();
  lateness.begin(1, 0.9);
  lateness.add(2, 0.02);
  expect(lateness.known).toBe(false);
  lateness.add(3, 0.03);
  expect(lateness.known).toBe(false);
  lateness.add(4, 0.02);
  expect(lateness.known).toBe(true);
});

/** Packets of a sensor whose clock is `drift` fast against the host's, each as late as told; they come on no grid of connection events. */
function arrivals(drift: number, seconds: number, late: (k: number) => number, tolerance = 1): ArrivalClock {
  const clock = new ArrivalClock(tolerance);
  for (let k = 0; k < 10 * seconds; k++) {
    const ready_s = k / 10 + 0.06 * ((0.618034 * k) % 1);
    clock.add(ready_s, 2 + ready_s * (1 + drift) + late(k));
  }
  return clock;
}

test('the drift of a clock is its own, however late some packets are', () => {
  const fit = arrivals(2e-4, 40, (k) => (k % 7 === 0 ? 0 : 0.03 * (k % 5))).fit()!;
  expect(fit.interval_s).toBe(null);
  expect(fit.drift).toBeCloseTo(2e-4, 6);
  expect(fit.offset_s).toBeCloseTo(2, 4);
  // A stall of three seconds moves nothing.
  const stalled = arrivals(2e-4, 40, (k) => (k > 200 && k < 230 ? 0.5 : 0)).fit()!;
  expect(stalled.drift).toBeCloseTo(2e-4, 6);
});

test('the drift is drawn to none where oscillators differ less than it is known to', () => {
  const late = (k: number): number => (k % 3) / 1000;
  const free = arrivals(2e-4, 20, late).fit()!.drift;
  const measured = arrivals(2e-4, 20, late).measuredDrift()!;
  for (const tolerance of [1e-5, 1e-4]) {
    const share = tolerance ** 2 / (tolerance ** 2 + measured.error ** 2);
    expect(arrivals(2e-4, 20, late, tolerance).fit()!.drift / free).toBeCloseTo(share, 3);
  }
});

import { describe, expect, it } from 'vitest';
import { eventsOnGrid, gapOnGrid, linkInterval } from '../../../ingest/ble/assembly/link-grid.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { uniform } from '../../helpers/random.ts';
import { recordedFoot, sprintOnTwoLinks } from '../../helpers/two-links.ts';

const [bramble, teasel] = shippedDescriptions();

describe('the grid of connection events', () => {
  it.each([7.5, 11.25, 15, 30, 48.75])(
    'is found in arrivals every %d ms or multiples of it, and none in others',
    (interval_ms) => {
      const random = uniform(4);
      const ready = Array.from({ length: 600 }, (_, i) => 100 + 0.0083 * i);
      const step = interval_ms / 1000;
      const arrivals = ready.map((at_s) => Math.ceil(at_s / step) * step + 0.001 * random());
      expect(linkInterval(arrivals)).toBeCloseTo(step, 6);
      expect(linkInterval(ready.map((at_s) => at_s + 0.02 * random()))).toBeNull();
    },
  );

  it.each([11.25, 48.75])(
    'tells the events every %d ms, however late some packets of them were read',
    (interval_ms) => {
      const random = uniform(9);
      const step = interval_ms / 1000;
      const ready = Array.from({ length: 50 }, (_, i) => 7000 + 0.02 * i);
      const events = ready.map((at_s) => Math.ceil((at_s - 0.0031) / step) * step + 0.0031);
      // Up to 4 ms late, most of them less than 1.
      const found = eventsOnGrid(
        events.map((at_s) => at_s + 0.004 * random() ** 3),
        step,
      );
      for (const [i, at_s] of found.entries()) expect(Math.abs(at_s - events[i])).toBeLessThan(0.0002);
    },
  );

  it('leaves of the least delay only the gap to the next instant at which a packet was ready', () => {
    // Ready every 10 ms, events every 15 ms at 0.004: phases 0, 10 and 5 ms; the least delay, 4 ms, is of those at 0.
    const ready = [0, 0.01, 0.02, 0.03];
    const arrivals = ready.map((at_s) => Math.ceil((at_s - 0.004) / 0.015) * 0.015 + 0.004);
    expect(gapOnGrid(ready, arrivals, 0, 0.015)).toBeCloseTo(0.005, 9);
    // A packet that missed its event tells nothing.
    expect(
      gapOnGrid(
        ready,
        arrivals.map((at_s, i) => (i === 2 ? at_s + 0.03 : at_s)),
        0,
        0.015,
      ),
    ).toBeCloseTo(0.01, 9);
  });
});

describe('two feet on one clock', () => {
  it('where events are rare and packets are read late: the truth lies within what is stated', () => {
    const pairs = Array.from({ length: 24 }, (_, seed) => {
      const random = uniform(60_000 + seed);
      const [a, b] = [recordedFoot(bramble, 30, random), recordedFoot(bramble, 30, random)];
      return Math.abs(a.error_s - b.error_s) / Math.hypot(a.u_s, b.u_s);
    });
    // 19 of 20 are expected; four or more of 24 beyond would come by chance in one of 40 seeds.
    expect(pairs.filter((ratio) => ratio > 1.96).length).toBeLessThan(4);
  });

  it.each([bramble, teasel])('by arrivals of $id: the stated uncertainty is that of the errors', (description) => {
    const pairs = Array.from({ length: 40 }, (_, seed) => {
      const random = uniform(300 + seed);
      const [a, b] = [recordedFoot(description, 13, random), recordedFoot(description, 13, random)];
      return (a.error_s - b.error_s) / Math.hypot(a.u_s, b.u_s);
    });
    const rms = Math.sqrt(pairs.reduce((sum, ratio) => sum + ratio ** 2, 0) / pairs.length);
    // One in the long run; that of 40 has a standard deviation of 0.11.
    expect(rms).toBeGreaterThan(0.6);
    expect(rms).toBeLessThan(1.35);
  });

  it('with what a sprint’s steps tell, are nearer than by arrivals where packets come as seldom as events do', () => {
    for (const seed of [71, 72, 73]) {
      const { error_s, u_s, by_arrival_u_s } = sprintOnTwoLinks(teasel, seed);
      expect(u_s).toBeLessThanOrEqual(by_arrival_u_s);
      expect(Math.abs(error_s)).toBeLessThan(2.6 * u_s);
    }
  });
});

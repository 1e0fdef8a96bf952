import { describe, expect, test } from 'vitest';
import { TimeBuilder } from '../../../ingest/csv/time/build-time.ts';
import type { TimeHabits } from '../../../ingest/csv/time/time-habits.ts';
import { FlatTop, fullScale } from '../../../ingest/csv/rows/flat-tops.ts';
import { readClock, readDay, readInstant } from '../../../ingest/csv/text/read-instant.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';

const habits: TimeHabits = {
  period_s: 0.01,
  jitter_s: 0,
  resolution_s: 1e-6,
  repeats: false,
  wraps_s: [],
  counter_wraps: [65_536],
};
const never = () => false;
const times = (values: number[]) => Float64Array.from(values);

describe('TimeBuilder', () => {
  test('counts a gap once, also between two blocks', () => {
    const builder = new TimeBuilder(habits);
    const first = builder.build(times([0, 0.01, 0.02]), null, never);
    const second = builder.build(times([0.06, 0.07]), null, never);
    expect(first.gaps).toEqual([]);
    expect(second.gaps).toEqual([{ start_s: 0.02, end_s: 0.06, lost_samples: 3 }]);
    expect(builder.rate()).toBeCloseTo(100, 9);
  });

  test('believes a counter that shows a loss which the stamps hide', () => {
    const { gaps } = new TimeBuilder(habits).build(times([0, 0.01, 0.02, 0.03]), times([65_534, 65_535, 2, 3]), never);
    expect(gaps).toEqual([{ start_s: 0.01, end_s: 0.02, lost_samples: 2 }]);
  });

  test('continues a clock that is full', () => {
    const builder = new TimeBuilder({ ...habits, wraps_s: [1] });
    const { time_s, gaps } = builder.build(times([0, 0.01, 0.02, -0.97, -0.96]), null, never);
    expect(time_s[4] - time_s[3]).toBeCloseTo(0.01, 9);
    expect(time_s[3]).toBeCloseTo(0.03, 9);
    expect(gaps).toEqual([]);
    expect(builder.events.wraps).toBe(1);
  });

  test('sets stamps of packets on an even clock and finds the packet that was lost', () => {
    const raw = Array.from({ length: 40 }, (_, packet) => packet).filter((packet) => packet !== 17);
    const stamps = raw.flatMap((packet) => Array.from({ length: 10 }, () => packet * 0.1 + 0.004 * Math.sin(packet)));
    const builder = new TimeBuilder({ ...habits, repeats: true });
    const { time_s, gaps } = builder.build(times(stamps), null, never);
    expect(gaps.length).toBe(1);
    expect(gaps[0].lost_samples).toBe(10);
    for (let i = 1; i < 160; i++) expect(Math.abs(time_s[i] - time_s[i - 1] - 0.01)).toBeLessThan(1e-4);
    expect(Math.abs(time_s[389] - time_s[0] - 3.99)).toBeLessThan(0.01);
  });

  test('straightens stamps that differ from an even clock by their rounding, and leaves those that differ by more', () => {
    const resolution_s = 0.001;
    // 300 Hz written to the millisecond: at most half of it off.
    const even = Array.from({ length: 200 }, (_, i) => i / 300);
    const written = even.map((t) => Math.round(t / resolution_s) * resolution_s);
    const build = (stamps: number[]) =>
      new TimeBuilder({ ...habits, period_s: 1 / 300, jitter_s: 3e-4, resolution_s }).build(times(stamps), null, never)
        .time_s;
    const straight = build(written);
    for (let i = 1; i < 200; i++) expect(Math.abs(straight[i] - straight[i - 1] - 1 / 300)).toBeLessThan(1e-6);
    // Sample 99 falls on a whole millisecond: what is added to it is all that it is off.
    const late = (by_s: number) => written.map((t, i) => (i === 99 ? t + by_s : t));
    expect(build(late(0.0011))).toEqual(times(late(0.0011)));
    expect(Math.abs(build(late(0.0009))[99] - 0.33)).toBeLessThan(1e-4);
  });

  test('leaves true jitter as it is', () => {
    const raw = Array.from({ length: 200 }, (_, i) => i * 0.01 + 0.0006 * Math.sin(i * 1.7));
    const { time_s } = new TimeBuilder({ ...habits, jitter_s: 0.0005, resolution_s: 1e-5 }).build(
      times(raw),
      null,
      never,
    );
    expect(time_s).toEqual(times(raw));
  });
});

describe('fullScale', () => {
  const top = (values: number[]) => {
    const watched = new FlatTop();
    watched.watch(times(values.map((value) => value * STANDARD_GRAVITY_MPS2)));
    return watched;
  };
  const still = () => top([0.1, -0.2, 0.3]);

  test('finds the range where a signal stays at it', () => {
    const clipped = top([1, 5, 16, 16, 16, 9, 2, 16, 4]);
    expect(fullScale([still(), clipped, still()], 'acc', STANDARD_GRAVITY_MPS2)).toBeCloseTo(
      16 * STANDARD_GRAVITY_MPS2,
      9,
    );
  });

  test('finds none where peaks differ, or the level is no range that sensors have', () => {
    expect(fullScale([still(), top([1, 15.2, 3, 15.7, 2]), still()], 'acc', STANDARD_GRAVITY_MPS2)).toBeNull();
    expect(fullScale([still(), top([1, 1, 1, 1, 1, 0.9]), still()], 'acc', STANDARD_GRAVITY_MPS2)).toBeNull();
  });

  test('finds it at a low rate, where every peak is one sample long', () => {
    const spikes = top([1, 8, 0.5, 8, 1, 8, 0.4, 8, 1, 8, 1]);
    expect(fullScale([spikes, still(), still()], 'acc', STANDARD_GRAVITY_MPS2)).toBeCloseTo(
      8 * STANDARD_GRAVITY_MPS2,
      9,
    );
  });
});

describe('instants', () => {
  test('are read as ISO 8601 and as people write them', () => {
    // The Unix epoch's first day, by definition; 2026-05-04T09:30:00Z by Date.UTC.
    expect(readInstant('1970-01-01T00:00:01.5Z', 'ymd')).toBe(1.5);
    const noon = Date.UTC(2026, 4, 4, 12) / 1000;
    expect(readInstant('2026-05-04 12:00:00', 'ymd')).toBe(noon);
    expect(readInstant('04.05.2026 12:00:00', 'dmy')).toBe(noon);
    expect(readInstant('5/4/2026 12:00:00 PM', 'mdy')).toBe(noon);
    expect(readInstant('20260504T120000Z', 'ymd')).toBe(noon);
    expect(readInstant('2026-05-04T14:00:00+02:00', 'ymd')).toBe(noon);
    expect(readInstant('2026-05-04T07:30:00-0430', 'ymd')).toBe(noon);
    expect(readDay('2026-13-04', 'ymd')).toBeNaN();
    expect(readClock('12:00:00 AM')).toBe(0);
    expect(readClock('23:59:59,250')).toBe(86_399.25);
    expect(readClock('25 past')).toBeNaN();
  });
});

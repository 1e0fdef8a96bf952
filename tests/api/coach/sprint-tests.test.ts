import { refusalOf } from '../../helpers/told.ts';
import { describe, expect, test } from 'vitest';
import { nextTestDate } from '../../../api/coach/tests/next-test-date.ts';
import {
  changeBetween,
  groupSeries,
  ownTypicalError,
  publishedThreshold,
} from '../../../api/coach/tests/sprint-test-change.ts';
import { timeOfWatches } from '../../../api/coach/tests/sprint-time-rules.ts';
import { METRES_PER_YARD } from '../../../shared/units.ts';
import { bestSingle, squatCourse, strengthRatios } from '../../../api/coach/tests/strength-ratios.ts';

const forty = (date: string, time_s: number, timing_method: 'hand' | 'beam' | 'touch_pad_beam' = 'touch_pad_beam') => ({
  date,
  time_s,
  timing_method,
  distance_m: 40 * METRES_PER_YARD,
  distance_unit: 'yd' as const,
  start_style: 'three_point' as const,
});

describe('reading hand times', () => {
  // World Athletics timing rules (TR19, from memory).
  test('of three watches the middle counts, of two the longer', () => {
    expect(timeOfWatches([5.1, 5.3, 5.2])).toBe(5.2);
    expect(timeOfWatches([5.1, 5.1, 5.4])).toBe(5.1);
    expect(timeOfWatches([5.1, 5.2])).toBe(5.2);
    expect(refusalOf(() => timeOfWatches([]))).toMatch(/one, two or three/);
    expect(refusalOf(() => timeOfWatches([1, 2, 3, 4]))).toMatch(/WATCH|watches/);
  });
});

describe('is this change real', () => {
  // Smallest worthwhile differences over 40 yd: Mann 2015, JSCR 29(6):1509-1514, doi 10.1519/JSC.0000000000000941.
  test('0.12 s is real with electronic times and not with hand times over 40 yards', () => {
    expect(changeBetween([forty('2026-03-01', 5.12), forty('2026-03-15', 5.0)]).verdict).toBe('faster');
    expect(changeBetween([forty('2026-03-01', 5.12), forty('2026-03-15', 5.01)]).verdict).toBe('no real change');
    const hand = [forty('2026-03-01', 5.12, 'hand'), forty('2026-03-15', 5.0, 'hand')];
    expect(changeBetween(hand).verdict).toBe('no real change');
    expect(changeBetween([hand[0], forty('2026-03-15', 4.98, 'hand')]).verdict).toBe('faster');
    expect(changeBetween([hand[0], forty('2026-03-15', 5.26, 'hand')]).verdict).toBe('slower');
  });

  test('hand and electronic times never share a series, nor do two electronic methods', () => {
    const tests = [forty('2026-03-01', 5.1), forty('2026-03-02', 4.85, 'hand'), forty('2026-03-03', 5.0, 'beam')];
    expect(groupSeries(tests).map((series) => series.length)).toEqual([1, 1, 1]);
  });

  test('an athlete whose own times scatter needs a larger change', () => {
    const times = [5.0, 5.3, 4.95, 5.35, 5.0, 5.3, 5.1];
    const series = times.map((time, i) => forty(`2026-03-0${i + 1}`, time));
    const change = changeBetween(series);
    expect(change.threshold_s).toBeGreaterThan(0.12);
    expect(change.threshold_source).toContain('own typical error');
    expect(change.verdict).toBe('no real change');
  });

  test('a steady training effect leaves the typical error at zero', () => {
    expect(ownTypicalError([5.5, 5.4, 5.3, 5.2, 5.1, 5.0])).toBeCloseTo(0, 9);
    expect(ownTypicalError([5.5, 5.4, 5.3])).toBeNull();
  });

  test('other distances carry the published typical error and say so', () => {
    const { threshold_s, source } = publishedThreshold({ ...forty('2026-03-01', 3.0), distance_m: 20 });
    expect(threshold_s).toBeCloseTo(1.96 * Math.SQRT2 * 0.045, 9);
    expect(source).toContain('20 m');
  });

  test('the sentence gives size, direction, date and what a real change needs', () => {
    expect(changeBetween([forty('2026-03-01', 5.12), forty('2026-03-15', 4.97)]).sentence).toBe(
      '0.15 s faster than on 1 March: a real change, electronic times need 0.12 s.',
    );
  });
});

describe('next test date', () => {
  test('two weeks after the last test', () => {
    expect(nextTestDate('2026-03-01', '2026-03-05', 14).date).toBe('2026-03-15');
  });
  test('today when overdue, with the days', () => {
    expect(nextTestDate('2026-03-01', '2026-03-20', 14)).toMatchObject({ date: '2026-03-20', overdue_days: 5 });
  });
  test('never on the day after a speed session', () => {
    expect(nextTestDate('2026-03-01', '2026-03-05', 14, ['2026-03-14']).date).toBe('2026-03-16');
    expect(nextTestDate('2026-03-01', '2026-03-05', 14, ['2026-03-14', '2026-03-15']).date).toBe('2026-03-17');
  });
  test('without any test it is due today', () => {
    expect(nextTestDate(null, '2026-03-05', 14)).toMatchObject({ date: '2026-03-05', why: 'no test yet' });
  });
});

describe('strength ratios', () => {
  const squat = (load_kg: number, repetitions: number, date = '2026-03-01') => ({
    date,
    lift: 'parallel_squat' as const,
    load_kg,
    repetitions,
  });
  test('the squat stands against body mass with its source, and is no aim for a minor', () => {
    const [ratio] = strengthRatios([squat(150, 1)], 75, true);
    expect(ratio.value).toBe(2);
    expect(ratio.note).toContain('no aim for a minor');
    expect(ratio.source).toContain('McBride 2009');
    expect(strengthRatios([squat(150, 1)], 75, false)[0].note).not.toContain('minor');
  });
  test('a squat of ten counts by the best single it stands for', () => {
    expect(bestSingle(120, 10)).toBeCloseTo(160, 9);
    expect(bestSingle(120, 1)).toBe(120);
    expect(bestSingle(120, 15)).toBeNull();
  });
  test('over time the best single of each day counts, and other lifts are no squat', () => {
    const records = [
      squat(100, 1, '2026-03-08'),
      squat(90, 5),
      squat(80, 1),
      { ...squat(200, 1), lift: 'deadlift' as const },
    ];
    expect(squatCourse(records)).toEqual([
      { date: '2026-03-01', single_kg: 105 },
      { date: '2026-03-08', single_kg: 100 },
    ]);
  });
  test('what is missing is asked for, not guessed', () => {
    expect(strengthRatios([], null, false).map((ratio) => ratio.value)).toEqual([null]);
    expect(strengthRatios([squat(130, 1)], null, false)[0].sentence).toContain('body mass');
  });
});

describe("an athlete's own typical error", () => {
  test('is the SD of differences over root 2, by hand', () => {
    // Differences -1, 1, -1, 1, -1 tenths: mean -0.02, sum of squares 0.048, SD sqrt(0.012).
    const times = [5.1, 5.0, 5.1, 5.0, 5.1, 5.0];
    expect(ownTypicalError(times)).toBeCloseTo(Math.sqrt(0.012 / 2), 12);
    expect(ownTypicalError(times.slice(1))).toBeNull();
  });

  test('leaves a steady gain out', () => {
    expect(ownTypicalError([5.5, 5.4, 5.3, 5.2, 5.1, 5.0])).toBeCloseTo(0, 12);
  });
});

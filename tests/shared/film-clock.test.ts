import { describe, expect, test } from 'vitest';
import { filmClock, filmTime, filmTimeError, markResiduals, recordingTime } from '../../shared/film-clock.ts';
import type { FilmMark } from '../../shared/schemas/coach/film.ts';
import { normal, uniform } from '../helpers/random.ts';

const FRAME_S = 1 / 60;
const mark = (recording_s: number, film_s: number, step = 1): FilmMark => ({
  step,
  event: 'touchdown',
  film_s,
  recording_s,
});

describe('a film tied to a recording', () => {
  test('needs a mark', () => {
    expect(filmClock([], FRAME_S)).toBeNull();
  });

  test('by one mark has its offset, real time, and the error of one frame', () => {
    const clock = filmClock([mark(2, 7.5)], FRAME_S)!;
    expect(filmTime(clock, 3)).toBe(8.5);
    expect(recordingTime(clock, 8.5)).toBe(3);
    // Uniform over one frame: its standard deviation is the width over sqrt(12) (JCGM 100:2008, 4.3.7).
    expect(clock.u_s).toBeCloseTo(FRAME_S / Math.sqrt(12), 12);
    expect(clock.residual_s).toBeNull();
  });

  test('by two marks half a second apart and more tells slow motion; by two neighbouring steps it does not', () => {
    expect(filmClock([mark(2, 10), mark(3, 18)], FRAME_S)!.rate).toBe(8);
    expect(filmClock([mark(2, 10), mark(2.24, 10.25)], FRAME_S)!.rate).toBe(1);
  });

  /** Certified: NIST Statistical Reference Datasets, Norris (linear least squares). Slope, intercept, residual SD. */
  test('fits the line of the certified data set Norris', () => {
    const x =
      '0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6 556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5';
    const y =
      '0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8 557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2';
    const ys = y.split(' ').map(Number);
    const marks = x.split(' ').map((value, i) => mark(Number(value), ys[i], i + 1));
    const clock = filmClock(marks, FRAME_S)!;
    expect(clock.rate).toBeCloseTo(1.00211681802045, 10);
    expect(clock.offset_s).toBeCloseTo(-0.262323073774029, 9);
    expect(clock.residual_s).toBeCloseTo(0.884796396144373, 10);
    expect(markResiduals(clock, marks).reduce((sum, r) => sum + r, 0)).toBeCloseTo(0, 8);
  });

  test('states an error that covers the truth about as often as it says, near the marks and away from them', () => {
    const [z, u] = [normal(3), uniform(4)];
    const [rate, offset] = [4, 1.3];
    let [near, far] = [0, 0];
    const RUNS = 1500;
    for (let i = 0; i < RUNS; i++) {
      // Frames show the instant anywhere within one interval; the instant itself is off by 2 ms in the recording.
      const marks = [1, 1.6, 2.4, 3].map((t, k) =>
        mark(t + 0.002 * z(), offset + rate * t + FRAME_S * (u() - 0.5), k + 1),
      );
      const clock = filmClock(marks, FRAME_S, 0.002)!;
      const covers = (t: number) => Math.abs(filmTime(clock, t) - (offset + rate * t)) < 1.96 * filmTimeError(clock, t);
      if (covers(2)) near += 1;
      if (covers(5)) far += 1;
    }
    // The larger of what is known and what is seen is a little more than it must be; 95 % less four binomial SD is 92.7 %.
    for (const share of [near / RUNS, far / RUNS]) {
      expect(share).toBeGreaterThan(0.927);
      expect(share).toBeLessThan(0.995);
    }
  });
});

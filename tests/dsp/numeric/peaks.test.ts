import { describe, expect, it } from 'vitest';
import {
  argMax,
  argMin,
  best,
  findPeaks,
  firstCrossing,
  localMaxima,
  localMinima,
  vertex,
} from '../../../dsp/numeric/peaks.ts';

const column = (f: (i: number) => number, n = 40): Float64Array => Float64Array.from({ length: n }, (_, i) => f(i));
const values = (...x: number[]): Float64Array => Float64Array.from(x);

describe('vertex', () => {
  it('is exact for a parabola whose top lies between samples', () => {
    const x = column((i) => 5 - 2 * (i - 17.3) ** 2);
    expect(vertex(x, argMax(x, 0, 40))).toBeCloseTo(17.3, 12);
    expect(
      vertex(
        x.map((v) => -v),
        17,
      ),
    ).toBeCloseTo(17.3, 12);
  });

  it('stays at the index at the ends, beside gaps and on a line, and never leaves by more than a sample', () => {
    const x = column((i) => 5 - 2 * (i - 0.3) ** 2, 5);
    expect([vertex(x, 0), vertex(x, 4), vertex(x, -1)]).toEqual([0, 4, -1]);
    // The neighbour of an end is looked at like any other.
    expect(vertex(values(3, 4, 4), 1)).toBeCloseTo(1.5, 12);
    expect(vertex(values(1, 2, Number.NaN, 4), 1)).toBe(1);
    expect(vertex(values(1, 2, 3, 4), 1)).toBe(1);
    // Not an extremum: the parabola's top would lie far away.
    expect(vertex(values(0, 10, 19.9), 1)).toBe(2);
    expect(vertex(values(19.9, 10, 0), 1)).toBe(0);
  });
});

describe('firstCrossing', () => {
  it('is exact for a straight line, in the wanted direction only', () => {
    const x = column((i) => 10.5 - i);
    expect(firstCrossing(x, 0, 40, 0, 'falling')).toBeCloseTo(10.5, 12);
    expect(firstCrossing(x, 0, 40, 0, 'rising')).toBeNull();
    expect(firstCrossing(x, 0, 40, 3.25, 'falling')).toBeCloseTo(7.25, 12);
    const rising = column((i) => 2 * i - 9);
    expect(firstCrossing(rising, 0, 40, 0, 'rising')).toBeCloseTo(4.5, 12);
    expect(firstCrossing(rising, 0, 40, 0, 'falling')).toBeNull();
  });

  it('counts a sample on the level as crossed, and one that begins there as not', () => {
    expect(firstCrossing(values(-1, 0, 1), 0, 3, 0, 'rising')).toBe(1);
    expect(firstCrossing(values(0, 1, 2), 0, 3, 0, 'rising')).toBeNull();
    expect(firstCrossing(values(1, 0, -1), 0, 3, 0, 'falling')).toBe(1);
  });

  it('looks from the first index to before the last, whatever lies beyond', () => {
    const x = values(-1, 1, -1, 1, -1, 1);
    expect(firstCrossing(x, 2, 6, 0, 'rising')).toBeCloseTo(2.5, 12);
    expect(firstCrossing(x, 1.2, 6, 0, 'rising')).toBeCloseTo(2.5, 12);
    expect(firstCrossing(x, 4, 5, 0, 'rising')).toBeNull();
    expect(firstCrossing(x, -5, 2, 0, 'rising')).toBeCloseTo(0.5, 12);
    expect(firstCrossing(values(-1, -1), 0, 99, 0, 'rising')).toBeNull();
  });
});

describe('argMin and argMax', () => {
  it('pass over missing values and say -1 of none', () => {
    const x = values(Number.NaN, 3, 1, Number.NaN, 7);
    expect(argMin(x, 0, 5)).toBe(2);
    expect(argMax(x, 0, 5)).toBe(4);
    expect(argMin(x, 3, 4)).toBe(-1);
    expect(argMax(x, 3, 4)).toBe(-1);
    expect(argMax(values(Number.POSITIVE_INFINITY, 1), 0, 2)).toBe(1);
  });

  it('give the first of equal values, from the first index to before the last', () => {
    expect([argMax(values(5, 7, 7), 0, 3), argMin(values(7, 5, 5), 0, 3)]).toEqual([1, 1]);
    const x = values(9, 1, 5, 0, 8);
    expect([argMax(x, 1, 4), argMin(x, 1, 3)]).toEqual([2, 1]);
    expect([argMax(x, 0.5, 4), argMax(x, -3, 99), argMin(x, -3, 99)]).toEqual([2, 0, 3]);
    // The first sample alone.
    expect([argMax(x, 0, 1), argMin(x, 0, 1)]).toEqual([0, 0]);
  });
});

describe('findPeaks', () => {
  it('keeps the higher of two peaks that are too close, in order of time', () => {
    const x = column((i) => (i === 10 ? 5 : i === 14 ? 8 : i === 30 ? 6 : 0));
    expect(findPeaks(x, 1, 10)).toEqual([14, 30]);
    expect(findPeaks(x, 1, 4)).toEqual([10, 14, 30]);
    expect(findPeaks(x, 1, 5)).toEqual([14, 30]);
  });

  it('takes a peak of just the height, a flat top where it begins, and never an end', () => {
    expect(findPeaks(values(0, 2, 0, 1.9, 0), 2, 1)).toEqual([1]);
    expect(findPeaks(values(0, 3, 3, 0), 1, 1)).toEqual([1]);
    expect(findPeaks(values(9, 0, 1, 0, 9), 0.5, 1)).toEqual([2]);
    // Neither a rise that goes on nor a fall that goes on is a peak.
    expect(findPeaks(values(0, 1, 2, 3, 2, 1, 0), 0.5, 1)).toEqual([3]);
  });
});

describe('localMaxima and localMinima', () => {
  it('are those of x and of -x', () => {
    const x = column((i) => Math.sin(i));
    const negated = x.map((value) => -value);
    expect(localMaxima(x, 0, 40)).toEqual([2, 8, 14, 20, 27, 33]);
    expect(localMinima(negated, 0, 40)).toEqual(localMaxima(x, 0, 40));
  });

  it('count a flat stretch where it begins, and leave out the ends and what is not asked for', () => {
    expect(localMaxima(values(0, 1, 1, 0), 0, 4)).toEqual([1]);
    expect(localMinima(values(1, 0, 0, 1), 0, 4)).toEqual([1]);
    expect([localMaxima(values(2, 1, 2), 0, 3), localMinima(values(1, 2, 1), 0, 3)]).toEqual([[], []]);
    const x = values(0, 1, 0, 1, 0, 1, 0);
    expect(localMaxima(x, 2, 5)).toEqual([3]);
    expect(localMaxima(x, 1.5, 99)).toEqual([3, 5]);
    expect(localMaxima(x, -9, 3)).toEqual([1]);
    const low = x.map((v) => -v);
    expect(localMinima(low, 2, 5)).toEqual([3]);
    expect(localMinima(low, 1.5, 99)).toEqual([3, 5]);
    expect(localMinima(low, -9, 3)).toEqual([1]);
  });
});

describe('best', () => {
  it('is the index of the greatest score, the first of equal ones, -1 of none', () => {
    expect(best([4, 2, 9, 7], (i) => -Math.abs(i - 8))).toBe(9);
    expect(best([9, 4], () => 1)).toBe(9);
    expect(best([0, 3], (i) => -i)).toBe(0);
    expect(best([], () => 1)).toBe(-1);
  });
});

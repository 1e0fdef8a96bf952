import { describe, expect, it } from 'vitest';
import {
  argMax,
  argMin,
  findPeaks,
  firstCrossing,
  localMaxima,
  localMinima,
  vertex,
} from '../../../dsp/numeric/peaks.ts';

const column = (f: (i: number) => number, n = 40): Float64Array => Float64Array.from({ length: n }, (_, i) => f(i));

describe('picking', () => {
  it('vertex is exact for a parabola whose top lies between samples', () => {
    const x = column((i) => 5 - 2 * (i - 17.3) ** 2);
    expect(vertex(x, argMax(x, 0, 40))).toBeCloseTo(17.3, 12);
  });

  it('firstCrossing is exact for a straight line, in the wanted direction only', () => {
    const x = column((i) => 10.5 - i);
    expect(firstCrossing(x, 0, 40, 0, 'falling')).toBeCloseTo(10.5, 12);
    expect(firstCrossing(x, 0, 40, 0, 'rising')).toBeNull();
  });

  it('argMin and argMax pass over missing values and say -1 of none', () => {
    const x = Float64Array.from([Number.NaN, 3, 1, Number.NaN, 7]);
    expect(argMin(x, 0, 5)).toBe(2);
    expect(argMax(x, 0, 5)).toBe(4);
    expect(argMin(x, 3, 4)).toBe(-1);
  });

  it('findPeaks keeps the higher of two peaks that are too close', () => {
    const x = column((i) => (i === 10 ? 5 : i === 14 ? 8 : i === 30 ? 6 : 0));
    expect(findPeaks(x, 1, 10)).toEqual([14, 30]);
  });

  it('localMinima of x are the localMaxima of -x', () => {
    const x = column((i) => Math.sin(i));
    const negated = x.map((value) => -value);
    expect(localMinima(x, 0, 40)).toEqual(localMaxima(negated, 0, 40));
  });
});

import { describe, expect, it } from 'vitest';
import { decodeChannel, encodeChannel } from '../../../api/store/channel-codec.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { uniform } from '../../helpers/random.ts';

const next = uniform(11);
const decimals = (n: number, places: number, factor: number) =>
  Float64Array.from({ length: n }, () => Number((40 * (next() - 0.5)).toFixed(places)) * factor);

/** Same bits: NaN and the sign of zero included. */
function expectSame(values: Float64Array): void {
  const back = decodeChannel(encodeChannel(values));
  expect(back.length).toBe(values.length);
  for (let i = 0; i < values.length; i++) if (!Object.is(back[i], values[i])) expect(back[i]).toBe(values[i]);
}

describe('channel codec', () => {
  it.each([
    ['an empty channel', new Float64Array(0)],
    ['one sample', Float64Array.of(9.81)],
    ['a constant', new Float64Array(500).fill(-1)],
    ['g with four decimals', decimals(3000, 4, STANDARD_GRAVITY_MPS2)],
    ['degrees a second with two decimals', decimals(3000, 2, RADIANS_PER_DEGREE)],
    ['milligravity, whole', decimals(3000, 0, STANDARD_GRAVITY_MPS2 / 1000)],
    [
      'values of every bit pattern',
      Float64Array.from({ length: 3000 }, () => (next() - 0.5) * 10 ** (300 * (next() - 0.5))),
    ],
    ['missing values and both zeros', Float64Array.of(0, -0, Number.NaN, 0.5, Number.NaN, -0.25)],
    ['infinities', Float64Array.of(Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1)],
    ['jumps from end to end of the range', Float64Array.of(2147483000, -2147483000, 2147483000, 0)],
    ['all missing', new Float64Array(40).fill(Number.NaN)],
  ])('gives back %s to the last bit', (_name, values) => expectSame(values));

  it('gives back a view that does not begin at the start of its buffer', () => {
    expectSame(decimals(100, 3, 1).subarray(13, 77));
  });

  it('takes a factor that a radio sensor scales its counts with', () => {
    const scale = 0.000598;
    const values = Float64Array.from({ length: 2000 }, () => Math.round(30_000 * (next() - 0.5)) * scale);
    expect(decodeChannel(encodeChannel(values, [scale]))).toEqual(values);
    expect(encodeChannel(values, [scale]).length).toBeLessThan(0.6 * encodeChannel(values).length);
  });

  it('needs less than half of 16-bit samples for a smooth signal', () => {
    const values = Float64Array.from(
      { length: 16_384 },
      (_, i) => Number((4 * Math.sin(i / 200) + 0.01 * next()).toFixed(3)) * STANDARD_GRAVITY_MPS2,
    );
    expect(encodeChannel(values).length).toBeLessThan(0.5 * 2 * values.length);
  });
});

import { describe, expect, it } from 'vitest';
import { burstMiddle } from '../../../../dsp/numeric/burst-middle.ts';

/** A burst of change as a bell about `centre`, sampled at whole indices. */
const burst = (centre: number, width: number, size = 1): Float64Array =>
  Float64Array.from({ length: 400 }, (_, i) => size * Math.exp(-0.5 * ((i - centre) / width) ** 2));

describe('burstMiddle', () => {
  it('is the centre of a burst that is alike on both sides, between samples as well', () => {
    for (const centre of [200, 200.25, 200.5]) {
      // Energy of sample i stands for the interval before it: half a sample later.
      expect(burstMiddle(burst(centre, 12), 100, 300, [0.2, 0.8])! + 0.5).toBeCloseTo(centre, 1);
    }
  });

  it('does not depend on the size of the burst, nor on the window while it holds the burst', () => {
    const middle = burstMiddle(burst(180, 8), 100, 300, [0.2, 0.8])!;
    expect(burstMiddle(burst(180, 8, 50), 100, 300, [0.2, 0.8])).toBeCloseTo(middle, 9);
    expect(burstMiddle(burst(180, 8), 60, 340, [0.2, 0.8])).toBeCloseTo(middle, 6);
  });

  it('dates two blows between them where one of either would be early or late', () => {
    const two = burst(180, 5).map((v, i) => v + burst(220, 5)[i]);
    expect(burstMiddle(two, 100, 300, [0.2, 0.8])! + 0.5).toBeCloseTo(200, 0);
  });

  it('is null where nothing changes', () => {
    expect(burstMiddle(new Float64Array(400), 100, 300, [0.2, 0.8])).toBeNull();
  });
});

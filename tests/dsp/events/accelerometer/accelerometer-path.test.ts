import { describe, expect, it } from 'vitest';
import { type Candidate, steadyPath } from '../../../../dsp/events/accelerometer/accelerometer-path.ts';

const STEADINESS = { step: 0.015, most: 4, same: 0.03 };
const candidate = (share: number, score: number): Candidate => ({ at: 1000 * share, share, score });

describe('steadyPath', () => {
  it('leaves a candidate that looks somewhat better for one that follows its neighbours', () => {
    const strides = [0.25, 0.25, 0.26, 0.25, 0.24].map((share) => [candidate(share, 2), candidate(0.42, 0)]);
    strides[2] = [candidate(0.26, 2), candidate(0.42, 4)];
    expect(steadyPath(strides, STEADINESS).map((chosen) => chosen!.candidate.share)).toEqual([
      0.25, 0.25, 0.26, 0.25, 0.24,
    ]);
  });

  it('follows a jump that every later stride confirms, at the price of one', () => {
    const shares = [0.4, 0.4, 0.25, 0.25, 0.25];
    const strides = shares.map((share) => [candidate(share, 3), candidate(0.65 - share, 0)]);
    expect(steadyPath(strides, STEADINESS).map((chosen) => chosen!.candidate.share)).toEqual(shares);
  });

  it('says by how much another instant scores less, and none where there is no other', () => {
    const [chosen] = steadyPath([[candidate(0.25, 3), candidate(0.26, 2.9), candidate(0.4, 1)]], STEADINESS);
    expect(chosen!.margin).toBeCloseTo(2, 12);
    expect(steadyPath([[candidate(0.25, 3)]], STEADINESS)[0]!.margin).toBe(Number.POSITIVE_INFINITY);
  });

  it('passes over strides without a candidate', () => {
    const path = steadyPath([[candidate(0.3, 1)], [], [candidate(0.31, 1)]], STEADINESS);
    expect(path.map((chosen) => chosen?.candidate.share ?? null)).toEqual([0.3, null, 0.31]);
    expect(steadyPath([], STEADINESS)).toEqual([]);
  });
});

/** Clocks that are said to be one and drift apart, and clocks with too little near the running to tell. */
import { describe, expect, test } from 'vitest';
import { align } from '../../../ingest/clock/align.ts';
import type { Alignment } from '../../../ingest/clock/alignment.ts';
import { told } from '../../helpers/told.ts';
import type { PairOptions } from './make-pair.ts';
import { pairWithRest } from './with-pause.ts';

const STARTS_S = 1.3;
const options = (right_drift: number, more: Partial<PairOptions> = {}): PairOptions => ({
  seed: 901,
  mounting: 'foot',
  jumps_before: 0,
  right_starts_s: STARTS_S,
  rate_hz: 125,
  right_drift,
  ...more,
});

/** How far apart the alignment puts an instant of world time on both feet, seconds. */
function errorAt(world_s: number, { left_offset_s, right_offset_s, drift }: Alignment, right_drift: number): number {
  return (world_s - STARTS_S) * (1 + right_drift) * (1 + drift) + right_offset_s - (world_s + left_offset_s);
}

describe('stamps of one clock, as they say', () => {
  const shared = (right_drift: number, rest_s: number) => {
    const pair = pairWithRest(options(right_drift), rest_s);
    const alignment = align({ ...pair.left, clock_start_s: 100 }, { ...pair.right, clock_start_s: 100 + STARTS_S });
    return { alignment, errors: pair.instants_s.map((at) => Math.abs(errorAt(at, alignment, right_drift))) };
  };

  test('are believed where both runs fit them', () => {
    const { alignment } = shared(0, 600);
    expect(alignment).toMatchObject({ method: 'common time column', drift: 0, u: 0, confidence: 1 });
    expect(alignment.fault).toBeUndefined();
  });

  test('that drift apart by 80 ms from one run to the next are put right by the steps of both, and it is told', () => {
    const { alignment, errors } = shared(2e-4, 400);
    // 200 millionths are 12 ms a minute.
    expect(told(alignment.fault!).message).toMatch(/drift apart by 1[12]\./);
    // As for steps alone: the runner's left and right differ by some milliseconds.
    for (const error of errors) expect(error).toBeLessThan(0.01);
  });

  test('that run half a second apart from one run to the next, a stride, are refused; without it they are believed', () => {
    for (const [seed, rest_s] of [
      [903, 90],
      [904, 400],
    ]) {
      const stamped = (right_drift: number) => {
        const pair = pairWithRest(options(right_drift, { seed }), rest_s);
        return align({ ...pair.left, clock_start_s: 100 }, { ...pair.right, clock_start_s: 100 + STARTS_S });
      };
      expect(stamped(0.5 / (rest_s + 15)).method).toBe('none');
      expect(stamped(0).method).toBe('common time column');
    }
  });

  test('that may have drifted by a stride between two runs are refused', () => {
    const { alignment } = shared(3.5e-4, 1000);
    expect(alignment.method).toBe('none');
    expect(told(alignment.fault!).message).toContain('drift apart');
  });
});

test('clocks of their own whose jumps lie twenty minutes before the running are refused, or right within what they state', () => {
  for (const right_drift of [0, 5e-5]) {
    const pair = pairWithRest(options(right_drift, { jumps_before: 3 }), 1200);
    const alignment = align(pair.left, pair.right);
    if (alignment.method === 'none') continue;
    for (const at of pair.instants_s)
      expect(Math.abs(errorAt(at, alignment, right_drift))).toBeLessThan(3 * alignment.u);
  }
});

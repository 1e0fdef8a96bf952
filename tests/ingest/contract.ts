/**
 * What every source of samples promises, whatever it is: a file, a radio, a replay. One check for all of them, see
 * shared/sample-block.ts. A source hands out one block or several that follow each other.
 */
import { expect } from 'vitest';
import type { SampleBlock } from '../../shared/sample-block.ts';

/** Sensors read no more than this: 400 g and 8000 deg/s are beyond what is sold. */
const MOST_ACC_MPS2 = 4000;
const MOST_GYR_RADPS = 140;
/** Time may pass a gap's length, but a step that is no gap is no longer than this many periods. */
const LONGEST_STEP_PERIODS = 12;

/** Checks the blocks of one sensor, in order. @throws the test's own error with what was broken */
export function checkSampleBlocks(blocks: SampleBlock[]): void {
  let last = Number.NEGATIVE_INFINITY;
  let first = true;
  for (const block of blocks) {
    const n = block.time_s.length;
    const axes = [block.acc_mps2, ...(block.gyr_radps ? [block.gyr_radps] : [])];
    for (const { x, y, z } of axes) for (const column of [x, y, z]) expect(column).toBeInstanceOf(Float64Array);
    for (const { x, y, z } of axes) expect([x.length, y.length, z.length]).toEqual([n, n, n]);
    expect(block.gyr_radps === null).toBe(blocks[0].gyr_radps === null);
    expect(Number.isFinite(block.sampling_rate_hz) && block.sampling_rate_hz > 0).toBe(true);
    if (block.start_utc !== null) expect(Number.isFinite(Date.parse(block.start_utc))).toBe(true);
    if (n > 0 && first) {
      expect(block.time_s[0]).toBe(0);
      first = false;
    }
    const starts = new Map(block.gaps.map((gap) => [gap.end_s, gap]));
    let problem = '';
    for (let i = 0; i < n && problem === ''; i++) {
      const t = block.time_s[i];
      if (!(t > last)) problem = `time ${t} at ${i} does not come after ${last}`;
      const step = t - last;
      const gap = starts.get(t);
      if (Number.isFinite(step) && step > LONGEST_STEP_PERIODS / block.sampling_rate_hz && !gap)
        problem = `no gap over ${step} s at ${t}`;
      last = t;
      for (const { x, y, z } of axes) {
        const most = axes[0].x === x ? MOST_ACC_MPS2 : MOST_GYR_RADPS;
        for (const value of [x[i], y[i], z[i]]) {
          if (!Number.isNaN(value) && !(Math.abs(value) <= most)) problem = `${value} at ${t} s is beyond any sensor`;
        }
      }
    }
    expect(problem).toBe('');
    for (const gap of block.gaps) {
      expect(gap.end_s).toBeGreaterThan(gap.start_s);
      if (gap.lost_samples !== null) {
        expect(Number.isInteger(gap.lost_samples) && gap.lost_samples >= 1).toBe(true);
      }
    }
    for (const range of [block.acc_range_mps2, block.gyr_range_radps])
      if (range !== null) expect(range).toBeGreaterThan(0);
  }
}

export interface SourceUnderTest {
  name: string;
  /** Blocks of each sensor of a source that holds samples. */
  read: () => Promise<SampleBlock[][]>;
}

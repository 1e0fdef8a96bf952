import { describe, expect, it } from 'vitest';
import { followClocks } from '../../api/measuring/follow-clocks.ts';
import { describeRecording } from '../../api/store/chunks.ts';
import { type SampleSource, sourceInMemory } from '../../api/store/sample-source.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { uniform } from '../helpers/random.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';

const RATE_HZ = 500;
const LENGTH_S = 2400;

/** Sprints with rests of chance length between, read by a clock that counts 1 + `drift` seconds a second. */
function session(block: SampleBlock, drift: number): SampleBlock {
  const next = uniform(8);
  const rows: number[] = [];
  while (rows.length < LENGTH_S * RATE_HZ) {
    for (let rest = 10_000 + Math.floor(20_000 * next()); rest > 0; rest--) rows.push(rest % 5);
    for (let row = 0; row < block.time_s.length; row++) rows.push(row);
  }
  const axes = (of: SampleBlock['acc_mps2']) => ({
    x: Float64Array.from(rows, (row) => of.x[row]),
    y: Float64Array.from(rows, (row) => of.y[row]),
    z: Float64Array.from(rows, (row) => of.z[row]),
  });
  return {
    ...block,
    time_s: Float64Array.from(rows, (_, i) => (i / RATE_HZ) * (1 + drift)),
    acc_mps2: axes(block.acc_mps2),
    gyr_radps: axes(block.gyr_radps!),
    gaps: [],
  };
}

describe('two clocks over a long recording', () => {
  it('are followed by the steps, where the beginning left the drift unknown', { timeout: 60_000 }, () => {
    const { left, right } = sprintFiles().recording.sensors.foot;
    const true_drift = 25e-6;
    const source = (side: 'left' | 'right', samples: SampleBlock): SampleSource => {
      const place = { side, mounting: 'foot', clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0.003 } as const;
      return sourceInMemory(describeRecording({ ...place, samples }), samples);
    };
    const [a, b] = [source('left', session(left, 0)), source('right', session(right, true_drift))];
    // The lag is right in the middle of the first 200 s; the drift is not known at all: 55 ms at the end.
    b.clock_offset_s = -100 * true_drift;
    expect(followClocks(a, b, 200)).toEqual([]);
    const errorAt = (world_s: number) => b.clock_offset_s + world_s * (1 + true_drift) * (1 + b.clock_drift) - world_s;
    for (const world_s of [100, 800, 2300]) expect(Math.abs(errorAt(world_s))).toBeLessThan(0.004);
    expect(b.clock_drift).toBeCloseTo(-true_drift, 5);
  });
});

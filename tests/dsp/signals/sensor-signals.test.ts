import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS as S } from '../../../dsp/settings/settings.ts';
import { sensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';

const made = generateRepetition({
  seed: 9,
  mountings: ['foot'],
  sensor: { rate_hz: 200 },
  repetitions: [{ effort: 1, distance_m: 20 }],
}).sensors.foot.left;
const of = (change: (block: SampleBlock) => Partial<SampleBlock> = () => ({})) => {
  const block = structuredClone(made);
  return sensorSignals(
    {
      side: 'left',
      mounting: 'foot',
      samples: { ...block, ...change(block) },
      clock_offset_s: 0,
      clock_drift: 0,
      clock_offset_u_s: 0,
    },
    S,
  );
};
const usual = of();

describe('signals of a sensor', () => {
  it('are its samples as they are, where stamps are even and none is missing', () => {
    expect(usual.length).toBe(made.time_s.length);
    expect([usual.rate_hz, usual.start_s]).toEqual([made.sampling_rate_hz, made.time_s[0]]);
    expect([...usual.acc_mps2.y.subarray(0, 50)]).toEqual([...made.acc_mps2.y.subarray(0, 50)]);
    expect(usual.measured.every((m) => m === 1)).toBe(true);
    for (const i of [0, 77, 300]) {
      const { x, y, z } = made.acc_mps2;
      expect(usual.acc_norm[i]).toBeCloseTo(Math.hypot(x[i], y[i], z[i]), 9);
    }
  });

  it('lie on an even grid where stamps are not, a sample out of place seen by a hundredth of an interval', () => {
    const jittered = of(({ time_s }) => ({ time_s: time_s.map((t, i) => t + (i % 2 ? 0.0005 : 0)) }));
    expect([...jittered.acc_mps2.x.subarray(100, 110)]).not.toEqual([...made.acc_mps2.x.subarray(100, 110)]);
    const hardly = of(({ time_s }) => ({ time_s: time_s.map((t, i) => t + (i % 2 ? 0.00004 : 0)) }));
    expect([...hardly.acc_mps2.x]).toEqual([...made.acc_mps2.x]);
  });

  it('bridge a short loss by a straight line, and say that it was not measured', () => {
    const [from, n] = [400, 3];
    const lost = of((block) => {
      block.acc_mps2.x.fill(Number.NaN, from, from + n);
      return {};
    });
    const { x } = made.acc_mps2;
    expect(lost.acc_mps2.x[from + 1]).toBeCloseTo((x[from - 1] + x[from + n]) / 2, 6);
    expect([...lost.measured.subarray(from - 1, from + n + 1)]).toEqual([1, 0, 0, 0, 1]);
    const long = Math.round(S.grid.bridge_s * made.sampling_rate_hz) + 1;
    const gone = of((block) => {
      block.acc_mps2.x.fill(Number.NaN, from, from + long);
      return {};
    });
    expect(gone.acc_mps2.x[from + 1]).toBeNaN();
  });

  it('do without a gyroscope', () => {
    const alone = of(() => ({ gyr_radps: null }));
    expect(alone).toMatchObject({ gyr_radps: null, axis: null, axis_share: 0, sagittal_rate: null });
    expect([...alone.acc_norm.subarray(0, 9)]).toEqual([...usual.acc_norm.subarray(0, 9)]);
    expect(alone.gyr_clipped.length).toBe(alone.length);
    expect(alone.gyr_clipped.some((v) => v === 1)).toBe(false);
  });

  it('mark what sits at the full scale, of each channel by its own', () => {
    const top = Math.max(
      ...made.acc_mps2.x.map(Math.abs),
      ...made.acc_mps2.y.map(Math.abs),
      ...made.acc_mps2.z.map(Math.abs),
    );
    const clipped = of(() => ({ acc_range_mps2: top, gyr_range_radps: 1e9 }));
    expect(clipped.acc_clipped.some((v) => v === 1)).toBe(true);
    expect(clipped.gyr_clipped.some((v) => v === 1)).toBe(false);
    expect(of(() => ({ acc_range_mps2: null })).acc_clipped.some((v) => v === 1)).toBe(false);
  });

  it('have an axis of swing that turns forward positively, however the sensor is turned round', () => {
    expect(usual.axis_share).toBeGreaterThan(0.7);
    const round = of((block) => ({
      acc_mps2: { x: block.acc_mps2.x.map((v) => -v), y: block.acc_mps2.y, z: block.acc_mps2.z.map((v) => -v) },
      gyr_radps: {
        x: block.gyr_radps!.x.map((v) => -v),
        y: block.gyr_radps!.y,
        z: block.gyr_radps!.z.map((v) => -v),
      },
    }));
    for (let i = 0; i < usual.length; i += 37) {
      expect(round.sagittal_rate![i]).toBeCloseTo(usual.sagittal_rate![i], 6);
    }
    const along = usual.axis!;
    const turned = round.axis!;
    [-along[0], along[1], -along[2]].forEach((v, k) => {
      expect(turned[k]).toBeCloseTo(v, 6);
    });
  });
});

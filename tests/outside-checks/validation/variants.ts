/** What is done to a recording before the detector sees it, to learn what it needs. */
import { designLowPass, filterForwardBackward } from '../../../dsp/filters/index.ts';
import { makeRandom } from '../../../seeds/random.ts';
import { randomRotation } from '../../../seeds/sensor/sensor-model.ts';
import type { AxisColumns, Gap, SampleBlock } from '../../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import type { ValidationCase } from './validation-case.ts';

export type Change = (block: SampleBlock, index: number) => SampleBlock;

function eachAxis(axes: AxisColumns, change: (column: Float64Array) => Float64Array): AxisColumns {
  return { x: change(axes.x), y: change(axes.y), z: change(axes.z) };
}

/** Fewer samples a second, as a slower sensor would take them: low-passed at 0.4 of the new rate first. */
export function resampled(rate_hz: number): Change {
  return (block) => {
    if (rate_hz >= block.sampling_rate_hz) return block;
    const sections = designLowPass(0.4 * rate_hz, block.sampling_rate_hz, 4);
    const n = Math.floor(block.time_s[block.time_s.length - 1] * rate_hz) + 1;
    const time_s = Float64Array.from({ length: n }, (_, i) => i / rate_hz);
    const thin = (column: Float64Array): Float64Array => {
      const smooth = filterForwardBackward(sections, column);
      let j = 0;
      return time_s.map((t) => {
        while (j < block.time_s.length - 2 && block.time_s[j + 1] <= t) j++;
        const share = (t - block.time_s[j]) / (block.time_s[j + 1] - block.time_s[j]);
        return smooth[j] + (smooth[j + 1] - smooth[j]) * share;
      });
    };
    return {
      ...block,
      sampling_rate_hz: rate_hz,
      time_s,
      acc_mps2: eachAxis(block.acc_mps2, thin),
      gyr_radps: block.gyr_radps && eachAxis(block.gyr_radps, thin),
    };
  };
}

/** Acceleration cut off at the given range. */
export function clippedAt(range_g: number): Change {
  const top = range_g * STANDARD_GRAVITY_MPS2;
  return (block) => ({
    ...block,
    acc_range_mps2: top,
    acc_mps2: eachAxis(block.acc_mps2, (column) => column.map((v) => Math.min(top, Math.max(-top, v)))),
  });
}

export const withoutGyroscope: Change = (block) => ({ ...block, gyr_radps: null, gyr_range_radps: null });

/** Loses packets of the given length until about the given share is gone. */
export function losing(share: number, packet: number): Change {
  return (block, index) => {
    const random = makeRandom(41 + index);
    const keep: number[] = [];
    const n = block.time_s.length;
    for (let i = 0; i < n; i += packet) {
      const lost = i > 0 && i + packet < n && random.uniform(0, 1) < share;
      if (!lost) for (let j = i; j < Math.min(n, i + packet); j++) keep.push(j);
    }
    const gaps: Gap[] = [];
    for (let j = 1; j < keep.length; j++) {
      const missing = keep[j] - keep[j - 1] - 1;
      if (missing > 0) {
        gaps.push({ start_s: block.time_s[keep[j - 1]], end_s: block.time_s[keep[j]], lost_samples: missing });
      }
    }
    const take = (column: Float64Array) => Float64Array.from(keep, (i) => column[i]);
    return {
      ...block,
      time_s: take(block.time_s),
      acc_mps2: eachAxis(block.acc_mps2, take),
      gyr_radps: block.gyr_radps && eachAxis(block.gyr_radps, take),
      gaps,
    };
  };
}

/** The sensor strapped on at another angle. */
export function turned(seed: number): Change {
  return (block, index) => {
    const m = randomRotation(makeRandom(seed + index));
    const turn = ({ x, y, z }: AxisColumns): AxisColumns => {
      const row = (r: number[]) => x.map((v, i) => r[0] * v + r[1] * y[i] + r[2] * z[i]);
      return { x: row(m[0]), y: row(m[1]), z: row(m[2]) };
    };
    return { ...block, acc_mps2: turn(block.acc_mps2), gyr_radps: block.gyr_radps && turn(block.gyr_radps) };
  };
}

export const VARIANTS: Record<string, Change> = {
  '400 Hz': resampled(400),
  '200 Hz': resampled(200),
  '100 Hz': resampled(100),
  '16 g': clippedAt(16),
  '8 g': clippedAt(8),
  'no gyroscope': withoutGyroscope,
  '5 % lost': losing(0.05, 10),
  turned: turned(7),
};

export function vary(base: ValidationCase, variant: string): ValidationCase {
  const sensors = base.sensors.map((sensor, i) => ({ ...sensor, samples: VARIANTS[variant](sensor.samples, i) }));
  return {
    ...base,
    variant,
    sensors,
    rate_hz: sensors[0].samples.sampling_rate_hz,
    has_gyroscope: sensors[0].samples.gyr_radps !== null,
  };
}

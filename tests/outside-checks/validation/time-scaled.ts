/**
 * A recording of a jog played faster: the same shapes of real feet at the pace of a sprint. Played s times faster, rates grow
 * by s and accelerations without gravity by s squared. Real runners do not scale like that, but no simulator is involved:
 * a second opinion about sprints.
 */
import type { SampleBlock } from '../../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import type { ValidationCase } from './validation-case.ts';

/**
 * Seconds of the moving mean that finds 'up': several strides, over which the body's own acceleration cancels. Taken three
 * times over, or what a window of no whole number of strides leaves would sway with the stride, and be scaled with it.
 */
const UP_WINDOW_S = 2;
const UP_PASSES = 3;

export function timeScaled(test: ValidationCase, scale: number): ValidationCase {
  return {
    ...test,
    variant: `${scale} times faster`,
    rate_hz: test.rate_hz * scale,
    course: { ...test.course, belt_speed_mps: test.course.belt_speed_mps && test.course.belt_speed_mps * scale },
    sensors: test.sensors.map((sensor) => ({ ...sensor, samples: faster(sensor.samples, scale) })),
    reference: test.reference.map((contact) => ({
      ...contact,
      touchdown_s: contact.touchdown_s / scale,
      toe_off_s: contact.toe_off_s / scale,
      speed_mps: contact.speed_mps && contact.speed_mps * scale,
    })),
  };
}

function faster(block: SampleBlock, scale: number): SampleBlock {
  const { time_s, acc_mps2, gyr_radps } = block;
  if (!gyr_radps) throw new Error('Without a gyroscope gravity cannot be told from motion.');
  const n = time_s.length;
  // Orientation by integration; 'up' is the mean specific force over some strides, in axes that do not turn.
  const turns: number[][] = [[1, 0, 0, 0, 1, 0, 0, 0, 1]];
  for (let i = 1; i < n; i++) {
    const dt = time_s[i] - time_s[i - 1];
    const half = (axis: 'x' | 'y' | 'z') => ((gyr_radps[axis][i] + gyr_radps[axis][i - 1]) / 2) * dt;
    turns.push(times(turns[i - 1], rotationBy(half('x'), half('y'), half('z'))));
  }
  let mean: Float64Array[] = [0, 1, 2].map((row) =>
    Float64Array.from(
      { length: n },
      (_, i) =>
        turns[i][3 * row] * acc_mps2.x[i] +
        turns[i][3 * row + 1] * acc_mps2.y[i] +
        turns[i][3 * row + 2] * acc_mps2.z[i],
    ),
  );
  const half = Math.round((UP_WINDOW_S / 2) * block.sampling_rate_hz);
  for (let pass = 0; pass < UP_PASSES; pass++) mean = mean.map((column) => movingMean(column, half));
  const out = { x: new Float64Array(n), y: new Float64Array(n), z: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    const here = mean.map((column) => column[i]);
    const length = Math.hypot(...here);
    (['x', 'y', 'z'] as const).forEach((axis, column) => {
      const r = turns[i];
      const up = (r[column] * here[0] + r[3 + column] * here[1] + r[6 + column] * here[2]) / length;
      const gravity = STANDARD_GRAVITY_MPS2 * up;
      out[axis][i] = (acc_mps2[axis][i] - gravity) * scale * scale + gravity;
    });
  }
  const quick = (column: Float64Array) => column.map((v) => v * scale);
  return {
    ...block,
    sampling_rate_hz: block.sampling_rate_hz * scale,
    time_s: time_s.map((t) => t / scale),
    acc_mps2: out,
    gyr_radps: { x: quick(gyr_radps.x), y: quick(gyr_radps.y), z: quick(gyr_radps.z) },
    acc_range_mps2: null,
    gyr_range_radps: null,
  };
}

function movingMean(column: Float64Array, half: number): Float64Array {
  const sums = new Float64Array(column.length + 1);
  column.forEach((value, i) => {
    sums[i + 1] = sums[i] + value;
  });
  return column.map((_, i) => {
    const [a, b] = [Math.max(0, i - half), Math.min(column.length, i + half + 1)];
    return (sums[b] - sums[a]) / (b - a);
  });
}

/** Rodrigues' rotation by a small rotation vector, rows first. */
function rotationBy(x: number, y: number, z: number): number[] {
  const angle = Math.hypot(x, y, z);
  const a = angle < 1e-9 ? 1 : Math.sin(angle) / angle;
  const b = angle < 1e-9 ? 0.5 : (1 - Math.cos(angle)) / (angle * angle);
  const c = Math.cos(angle);
  return [
    c + b * x * x,
    b * x * y - a * z,
    b * x * z + a * y,
    b * x * y + a * z,
    c + b * y * y,
    b * y * z - a * x,
    b * x * z - a * y,
    b * y * z + a * x,
    c + b * z * z,
  ];
}

function times(p: number[], q: number[]): number[] {
  const out = new Array<number>(9).fill(0);
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) out[3 * i + j] = p[3 * i] * q[j] + p[3 * i + 1] * q[3 + j] + p[3 * i + 2] * q[6 + j];
  }
  return out;
}

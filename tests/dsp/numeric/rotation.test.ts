import { describe, expect, it } from 'vitest';
import {
  at,
  cross,
  dot,
  integrateRotation,
  length,
  scaled,
  timeMean,
  turn,
  turnBack,
  turnColumns,
  unit,
  type Vector3,
  without,
} from '../../../dsp/numeric/rotation.ts';
import type { AxisColumns } from '../../../shared/sample-block.ts';

const RATE = 200;
const columns = (n: number, f: (i: number) => Vector3): AxisColumns => {
  const rows = Array.from({ length: n }, (_, i) => f(i));
  return {
    x: Float64Array.from(rows, (v) => v[0]),
    y: Float64Array.from(rows, (v) => v[1]),
    z: Float64Array.from(rows, (v) => v[2]),
  };
};
const close = (found: Vector3, wanted: Vector3, digits = 12) => {
  for (let k = 0; k < 3; k++) expect(found[k]).toBeCloseTo(wanted[k], digits);
};

/** Rodrigues' formula: v turned about a unit axis by an angle. */
function turned(v: Vector3, axis: Vector3, angle: number): Vector3 {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const side = cross(axis, v);
  const along = dot(axis, v) * (1 - c);
  return [
    v[0] * c + side[0] * s + axis[0] * along,
    v[1] * c + side[1] * s + axis[1] * along,
    v[2] * c + side[2] * s + axis[2] * along,
  ];
}

describe('vectors', () => {
  it('by hand', () => {
    expect(dot([1, 2, 3], [4, 5, 6])).toBe(32);
    expect(cross([1, 2, 3], [4, 5, 6])).toEqual([-3, 6, -3]);
    expect(scaled([1, -2, 3], 2)).toEqual([2, -4, 6]);
    expect(length([2, 3, 6])).toBe(7);
    close(unit([0, 3, 4]), [0, 0.6, 0.8]);
    expect(unit([0, 0, 0])).toEqual([0, 0, 0]);
    close(without([1, 2, 3], [0, 0, 1]), [1, 2, 0]);
  });
});

describe('integrateRotation', () => {
  const axis = unit([1, -2, 0.5]);
  const radps = 3;
  const orientations = integrateRotation(
    columns(100, () => scaled(axis, radps)),
    RATE,
    10,
    90,
  );

  it('is exact for a constant rate about any axis: a vector seen there, in the axes at the start', () => {
    for (const index of [10, 11, 40, 90]) {
      const v: Vector3 = [0.3, 1, -0.7];
      close(turn(orientations, index, v), turned(v, axis, (radps * (index - 10)) / RATE));
      close(turnBack(orientations, index, turn(orientations, index, v)), v);
    }
    expect(orientations.quaternions.length).toBe(4 * 81);
  });

  it('takes the mean of the rates at both ends of an interval', () => {
    const rates = columns(3, (i) => [0, 0, [0, 1, 4][i]]);
    const made = integrateRotation(rates, 1, 0, 2);
    close(turn(made, 1, [1, 0, 0]), [Math.cos(0.5), Math.sin(0.5), 0]);
    close(turn(made, 2, [1, 0, 0]), [Math.cos(3), Math.sin(3), 0]);
  });

  it('puts turns about different axes together in order', () => {
    // A quarter turn about x, then one about the sensor's own new z.
    const quarter = (Math.PI / 2) * 10;
    const rates = columns(21, (i) =>
      i < 10 ? [quarter / 10, 0, 0] : i > 10 ? [0, 0, quarter / 10] : [quarter / 20, 0, quarter / 20],
    );
    const made = integrateRotation(rates, 10, 0, 20);
    const long = made.quaternions.subarray(80, 84);
    expect(Math.hypot(...long)).toBeCloseTo(1, 12);
    // Fine steps of pure turns before and after the change: the sensor's x ends along the first z, nearly.
    const x = turn(made, 20, [1, 0, 0]);
    expect(x[2]).toBeGreaterThan(0.95);
  });

  it('does nothing where nothing turns', () => {
    const still = integrateRotation(
      columns(5, () => [0, 0, 0]),
      RATE,
      0,
      4,
    );
    close(turn(still, 4, [1, 2, 3]), [1, 2, 3]);
  });

  it('turnColumns turns every sample as turn does, from the first on', () => {
    const vectors = columns(100, (i) => [i, 1, -i / 2]);
    const out = turnColumns(orientations, vectors);
    expect(out.x.length).toBe(81);
    for (const k of [0, 7, 80]) close(at(out, k), turn(orientations, 10 + k, at(vectors, 10 + k)), 9);
  });
});

describe('timeMean', () => {
  it('counts the first and the last sample half', () => {
    close(timeMean(columns(3, (i) => [[0, 3, 1][i], i, 5])), [1.75, 1, 5]);
  });
});

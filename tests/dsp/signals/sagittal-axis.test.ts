import { describe, expect, it } from 'vitest';
import { planeBasis } from '../../../dsp/signals/forward-sign.ts';
import { principalEigenvector, project, sagittalAxis } from '../../../dsp/signals/sagittal-axis.ts';
import type { Vector3 } from '../../../dsp/numeric/rotation.ts';

/** Rotation about an axis by an angle (Rodrigues). */
function turn([x, y, z]: Vector3, [a, b, c]: Vector3, angle: number): Vector3 {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const dot = (a * x + b * y + c * z) * (1 - cos);
  return [
    x * cos + (b * z - c * y) * sin + a * dot,
    y * cos + (c * x - a * z) * sin + b * dot,
    z * cos + (a * y - b * x) * sin + c * dot,
  ];
}

function columns(vectors: Vector3[]) {
  return {
    x: Float64Array.from(vectors.map((v) => v[0])),
    y: Float64Array.from(vectors.map((v) => v[1])),
    z: Float64Array.from(vectors.map((v) => v[2])),
  };
}

const swing: Vector3[] = Array.from({ length: 500 }, (_, i) => [
  0.4 * Math.cos(i / 9),
  8 * Math.sin(i / 20),
  0.8 * Math.sin(i / 7),
]);

describe('sagittalAxis', () => {
  it('is the axis that carries most of the rotation', () => {
    const found = sagittalAxis(columns(swing), 0.5);
    expect(Math.abs(found!.axis[1])).toBeGreaterThan(0.999);
    expect(found!.share).toBeGreaterThan(0.95);
  });

  it('turns with the sensor, so that the rate about it stays the same', () => {
    const about: Vector3 = [0.48, -0.6, 0.64];
    const turned = swing.map((v) => turn(v, about, 2.1));
    const before = sagittalAxis(columns(swing), 0.5)!;
    const after = sagittalAxis(columns(turned), 0.5)!;
    const rate = project(columns(swing), before.axis);
    const rateTurned = project(columns(turned), after.axis);
    const sign = Math.sign(rate[30] * rateTurned[30]);
    for (let i = 0; i < rate.length; i++) expect(sign * rateTurned[i]).toBeCloseTo(rate[i], 9);
  });

  it('is null where nothing rotates', () => {
    expect(sagittalAxis(columns(swing.map(() => [0, 0, 0])), 0.5)).toBeNull();
  });

  it('principalEigenvector of a diagonal matrix is the axis of the largest entry', () => {
    expect(principalEigenvector([2, 0, 0, 5, 0, 3]).map(Math.abs)).toEqual([0, 1, 0]);
  });

  it('planeBasis is right-handed and perpendicular', () => {
    const axis: Vector3 = [2 / 3, -1 / 3, 2 / 3];
    const [u, v] = planeBasis(axis);
    const cross = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    cross.forEach((value, i) => {
      expect(value).toBeCloseTo(axis[i], 12);
    });
  });
});

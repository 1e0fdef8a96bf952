import { describe, expect, it } from 'vitest';
import { makeRandom } from '../../../seeds/random.ts';
import { randomRotation, type SegmentMotion, segmentReadings } from '../../../seeds/sensor/sensor-model.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';

const RATE = 2000;
const N = 1000;

function motion(change: Partial<Record<'x' | 'z' | 'roll' | 'pitch' | 'yaw', (t: number) => number>>): SegmentMotion {
  const column = (f: (t: number) => number = () => 0) => Float64Array.from({ length: N }, (_, i) => f(i / RATE));
  return {
    start_s: 0,
    rate_hz: RATE,
    x: column(change.x),
    y: column(),
    z: column(change.z),
    roll: column(change.roll),
    pitch: column(change.pitch),
    yaw: column(change.yaw),
  };
}

describe('segmentReadings', () => {
  it('reads one gravity upward at rest and nothing in free fall', () => {
    const still = segmentReadings(motion({}), [0.05, 0, 0.1]);
    expect(still.acc.map((column) => column[500])).toEqual([0, 0, expect.closeTo(STANDARD_GRAVITY_MPS2, 6)]);
    const falling = segmentReadings(motion({ z: (t) => -0.5 * STANDARD_GRAVITY_MPS2 * t * t }), [0, 0, 0]);
    expect(falling.acc[2][500]).toBeCloseTo(0, 4);
  });

  it('reads the centripetal acceleration of a steady turn at its distance from the axis', () => {
    // Rigid-body kinematics: w^2 r towards the axis; here w = 20 rad/s about +y, r = 0.1 m along x.
    const { acc, gyr } = segmentReadings(motion({ pitch: (t) => 20 * t }), [0.1, 0, 0]);
    const i = 500;
    const pitch = (20 * i) / RATE;
    expect(gyr[1][i]).toBeCloseTo(20, 6);
    expect(acc[0][i] + STANDARD_GRAVITY_MPS2 * Math.sin(pitch)).toBeCloseTo(-400 * 0.1, 2);
    expect(acc[2][i]).toBeCloseTo(STANDARD_GRAVITY_MPS2 * Math.cos(pitch), 2);
  });

  it('adds the tangential acceleration of a turn that quickens', () => {
    // Angular acceleration 300 rad/s2: 300 * 0.1 m across the arm, downward for a nose-down turn about +y.
    const { acc } = segmentReadings(motion({ pitch: (t) => 150 * (t - 0.25) ** 2 }), [0.1, 0, 0]);
    expect(acc[2][500] - STANDARD_GRAVITY_MPS2).toBeCloseTo(-30, 2);
  });

  it('turns roll and yaw rates into body axes when the segment is pitched', () => {
    const { gyr } = segmentReadings(motion({ pitch: () => Math.PI / 2 - 0.2, yaw: (t) => 3 * t }), [0, 0, 0]);
    expect(gyr[0][500]).toBeCloseTo(-3 * Math.sin(Math.PI / 2 - 0.2), 6);
    expect(gyr[2][500]).toBeCloseTo(3 * Math.cos(Math.PI / 2 - 0.2), 6);
  });
});

describe('randomRotation', () => {
  it('is a proper rotation', () => {
    const random = makeRandom(4);
    for (let k = 0; k < 20; k++) {
      const m = randomRotation(random);
      for (const [i, j] of [
        [0, 0],
        [0, 1],
        [1, 2],
        [2, 2],
      ]) {
        const dot = m[i].reduce((sum, v, c) => sum + v * m[j][c], 0);
        expect(dot).toBeCloseTo(i === j ? 1 : 0, 10);
      }
      const determinant =
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
        m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
        m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
      expect(determinant).toBeCloseTo(1, 10);
    }
  });
});

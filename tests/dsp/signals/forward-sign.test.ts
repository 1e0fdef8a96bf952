import { describe, expect, it } from 'vitest';
import { forwardSign, planeBasis } from '../../../dsp/signals/forward-sign.ts';
import { cross, type Vector3 } from '../../../dsp/numeric/rotation.ts';

const HZ = 50;
const G = 9.81;

interface Leg {
  /** Amplitude of the swing, rad; 3 rad/s of its rate a radian. */
  swing: number;
  /** How high the segment is while it goes forward, m; below 0 it goes forward low. */
  height: number;
}

/**
 * A segment that swings in a plane (x forward, y up), going forward by 3 m/s and back, and up and down with it: accelerations by
 * differentiating the closed-form path, seen by a sensor that turns with the segment about z.
 */
function swinging(seconds: number, leg: (t: number) => Leg) {
  const n = seconds * HZ;
  const w = 2 * Math.PI * 1.5;
  const [x, y, rate] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  for (let i = 0; i < n; i++) {
    const t = i / HZ;
    const { swing, height } = leg(t);
    const angle = swing * Math.sin(w * t);
    rate[i] = swing * w * Math.cos(w * t);
    const forward = 3 * w * Math.cos(w * t);
    const up = G - height * w * w * Math.sin(w * t);
    x[i] = Math.cos(angle) * forward + Math.sin(angle) * up;
    y[i] = -Math.sin(angle) * forward + Math.cos(angle) * up;
  }
  return { acc: { x, y, z: new Float64Array(n) }, rate };
}

const Z: Vector3 = [0, 0, 1];
const usual = (): Leg => ({ swing: 0.6, height: 0.15 });
const signOf = ({ acc, rate }: ReturnType<typeof swinging>, axis = Z) => forwardSign(acc, rate, axis, HZ, 2, 1);

describe('forwardSign', () => {
  it('is positive where a leg goes forward while it is high, and turns with the axis', () => {
    const made = swinging(8, usual);
    expect(signOf(made)).toBe(1);
    expect(signOf({ ...made, rate: made.rate.map((v) => -v) }, [0, 0, -1])).toBe(-1);
    expect(signOf(swinging(8, () => ({ swing: 0.6, height: -0.15 })))).toBe(-1);
  });

  it('is the same however the sensor lies about the axis', () => {
    const { acc, rate } = swinging(8, usual);
    for (const turn of [0.7, 2, -1.9]) {
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      const x = acc.x.map((v, i) => c * v - s * acc.y[i]);
      const y = acc.y.map((v, i) => s * acc.x[i] + c * v);
      expect(signOf({ acc: { ...acc, x, y }, rate })).toBe(1);
    }
  });

  it('does not ask windows without running, and passes over those with a gap', () => {
    // Standing about for longer than the run, going forward low: slower than what counts.
    const slow = swinging(20, (t) => (t < 12 ? { swing: 0.02, height: -0.15 } : usual()));
    expect(signOf(slow)).toBe(1);
    const broken = swinging(10, usual);
    broken.acc.x.fill(Number.NaN, 100, 110);
    expect(signOf(broken)).toBe(1);
    // Nothing to go by at all.
    expect(signOf(swinging(8, () => ({ swing: 0, height: 0 })))).toBe(1);
  });

  it('goes by most of the windows', () => {
    expect(signOf(swinging(20, (t) => (t < 14 ? usual() : { swing: 0.6, height: -0.15 })))).toBe(1);
    expect(signOf(swinging(20, (t) => (t < 6 ? usual() : { swing: 0.6, height: -0.15 })))).toBe(-1);
  });
});

describe('planeBasis', () => {
  it.each([[[0, 0, 1]], [[1, 0, 0]], [[0, 1, 0]], [[0.48, -0.6, 0.64]]] as [Vector3][])('of %s', (axis) => {
    const [one, other] = planeBasis(axis);
    expect(Math.hypot(...one)).toBeCloseTo(1, 12);
    cross(one, other).forEach((v, k) => {
      expect(v).toBeCloseTo(axis[k], 12);
    });
  });
});

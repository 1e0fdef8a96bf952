import { describe, expect, it } from 'vitest';
import type { StrideFrame } from '../../../../dsp/events/stride-frame.ts';
import { leverArm, pushOffMotion, toesLeave } from '../../../../dsp/events/gyroscope/toe-speed.ts';
import { STANDARD_GRAVITY_MPS2 as G } from '../../../../shared/units.ts';

const HZ = 2000;
const LEVER = 0.14;
const LEAVES = 600;

/**
 * A foot that rests until sample 200, then turns about a fixed toe (rate a - a cos), the sensor 0.14 m behind it; from
 * sample 600 on the toe is pulled forward with 60 m/s2. Accelerations by differentiating the closed-form place.
 */
function turningFoot(): StrideFrame {
  const n = 1000;
  const at = (i: number) => Math.max(0, (i - 200) / 450);
  const angleAt = (i: number) => -1.1 * (at(i) - Math.sin(2 * Math.PI * Math.min(1, at(i))) / (2 * Math.PI));
  const toe = (i: number) => (i > LEAVES ? 30 * ((i - LEAVES) / HZ) ** 2 : 0);
  const x = (i: number) => toe(i) - LEVER * Math.cos(angleAt(i));
  const y = (i: number) => -LEVER * Math.sin(angleAt(i));
  const second = (f: (i: number) => number, i: number) => (f(i + 1) - 2 * f(i) + f(i - 1)) * HZ * HZ;
  const column = (f: (i: number) => number) => Float64Array.from({ length: n }, (_, i) => f(i));
  return {
    first: 0,
    rate_hz: HZ,
    stride_s: n / HZ,
    from: 0,
    to: n - 1,
    rate: column((i) => ((angleAt(i + 1) - angleAt(i - 1)) / 2) * HZ),
    up: column((i) => second(y, i) + G),
    forward: column((i) => second(x, i)),
    along: column(() => G),
    across: column(() => G),
    norm: column(() => G),
    angle: column(angleAt),
    mean_up: G,
  };
}

describe('toe speed', () => {
  const frame = turningFoot();
  const motion = pushOffMotion(frame, 190, 425, { push_from_part: 0.3, push_to_part: 0.85 })!;

  it('leverArm finds the distance from the resting toe to the sensor', () => {
    const [along, across] = leverArm(motion)!;
    expect(along).toBeCloseTo(-LEVER, 3);
    expect(across).toBeCloseTo(0, 3);
  });

  it('toesLeave comes after the toe starts to move, and later for a higher share', () => {
    const lever = leverArm(motion)!;
    const low = toesLeave(motion, lever, 0.2, LEVER, 900)!;
    const high = toesLeave(motion, lever, 0.8, LEVER, 900)!;
    expect(low).toBeGreaterThan(LEAVES);
    expect(high).toBeGreaterThan(low);
  });

  it('is null for a push-off that does not lie within the stride', () => {
    expect(pushOffMotion(frame, 500, 400, { push_from_part: 0.3, push_to_part: 0.85 })).toBeNull();
  });
});

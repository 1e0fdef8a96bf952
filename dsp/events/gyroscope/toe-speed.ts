import { firstCrossing } from '../../numeric/peaks.ts';
import type { StrideFrame } from '../stride-frame.ts';

/**
 * While the foot pushes off it turns about a point near the toes that rests on the ground. The sensor's velocity is then
 * the rotation rate times its lever arm to that point; what remains of the velocity is the speed of the toes, which
 * leaves zero at toe-off. The lever arm is a constant of the shoe and sensor, found from the push-offs themselves.
 * Complex numbers stand for the plane: real part forward, imaginary part up.
 */
export interface PushOffMotion {
  /** Sensor velocity from mid-contact on, m/s. */
  vx: Float64Array;
  vy: Float64Array;
  /** Velocity per metre of lever arm: i * rate * exp(i * angle). */
  bx: Float64Array;
  by: Float64Array;
  /** Fastest heel rise, rad/s. */
  push_rate: number;
  /** The push-off, where the lever arm is fitted: indices of the frame. */
  push_from: number;
  push_to: number;
}

/**
 * Integrates one stride from the rest at mid-contact.
 * @param mid index of mid-contact
 * @param turn index of the fastest heel rise
 * @param parts of the fastest heel rise, between which the lever arm is fitted
 * @returns null where mid-contact and push-off do not lie within the stride, in this order
 */
export function pushOffMotion(
  frame: StrideFrame,
  mid: number,
  turn: number,
  parts: { push_from_part: number; push_to_part: number },
): PushOffMotion | null {
  const { up, forward, rate, angle, rate_hz, mean_up, from, to } = frame;
  const n = up.length;
  if (!(mid > from && turn > mid && turn < to)) return null;
  const vx = new Float64Array(n);
  const vy = new Float64Array(n);
  for (let i = mid + 1; i < n; i++) {
    vx[i] = vx[i - 1] + (forward[i] + forward[i - 1]) / (2 * rate_hz);
    vy[i] = vy[i - 1] + ((up[i] + up[i - 1]) / 2 - mean_up) / rate_hz;
  }
  for (let i = mid - 1; i >= 0; i--) {
    vx[i] = vx[i + 1] - (forward[i] + forward[i + 1]) / (2 * rate_hz);
    vy[i] = vy[i + 1] - ((up[i] + up[i + 1]) / 2 - mean_up) / rate_hz;
  }
  const bx = new Float64Array(n);
  const by = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const turned = angle[i] - angle[mid];
    bx[i] = -rate[i] * Math.sin(turned);
    by[i] = rate[i] * Math.cos(turned);
  }
  const least = rate[Math.round(turn)];
  let push_from = mid;
  while (push_from < turn && rate[push_from] > parts.push_from_part * least) push_from++;
  let push_to = Math.round(turn);
  while (push_to > push_from && rate[push_to] < parts.push_to_part * least) push_to--;
  return { vx, vy, bx, by, push_rate: Math.abs(least), push_from, push_to };
}

/**
 * Lever arm (complex) of one push-off: least squares of velocity on rotation; null when too short.
 * @returns along and across the segment at mid-contact, m
 */
export function leverArm(m: PushOffMotion): [number, number] | null {
  if (m.push_to - m.push_from < 2) return null;
  let [re, im, power] = [0, 0, 0];
  for (let i = m.push_from; i <= m.push_to; i++) {
    re += m.bx[i] * m.vx[i] + m.by[i] * m.vy[i];
    im += m.bx[i] * m.vy[i] - m.by[i] * m.vx[i];
    power += m.bx[i] * m.bx[i] + m.by[i] * m.by[i];
  }
  return power > 0 ? [re / power, im / power] : null;
}

/**
 * Fractional index at which the toes' speed first reaches a share of the sensor's own speed about them at the fastest heel
 * rise; null when it does not. That speed is the rate times a lever arm, half the one that was found and half the usual one: a
 * sensor close to the toes turns more slowly about them, and the toes leave no sooner for that.
 * @param lever lever arm of the shoe, m
 * @param share of the sensor's own speed about the toes
 * @param usual_lever_m lever arm of a sensor on the instep
 * @param to where to stop looking, index of the frame
 * @returns index of the frame
 */
export function toesLeave(
  m: PushOffMotion,
  lever: [number, number],
  share: number,
  usual_lever_m: number,
  to: number,
): number | null {
  const speed = new Float64Array(m.vx.length);
  for (let i = m.push_from; i < to; i++) {
    const x = m.vx[i] - (m.bx[i] * lever[0] - m.by[i] * lever[1]);
    const y = m.vy[i] - (m.bx[i] * lever[1] + m.by[i] * lever[0]);
    speed[i] = Math.hypot(x, y);
  }
  const arm = (usual_lever_m + Math.hypot(lever[0], lever[1])) / 2;
  return firstCrossing(speed, m.push_to + 1, to, share * m.push_rate * arm, 'rising');
}

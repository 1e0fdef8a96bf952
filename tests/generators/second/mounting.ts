import type { Random } from './random.ts';
import type { SegmentMotion } from './segments.ts';
import type { Attachment, Six } from './sensor.ts';
import { eulerMatrix, lowPass } from './sensor.ts';
import type { Session } from './session.ts';
import type { Side } from './schedule.ts';

export type Mount = 'foot' | 'shank';
export type Place = 'instep' | 'heel' | 'lateral' | 'front';

/** Where on the segment a recording's sensors sit, and how far they are turned (rad about z, y, x). */
export function drawPlace(mount: Mount, r: Random): { place: Place; angles: number[] } {
  const place =
    mount === 'foot' ? r.pick(['instep', 'instep', 'heel'] as const) : r.pick(['lateral', 'front'] as const);
  const angles =
    mount === 'foot'
      ? [r.normal(0, 0.15), r.normal(place === 'instep' ? 0.35 : 0, 0.12), r.normal(0, 0.15)]
      : [r.between(-0.5, 0.5), r.normal(0, 0.08), r.normal(0, 0.08)];
  return { place, angles };
}

/** One sensor on its segment: position, direction, and the strap or soft tissue between them. */
export function drawAttachment(place: Place, angles: number[], side: Side, k: number, r: Random): Attachment {
  const sign = side === 'left' ? 1 : -1;
  const offsets: Record<Place, () => [number, number, number]> = {
    instep: () => [-0.06 * k + r.normal(0, 0.008), sign * r.normal(0, 0.006), 0.07 * k],
    heel: () => [-0.165 * k, sign * 0.032, 0.05 * k],
    lateral: () => [0.005, sign * 0.045, r.between(0.07, 0.13)],
    front: () => [0.045, -sign * 0.005, r.between(0.09, 0.15)],
  };
  const offset = offsets[place]();
  const soft = place === 'lateral' || place === 'front';
  return {
    offset,
    turn: rotation(
      angles.map((v) => v + r.normal(0, 0.06)),
      side === 'right' && r.next() < 0.5,
    ),
    frequency: soft ? r.between(16, 55) : r.between(35, 95),
    damping: r.between(0.15, 0.5),
    rocking: soft ? r.between(2e-4, 6e-4) : r.between(5e-5, 2e-4),
    rockingAxis: unit([r.normal(0, 0.5), 1, r.normal(0, 0.5)]),
  };
}

/**
 * The shoe lets go of the ground: a short push of 0.3 to 3 g along the segment's own axes about each toe-off of a run. When
 * it comes differs between people (over force plates peaks lay from 6 ms before to 15 ms after toe-off), little within one.
 */
export function addJolts(signals: Six, session: Session, side: Side, size: number, rate: number, r: Random): void {
  const usual = r.between(-0.01, 0.009);
  for (const c of session.contacts) {
    if (c.side !== side || c.phase === 'walking' || c.phase === 'standing') continue;
    const peak = size * r.between(0.3, 3) * 9.8 * Math.min(1, 0.3 + c.speed / 10);
    const length = r.between(0.005, 0.012);
    const lean = r.between(-0.8, 0.8);
    const start = c.toeOff + usual + r.normal(0, 0.0015);
    for (let i = Math.ceil(start * rate); i < (start + length) * rate; i++) {
      const pulse = peak * Math.sin((Math.PI * (i / rate - start)) / length) ** 2;
      signals[2][i] += pulse * Math.cos(lean);
      signals[0][i] += pulse * Math.sin(lean);
    }
  }
}

/** Zero-phase low-pass of a segment's motion, as the paths of camera markers are treated; Hz. */
export function smoothed(m: SegmentMotion, cutoff: number, rate: number): SegmentMotion {
  // Two passes of second order are 3 dB down at 0.802 of each one's cut-off.
  const once = (x: Float64Array) => lowPass(x, cutoff / 0.802, rate).reverse();
  const twice = (x: Float64Array) => once(once(x));
  return { x: twice(m.x), y: twice(m.y), z: twice(m.z), yaw: twice(m.yaw), pitch: twice(m.pitch), roll: twice(m.roll) };
}

function unit(v: [number, number, number]): [number, number, number] {
  const n = Math.hypot(...v);
  return [v[0] / n, v[1] / n, v[2] / n];
}

/** Rz Ry Rx, row-major; `flipped` turns the sensor upside down along the segment, as straps allow. */
function rotation([yaw, pitch, roll]: number[], flipped: boolean): number[] {
  const R = eulerMatrix(yaw, pitch, roll);
  return flipped ? R.map((v, i) => (i < 6 ? -v : v)) : R;
}

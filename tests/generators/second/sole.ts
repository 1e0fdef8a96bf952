/**
 * The shoe's sole as a convex curve that rolls on flat ground without slipping. Pitch (rad) is positive toe-down.
 * Foot frame: x to the toes, z up from the sole, origin under the ball of the foot. The curve is given by its radius of
 * curvature by pitch: small at the heel, very large where heel and ball both bear (the flat), 0.07-0.08 m from ball to toe tip.
 */
const step = (Math.PI / 180) * 0.01;
const low = -60;
const high = 130;
const count = Math.round((high - low) / 0.01) + 1;

export interface Sole {
  arc(pitch: number): number;
  x(pitch: number): number;
  z(pitch: number): number;
}

export function makeSole(scale: number, toeRadius: number): Sole {
  const radius = (p: number): number => {
    const deg = (p * 180) / Math.PI;
    const logistic = (x: number) => 1 / (1 + Math.exp(-x));
    const flat = (0.15 / (0.044 * Math.sqrt(2 * Math.PI))) * Math.exp(-0.5 * (deg / 2.5) ** 2);
    const toe = toeRadius * logistic((deg - 3) / 1.5) * (1 - 0.75 * logistic((deg - 58) / 6));
    return scale * (0.03 * (1 - logistic((deg - 3) / 1.5)) + toe + flat);
  };
  const arc = new Float64Array(count);
  const x = new Float64Array(count);
  const z = new Float64Array(count);
  const pitchAt = (i: number) => (low * Math.PI) / 180 + i * step;
  for (let i = 1; i < count; i++) {
    const m = pitchAt(i - 0.5);
    const r = radius(m) * step;
    arc[i] = (arc[i - 1] as number) + r;
    x[i] = (x[i - 1] as number) + r * Math.cos(m);
    z[i] = (z[i - 1] as number) + r * Math.sin(m);
  }
  const ball = Math.round((8 - low) / 0.01);
  const shift = (table: Float64Array) => {
    const at = table[ball] as number;
    for (let i = 0; i < count; i++) table[i] = (table[i] as number) - at;
  };
  shift(arc);
  shift(x);
  shift(z);
  const look =
    (table: Float64Array, slope: (p: number) => number) =>
    (pitch: number): number => {
      const f = (pitch - pitchAt(0)) / step;
      const i = Math.max(0, Math.min(count - 2, Math.floor(f)));
      const s = f - i;
      const a = table[i] as number;
      const b = table[i + 1] as number;
      const da = slope(pitchAt(i)) * step;
      const db = slope(pitchAt(i + 1)) * step;
      return a + s * (da + s * (3 * (b - a) - 2 * da - db + s * (da + db - 2 * (b - a))));
    };
  return {
    arc: look(arc, radius),
    x: look(x, (p) => radius(p) * Math.cos(p)),
    z: look(z, (p) => radius(p) * Math.sin(p)),
  };
}

import type { Random } from './random.ts';
import type { SegmentMotion } from './segments.ts';

/** Six channels on an even grid: specific force (m/s2) and angular velocity (rad/s) in the sensor's frame. */
export type Six = [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
/** How a sensor sits on its segment. */
export interface Attachment {
  /** From the segment's origin, in its frame, m. */
  offset: [number, number, number];
  /** From segment to sensor axes, 3 x 3, row-major. */
  turn: number[];
  /** Resonance of strap or soft tissue, Hz, and its damping as part of the critical one. */
  frequency: number;
  damping: number;
  /** Tilt under a slow load, rad a m/s2, about `rockingAxis`. */
  rocking: number;
  rockingAxis: [number, number, number];
}

/** A sensor chip: samples a second, ranges (g, deg/s), noise density (g, deg/s a root Hz), SD of bias (g, deg/s) and of scale. */
export interface Chip {
  rate: number;
  accRange: number;
  gyrRange: number;
  bits: number;
  accNoise: number;
  gyrNoise: number;
  accBias: number;
  gyrBias: number;
  scale: number;
  /** Of the anti-alias filter, Hz. */
  cutoff: number;
  /** SD of the sampling instants, s. */
  jitter: number;
}

/** What a sensor fixed rigidly at `offset` would read (chain of rotations Rz Ry Rx; central differences on the fine grid). */
export function rigidSignals(m: SegmentMotion, offset: [number, number, number], rate: number): Six {
  const n = m.x.length;
  const out = Array.from({ length: 6 }, () => new Float64Array(n)) as unknown as Six;
  const p = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  const rotations = new Float64Array(9 * n);
  for (let i = 0; i < n; i++) {
    const R = eulerMatrix(m.yaw[i], m.pitch[i], m.roll[i]);
    rotations.set(R, 9 * i);
    const origin = [m.x[i], m.y[i], m.z[i]];
    for (let k = 0; k < 3; k++)
      p[k][i] = origin[k] + R[3 * k] * offset[0] + R[3 * k + 1] * offset[1] + R[3 * k + 2] * offset[2];
  }
  for (let i = 1; i + 1 < n; i++) {
    const force = [0, 1, 2].map(
      (k) => (p[k][i + 1] - 2 * p[k][i] + p[k][i - 1]) * rate * rate + (k === 2 ? 9.80665 : 0),
    );
    for (let k = 0; k < 3; k++)
      out[k][i] =
        rotations[9 * i + k] * force[0] + rotations[9 * i + 3 + k] * force[1] + rotations[9 * i + 6 + k] * force[2];
    const half = rate / 2;
    const dy = (m.yaw[i + 1] - m.yaw[i - 1]) * half;
    const dp = (m.pitch[i + 1] - m.pitch[i - 1]) * half;
    const dr = (m.roll[i + 1] - m.roll[i - 1]) * half;
    const cp = Math.cos(m.pitch[i]);
    const sp = Math.sin(m.pitch[i]);
    const cr = Math.cos(m.roll[i]);
    const sr = Math.sin(m.roll[i]);
    out[3][i] = dr - dy * sp;
    out[4][i] = dp * cr + dy * sr * cp;
    out[5][i] = -dp * sr + dy * cr * cp;
  }
  for (const channel of out) {
    channel[0] = channel[1];
    channel[n - 1] = channel[n - 2];
  }
  return out;
}

/** Rz(yaw) Ry(pitch) Rx(roll), row-major. */
export function eulerMatrix(yaw: number, pitch: number, roll: number): number[] {
  const [cy, sy] = [Math.cos(yaw), Math.sin(yaw)];
  const [cp, sp] = [Math.cos(pitch), Math.sin(pitch)];
  const [cr, sr] = [Math.cos(roll), Math.sin(roll)];
  return [
    ...[cy * cp, cy * sp * sr - sy * cr, cy * sp * cr + sy * sr],
    ...[sy * cp, sy * sp * sr + cy * cr, sy * sp * cr - cy * sr],
    ...[-sp, cp * sr, cp * cr],
  ];
}

/** Second-order section run over a signal (direct form, started in its steady state). */
function section(x: Float64Array, b: number[], a: number[]): Float64Array {
  const y = new Float64Array(x.length);
  const gain = (b[0] + b[1] + b[2]) / (1 + a[0] + a[1]);
  let x1 = x[0];
  let x2 = x[0];
  let y1 = x[0] * gain;
  let y2 = y1;
  for (let i = 0; i < x.length; i++) {
    const v = b[0] * x[i] + b[1] * x1 + b[2] * x2 - a[0] * y1 - a[1] * y2;
    x2 = x1;
    x1 = x[i];
    y2 = y1;
    y1 = v;
    y[i] = v;
  }
  return y;
}
/** (c1 s + c0) / (s2 + 2 damping w s + w2) by the bilinear transform. */
function bilinear(c1: number, c0: number, w: number, damping: number, rate: number): [number[], number[]] {
  const k = 2 * rate;
  const a0 = k * k + 2 * damping * w * k + w * w;
  return [
    [(c1 * k + c0) / a0, (2 * c0) / a0, (c0 - c1 * k) / a0],
    [(2 * w * w - 2 * k * k) / a0, (k * k - 2 * damping * w * k + w * w) / a0],
  ];
}
export function lowPass(x: Float64Array, cutoff: number, rate: number): Float64Array {
  const w = 2 * rate * Math.tan((Math.PI * cutoff) / rate);
  const [b, a] = bilinear(0, w * w, w, Math.SQRT1_2, rate);
  return section(x, b, a);
}

/** The strap or soft tissue between segment and sensor: a damped oscillator in each direction, and rocking that shows in the gyroscope. */
export function attach(signals: Six, at: Attachment, rate: number): Six {
  const w = 2 * Math.PI * at.frequency;
  const [b, a] = bilinear(2 * at.damping * w, w * w, w, at.damping, rate);
  const force = [0, 1, 2].map((k) => section(signals[k], b, a));
  const [rb, ra] = bilinear(0, w * w, w, at.damping, rate);
  const load = new Float64Array(signals[0].length);
  for (let i = 0; i < load.length; i++) load[i] = at.rocking * (0.4 * signals[0][i] + 0.9 * (signals[2][i] - 9.8));
  const angle = section(load, rb, ra);
  const gyro = [3, 4, 5].map((k) => Float64Array.from(signals[k]));
  for (let i = 1; i + 1 < angle.length; i++) {
    const speed = ((angle[i + 1] - angle[i - 1]) * rate) / 2;
    const change = (angle[i + 1] - 2 * angle[i] + angle[i - 1]) * rate * rate;
    for (let k = 0; k < 3; k++) {
      gyro[k][i] = gyro[k][i] + at.rockingAxis[k] * speed;
      force[k][i] = force[k][i] + 0.012 * at.rockingAxis[(k + 1) % 3] * change;
    }
  }
  const all = [...force, ...gyro];
  return [0, 1, 2, 3, 4, 5].map((i) => {
    const g = i < 3 ? 0 : 3;
    const k = i - g;
    const T = at.turn;
    const y = new Float64Array(load.length);
    for (let j = 0; j < y.length; j++)
      y[j] = T[3 * k] * all[g][j] + T[3 * k + 1] * all[g + 1][j] + T[3 * k + 2] * all[g + 2][j];
    return y;
  }) as unknown as Six;
}

/** The chip: anti-alias low-pass (its delay at low frequency taken out), sampling with jitter, bias, scale, noise, range, steps. */
export function record(
  signals: Six,
  chip: Chip,
  rate: number,
  r: Random,
): { time: Float64Array; channels: Float64Array[] } {
  const delay = Math.SQRT2 / (2 * Math.PI * chip.cutoff);
  const filtered = signals.map((x) => lowPass(x, chip.cutoff, rate));
  const n = Math.floor((signals[0].length / rate - delay - 0.01) * chip.rate);
  const time = new Float64Array(n);
  const bias = Array.from({ length: 6 }, (_, k) => r.normal(0, k < 3 ? chip.accBias : chip.gyrBias));
  const scale = Array.from({ length: 6 }, () => 1 + r.normal(0, chip.scale));
  const channels = Array.from({ length: 6 }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    const t = i / chip.rate;
    const at = Math.max(0, t + r.normal(0, chip.jitter) + delay) * rate;
    time[i] = t;
    const j = Math.min(signals[0].length - 2, Math.floor(at));
    const s = at - j;
    for (let k = 0; k < 6; k++) {
      const unit = k < 3 ? 9.80665 : Math.PI / 180;
      const range = k < 3 ? chip.accRange : chip.gyrRange;
      const noise = (k < 3 ? chip.accNoise : chip.gyrNoise) * Math.sqrt(chip.rate / 2);
      const v = ((filtered[k][j] * (1 - s) + filtered[k][j + 1] * s) / unit) * scale[k] + bias[k] + r.normal(0, noise);
      const lsb = range / 2 ** (chip.bits - 1);
      channels[k][i] = Math.max(-range, Math.min(range - lsb, Math.round(v / lsb) * lsb));
    }
  }
  return { time, channels };
}

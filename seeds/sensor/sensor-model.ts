/**
 * What a strapped-on inertial sensor reads of a moving segment: rigid-body kinematics at the sensor's place, gravity,
 * its turned axes, the give of strap and tissue, its bandwidth, and the faults of real electronics.
 */
import type { Gap, SampleBlock } from '../../shared/sample-block.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { Random } from '../random.ts';

/** Course of one segment: place of its reference point (ankle) and roll, pitch, yaw in time (Rz Ry Rx). */
export interface SegmentMotion {
  start_s: number;
  rate_hz: number;
  x: Float64Array;
  y: Float64Array;
  z: Float64Array;
  roll: Float64Array;
  pitch: Float64Array;
  yaw: Float64Array;
}

export interface SensorModel {
  rate_hz: number;
  /** Full scales; readings beyond are clipped. */
  acc_range_g: number;
  gyr_range_dps: number;
  has_gyroscope: boolean;
  bits: number;
  /** Place relative to the ankle in the segment's frame, metres. */
  lever_m: readonly [number, number, number];
  /** Rows of the rotation from segment axes to sensor axes. */
  mounting: readonly (readonly number[])[];
  /** Strap and tissue as a damped spring between segment and sensor; Infinity for rigid. */
  strap_hz: number;
  strap_damping: number;
  /** Low-pass of the sensor's own electronics, Hz; its delay is taken out, as data sheets' time stamps do. */
  bandwidth_hz: number;
  acc_noise_mps2: number;
  gyr_noise_dps: number;
  acc_bias_mps2: readonly [number, number, number];
  gyr_bias_dps: readonly [number, number, number];
  /** Drift of the gyroscope's bias by warming, deg/s per minute. */
  gyr_warming_dps_per_min: number;
  /** SD of the time stamps about the true instants, s; sampling itself stays regular. */
  stamp_jitter_s: number;
  /** True rate is the nominal one times (1 + this). */
  clock_drift: number;
  /** Share of samples lost, in packets of the given length. */
  lost_share: number;
  packet_samples: number;
  /** World time of the first sample. */
  start_s: number;
}

/** Uniformly random rotation (Shoemake 1992, from memory: unit quaternion of three uniform numbers). */
export function randomRotation(random: Random): number[][] {
  const u = random.uniform(0, 1);
  const a = 2 * Math.PI * random.uniform(0, 1);
  const b = 2 * Math.PI * random.uniform(0, 1);
  const [x, y] = [Math.sqrt(1 - u) * Math.sin(a), Math.sqrt(1 - u) * Math.cos(a)];
  const [z, w] = [Math.sqrt(u) * Math.sin(b), Math.sqrt(u) * Math.cos(b)];
  return [
    [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
    [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
    [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
  ];
}

type Columns = [Float64Array, Float64Array, Float64Array];

/** Specific force (m/s2) and angular rate (rad/s) in segment axes at the sensor's place, at the internal rate. */
export function segmentReadings(motion: SegmentMotion, lever: readonly number[]): { acc: Columns; gyr: Columns } {
  const n = motion.x.length;
  const rate = motion.rate_hz;
  const make = (): Columns => [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  const place = make();
  const acc = make();
  const gyr = make();
  const [px, py, pz] = place;
  const [lx, ly, lz] = lever;
  for (let i = 0; i < n; i++) {
    const cr = Math.cos(motion.roll[i]);
    const sr = Math.sin(motion.roll[i]);
    const cp = Math.cos(motion.pitch[i]);
    const sp = Math.sin(motion.pitch[i]);
    const cy = Math.cos(motion.yaw[i]);
    const sy = Math.sin(motion.yaw[i]);
    // Roll, then pitch, then yaw.
    const y1 = cr * ly - sr * lz;
    const z1 = sr * ly + cr * lz;
    const x2 = cp * lx + sp * z1;
    px[i] = motion.x[i] + cy * x2 - sy * y1;
    py[i] = motion.y[i] + sy * x2 + cy * y1;
    pz[i] = motion.z[i] - sp * lx + cp * z1;
  }
  const square = rate * rate;
  for (let i = 0; i < n; i++) {
    const j = Math.min(n - 2, Math.max(1, i));
    const ax = (px[j + 1] - 2 * px[j] + px[j - 1]) * square;
    const ay = (py[j + 1] - 2 * py[j] + py[j - 1]) * square;
    const az = (pz[j + 1] - 2 * pz[j] + pz[j - 1]) * square + STANDARD_GRAVITY_MPS2;
    const cr = Math.cos(motion.roll[i]);
    const sr = Math.sin(motion.roll[i]);
    const cp = Math.cos(motion.pitch[i]);
    const sp = Math.sin(motion.pitch[i]);
    const cy = Math.cos(motion.yaw[i]);
    const sy = Math.sin(motion.yaw[i]);
    const x1 = cy * ax + sy * ay;
    const y1 = -sy * ax + cy * ay;
    const z2 = sp * x1 + cp * az;
    acc[0][i] = cp * x1 - sp * az;
    acc[1][i] = cr * y1 + sr * z2;
    acc[2][i] = -sr * y1 + cr * z2;
    const half = rate / 2;
    const rollRate = (motion.roll[j + 1] - motion.roll[j - 1]) * half;
    const pitchRate = (motion.pitch[j + 1] - motion.pitch[j - 1]) * half;
    const yawRate = (motion.yaw[j + 1] - motion.yaw[j - 1]) * half;
    gyr[0][i] = rollRate - yawRate * sp;
    gyr[1][i] = pitchRate * cr + yawRate * cp * sr;
    gyr[2][i] = -pitchRate * sr + yawRate * cp * cr;
  }
  return { acc, gyr };
}

/** Second-order response y'' + 2 d w y' + w^2 y = w^2 x, by exact bilinear steps; starts at rest on the first value. */
function secondOrder(x: Float64Array, corner_hz: number, damping: number, rate_hz: number): Float64Array {
  if (!(corner_hz < 0.45 * rate_hz)) return x;
  const k = Math.tan((Math.PI * corner_hz) / rate_hz);
  const norm = 1 / (1 + 2 * damping * k + k * k);
  const b = k * k * norm;
  const a1 = 2 * (k * k - 1) * norm;
  const a2 = (1 - 2 * damping * k + k * k) * norm;
  const y = new Float64Array(x.length);
  let [x1, x2, y1, y2] = [x[0], x[0], x[0], x[0]];
  for (let i = 0; i < x.length; i++) {
    y[i] = b * (x[i] + 2 * x1 + x2) - a1 * y1 - a2 * y2;
    [x2, x1, y2, y1] = [x1, x[i], y1, y[i]];
  }
  return y;
}

function turn(columns: Columns, mounting: readonly (readonly number[])[]): Columns {
  return mounting.map((row) => {
    const out = new Float64Array(columns[0].length);
    for (let i = 0; i < out.length; i++)
      out[i] = row[0] * columns[0][i] + row[1] * columns[1][i] + row[2] * columns[2][i];
    return out;
  }) as Columns;
}

/**
 * @param end_s world time after which nothing is sampled
 * @returns the recording as ingest would hand it over
 */
export function readSensor(motion: SegmentMotion, model: SensorModel, end_s: number, random: Random): SampleBlock {
  const raw = segmentReadings(motion, model.lever_m);
  // Strap, then electronics; the sensor's own delay is known to its maker and taken out of the time stamps.
  const delay_s = model.bandwidth_hz < 0.45 * motion.rate_hz ? Math.SQRT2 / (2 * Math.PI * model.bandwidth_hz) : 0;
  const soften = (columns: Columns, strapFactor: number): Columns =>
    turn(columns, model.mounting).map((column) =>
      secondOrder(
        secondOrder(column, model.strap_hz * strapFactor, model.strap_damping, motion.rate_hz),
        model.bandwidth_hz,
        Math.SQRT1_2,
        motion.rate_hz,
      ),
    ) as Columns;
  const acc = soften(raw.acc, 1);
  const gyr = model.has_gyroscope ? soften(raw.gyr, 1.6) : null;
  const period = 1 / (model.rate_hz * (1 + model.clock_drift));
  const total = Math.floor((end_s - model.start_s) / period);
  const lost = new Uint8Array(total);
  if (model.lost_share > 0) {
    for (let i = model.packet_samples; i < total - model.packet_samples; i += model.packet_samples) {
      if (random.uniform(0, 1) < model.lost_share) lost.fill(1, i, i + model.packet_samples);
    }
  }
  const kept: number[] = [];
  for (let i = 0; i < total; i++) if (!lost[i]) kept.push(i);
  const time_s = new Float64Array(kept.length);
  const sample = (column: Float64Array, world_s: number) => {
    const u = Math.min(column.length - 1.001, Math.max(0, (world_s - motion.start_s) * motion.rate_hz));
    const i = Math.floor(u);
    return column[i] + (column[i + 1] - column[i]) * (u - i);
  };
  const read = (columns: Columns, range: number, noise: number, bias: readonly number[], warming: number): Columns => {
    const step = (2 * range) / 2 ** model.bits;
    const top = 2 ** (model.bits - 1);
    return columns.map((column, axis) => {
      const out = new Float64Array(kept.length);
      for (let j = 0; j < kept.length; j++) {
        const elapsed = kept[j] * period;
        const drift = bias[axis] + (warming * elapsed) / 60;
        const value = sample(column, model.start_s + elapsed + delay_s) + drift + noise * random.normal(0, 1);
        out[j] = Math.min(top - 1, Math.max(-top, Math.round(value / step))) * step;
      }
      return out;
    }) as Columns;
  };
  const accOut = read(acc, model.acc_range_g * STANDARD_GRAVITY_MPS2, model.acc_noise_mps2, model.acc_bias_mps2, 0);
  const gyrOut = gyr
    ? read(
        gyr,
        model.gyr_range_dps * RADIANS_PER_DEGREE,
        model.gyr_noise_dps * RADIANS_PER_DEGREE,
        model.gyr_bias_dps.map((bias) => bias * RADIANS_PER_DEGREE),
        model.gyr_warming_dps_per_min * RADIANS_PER_DEGREE,
      )
    : null;
  kept.forEach((i, j) => {
    // On the sensor's own clock the rate is the nominal one.
    const regular = i / model.rate_hz;
    const jitter = j === 0 ? 0 : random.within(0, model.stamp_jitter_s, 2.5);
    time_s[j] = Math.max(regular + jitter, j === 0 ? 0 : time_s[j - 1] + 0.05 / model.rate_hz);
  });
  const gaps: Gap[] = [];
  for (let j = 1; j < kept.length; j++) {
    const missing = kept[j] - kept[j - 1] - 1;
    if (missing > 0) gaps.push({ start_s: time_s[j - 1], end_s: time_s[j], lost_samples: missing });
  }
  const axes = ([x, y, z]: Columns) => ({ x, y, z });
  return {
    start_utc: null,
    sampling_rate_hz: model.rate_hz,
    time_s,
    acc_mps2: axes(accOut),
    gyr_radps: gyrOut ? axes(gyrOut) : null,
    gaps,
    acc_range_mps2: model.acc_range_g * STANDARD_GRAVITY_MPS2,
    gyr_range_radps: model.has_gyroscope ? model.gyr_range_dps * RADIANS_PER_DEGREE : null,
  };
}

/** Strapdown integration of motions known in closed form. */
import { because } from '../../../shared/reason.ts';
import { wordsOf } from '../../helpers/told.ts';
import { describe, expect, test } from 'vitest';
import { sensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { integrateStride } from '../../../dsp/strides/foot-stride.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';

type Matrix = number[][];
const DURATION_S = 0.6;

/** Share of the way at time t and its first two derivatives: minimum jerk, at rest at both ends. */
function smoothStep(t: number): [number, number, number] {
  const u = Math.min(1, Math.max(0, t / DURATION_S));
  return [
    u ** 3 * (10 - 15 * u + 6 * u * u),
    (30 * u * u * (1 - u) ** 2) / DURATION_S,
    (60 * u * (1 - u) * (1 - 2 * u)) / DURATION_S ** 2,
  ];
}

interface Motion {
  length_m: number;
  lift_m: number;
  /** Greatest backward pitch in swing, rad, and roll in step with it. */
  pitch_rad: number;
  roll_rad: number;
  mounting: Matrix;
  rate_hz: number;
}

/** A foot that lies still, swings forward once and lies still again, as a sensor turned by `mounting` reads it. */
function recordingOf({ length_m, lift_m, pitch_rad, roll_rad, mounting, rate_hz }: Motion): SensorRecording {
  const rest_s = 0.3;
  const n = Math.round((DURATION_S + 2 * rest_s) * rate_hz) + 1;
  const columns = Array.from({ length: 6 }, () => new Float64Array(n));
  const time_s = Float64Array.from({ length: n }, (_, i) => i / rate_hz);
  for (let i = 0; i < n; i++) {
    const t = time_s[i] - rest_s;
    const [s, v, a] = smoothStep(t);
    // Height and angles follow sin^2(pi s): zero and at rest at both ends.
    const bump = Math.sin(Math.PI * s) ** 2;
    const slope = Math.PI * Math.sin(2 * Math.PI * s);
    const curve = 2 * Math.PI ** 2 * Math.cos(2 * Math.PI * s);
    const force = [length_m * a, 0, lift_m * (curve * v * v + slope * a) + STANDARD_GRAVITY_MPS2];
    const [pitch, roll] = [pitch_rad * bump, roll_rad * bump];
    const [pitchRate, rollRate] = [pitch_rad * slope * v, roll_rad * slope * v];
    const [cp, sp, cr, sr] = [Math.cos(pitch), Math.sin(pitch), Math.cos(roll), Math.sin(roll)];
    // World from foot: Ry(pitch) Rx(roll).
    const foot = [
      [cp, sp * sr, sp * cr],
      [0, cr, -sr],
      [-sp, cp * sr, cp * cr],
    ];
    const rate = [rollRate, pitchRate * cr, -pitchRate * sr];
    for (let k = 0; k < 3; k++) {
      let [acc, gyr] = [0, 0];
      for (let j = 0; j < 3; j++) {
        const inFoot = foot[0][j] * force[0] + foot[1][j] * force[1] + foot[2][j] * force[2];
        acc += mounting[k][j] * inFoot;
        gyr += mounting[k][j] * rate[j];
      }
      columns[k][i] = acc;
      columns[3 + k][i] = gyr;
    }
  }
  const [ax, ay, az, gx, gy, gz] = columns;
  return {
    side: 'left',
    mounting: 'foot',
    samples: {
      start_utc: null,
      sampling_rate_hz: rate_hz,
      time_s,
      acc_mps2: { x: ax, y: ay, z: az },
      gyr_radps: { x: gx, y: gy, z: gz },
      gaps: [],
      acc_range_mps2: null,
      gyr_range_radps: null,
    },
    clock_offset_s: 0,
    clock_drift: 0,
    clock_offset_u_s: 0,
  };
}

const STRAIGHT: Matrix = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
/** Turned about all three axes. */
const CROOKED: Matrix = [
  [0.36, 0.48, -0.8],
  [-0.8, 0.6, 0],
  [0.48, 0.64, 0.6],
];

function strideOf(motion: Motion) {
  const recording = recordingOf(motion);
  const signals = sensorSignals(recording, DEFAULT_SETTINGS);
  const from = Math.round(0.15 * motion.rate_hz);
  return integrateStride(signals, from, signals.length - 1 - from, null, DEFAULT_SETTINGS.strides);
}

const USUAL: Motion = { length_m: 3.4, lift_m: 0.25, pitch_rad: 1.6, roll_rad: 0.3, mounting: CROOKED, rate_hz: 500 };

describe('integrateStride', () => {
  test.each<[string, Partial<Motion>]>([
    ['as usual', {}],
    ['straight sensor', { mounting: STRAIGHT }],
    ['200 Hz', { rate_hz: 200 }],
    ['short and flat', { length_m: 0.8, lift_m: 0.05, pitch_rad: 0.5 }],
    ['long and high', { length_m: 5, lift_m: 0.5, pitch_rad: 2.2, rate_hz: 1000 }],
  ])('finds length and lift of a known motion: %s', (_, change) => {
    const motion = { ...USUAL, ...change };
    const stride = strideOf(motion);
    if ('reason' in stride) throw new Error(wordsOf(stride.reason));
    expect(Math.abs(stride.length_m / motion.length_m - 1)).toBeLessThan(0.002);
    expect(Math.abs(stride.lift_m - motion.lift_m)).toBeLessThan(0.004);
    expect(Math.abs(stride.rise_m)).toBeLessThan(0.003);
    expect(stride.length_m_u).toBeGreaterThan(0.01 * motion.length_m);
  });

  test('gives vertical and direction of travel in the sensor’s axes', () => {
    const stride = strideOf(USUAL);
    if ('reason' in stride) throw new Error(wordsOf(stride.reason));
    for (let k = 0; k < 3; k++) {
      expect(stride.up[k]).toBeCloseTo(CROOKED[k][2], 3);
      expect(stride.forward[k]).toBeCloseTo(CROOKED[k][0], 3);
      expect(stride.up_at_end[k]).toBeCloseTo(CROOKED[k][2], 3);
    }
  });

  test('refuses a stride that begins or ends in mid-swing', () => {
    const recording = recordingOf(USUAL);
    const signals = sensorSignals(recording, DEFAULT_SETTINGS);
    const middle = Math.round(0.55 * USUAL.rate_hz);
    expect(integrateStride(signals, middle, signals.length - 60, null, DEFAULT_SETTINGS.strides)).toMatchObject({
      reason: because('foot_not_at_rest_twice'),
    });
  });

  test('refuses clipped and missing samples', () => {
    const recording = recordingOf(USUAL);
    const clipped = { ...recording, samples: { ...recording.samples, gyr_range_radps: 5 } };
    expect(
      integrateStride(sensorSignals(clipped, DEFAULT_SETTINGS), 75, 525, null, DEFAULT_SETTINGS.strides),
    ).toMatchObject({
      reason: because('swing_beyond_gyroscope'),
    });
    const holed = recordingOf(USUAL);
    holed.samples.acc_mps2.x.fill(Number.NaN, 250, 280);
    expect(
      integrateStride(sensorSignals(holed, DEFAULT_SETTINGS), 75, 525, null, DEFAULT_SETTINGS.strides),
    ).toMatchObject({
      reason: because('samples_missing_in_stride'),
    });
  });
});

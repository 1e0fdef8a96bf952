/**
 * What one step looks like at a given speed, before the person's own way and chance are added.
 *
 * Angles and rates at 2.5 to 4.5 m/s were set beside recordings of treadmill and overground running; above that they
 * follow published sprint kinematics in outline: contact 160 ms in the first steps and 105 to 110 ms at top speed
 * (Blauberger et al. 2021, Sensors 21:7331, table 1), step rate near 4.3 Hz (Graubner and Nixdorf 2011), thigh lifted to
 * about 60 to 70 degrees and shank folded past the horizontal (common practice).
 */
import type { Random } from '../random.ts';
import { interpolate } from './gait-table.ts';
import { drawPushOff, type PushOff } from './push-off.ts';
import type { Runner } from './runner.ts';

/** Values at the speeds of `SPEEDS`, walking up to 1.9 m/s; angles in degrees, rates in degrees a second. */
const SPEEDS = [1.3, 1.9, 2.5, 3.5, 5, 7, 9.5, 11.5];
const TABLE = {
  pitch_rear: [-20, -17.5, -17, -16, -14, -10, -6, -4],
  pitch_fore: [-18, -8, 2, 4, 5, 7, 9, 10],
  pitch_rate_rear: [40, 115, 340, 385, 450, 500, 560, 600],
  pitch_rate_fore: [60, 170, 195, 225, 300, 380, 470, 520],
  pitch_toe_off: [62, 55, 48, 47, 48, 54, 60, 64],
  pitch_rate_toe_off: [230, 335, 440, 590, 770, 1030, 1330, 1500],
  shank_touchdown: [-18, -10.5, -3, -3, -4, -4, -4, -4],
  shank_rate_touchdown: [90, 135, 180, 230, 280, 360, 460, 520],
  shank_toe_off: [46, 41, 36, 38, 42, 44, 47, 48],
  shank_rate_toe_off: [140, 90, 40, 10, 0, 60, 150, 200],
  thigh_1: [-8, -14, -20, -20, -20, -18, -18, -18],
  thigh_2: [12, 7, 2, 4, 10, 18, 24, 26],
  thigh_3: [25, 23.5, 22, 30, 40, 52, 62, 66],
  thigh_4: [24, 25, 26, 33, 39, 44, 46, 47],
  shank_1: [60, 59, 58, 67, 78, 95, 107, 109],
  shank_2: [58, 68, 80, 98, 113, 127, 136, 137],
  shank_3: [20, 31, 45, 55, 59, 56, 51, 52],
  shank_4: [-13, -8.5, 2, 0, -4, -9, -13, -14],
  plantar_1: [6, 6, 17, 16, 16, 16, 15, 15],
  plantar_2: [-6, -6, 9, 8, 7, 5, 2, 2],
  plantar_3: [-8, -8, 0, -2, -4, -8, -12, -12],
  plantar_4: [-5, -5, -3, -5, -7, -10, -13, -13],
  sink: [0.3, 0.425, 0.45, 0.55, 0.75, 1.05, 1.4, 1.6],
  slip: [0.3, 0.4, 0.42, 0.52, 0.72, 1.05, 1.5, 1.75],
} as const;

type GaitKey = keyof typeof TABLE;

/** Instants of the interior points of swing, as shares of swing time. */
export const SWING_SHARES = [0.2, 0.42, 0.66, 0.86] as const;

const lookUp = (key: GaitKey, speed_mps: number): number => interpolate(SPEEDS, TABLE[key], speed_mps);

/** Angles in radians, rates in rad/s, speeds in m/s. */
export interface Gait {
  touchdown: { pitch: number; pitch_rate: number; shank: number; shank_rate: number; sink: number; slip: number };
  toe_off: { pitch: number; pitch_rate: number; shank: number; shank_rate: number };
  /** Turning about toe-off of a run; null where the foot leaves otherwise (walking, standing, hopping). */
  push_off: PushOff | null;
  /** Thigh (knee forward positive), shank and foot pitch at `SWING_SHARES` of the swing that follows. */
  swing: { thigh: number[]; shank: number[]; pitch: number[] };
  /** Speed that the leg is moved at: ahead of the body's own in a start. */
  pace_mps: number;
  toe_out: number;
  roll_touchdown: number;
  roll_contact: number;
  sway: number;
}

const RADIANS = Math.PI / 180;

/**
 * @param speed_mps running (or walking) speed at this contact
 * @param gain 1 at the first push of a start, 0 at constant speed: shank leans forward, foot lands under the body
 */
export function drawGait(runner: Runner, speed_mps: number, gain: number, random: Random): Gait {
  const running = speed_mps > 1.9;
  const vary = (sd: number) => random.within(0, sd);
  const lively = running
    ? Math.max(speed_mps, 0.55 * speed_mps + 0.45 * runner.full_speed_mps * gain ** 0.5)
    : speed_mps;
  const forefoot = Math.min(1, Math.max(0, 0.5 + runner.strike / 2 + 0.5 * gain));
  const mix = (rear: GaitKey, fore: GaitKey) =>
    lookUp(rear, speed_mps) + (lookUp(fore, speed_mps) - lookUp(rear, speed_mps)) * forefoot;
  const fold = running ? runner.fold_offset_deg - 12 * gain : 0;
  const shank = [
    lookUp('shank_1', lively) + 0.6 * fold + vary(1.5),
    lookUp('shank_2', lively) + fold + vary(2),
    lookUp('shank_3', lively) + 0.6 * fold + vary(2),
    lookUp('shank_4', lively) + vary(1.5) + 14 * gain,
  ];
  const thigh = [
    lookUp('thigh_1', lively) + vary(1.5),
    lookUp('thigh_2', lively) + vary(1.5) + 8 * gain,
    lookUp('thigh_3', lively) + vary(1.5) + 8 * gain,
    lookUp('thigh_4', lively) + vary(1.5) + 6 * gain,
  ];
  // Foot against shank, toes pointed positive.
  const plantar = [
    lookUp('plantar_1', lively) + (running ? runner.point_early_deg : 0) + vary(1.5),
    lookUp('plantar_2', lively) + (running ? runner.point_middle_deg : 0) + vary(1.5),
    lookUp('plantar_3', lively) + vary(1.5),
    lookUp('plantar_4', lively) + (running ? (forefoot - 0.4) * 12 : 0) + vary(1.5),
  ];

  const firmness = running ? runner.landing_factor : 1;
  const pitchRateToeOff =
    (lookUp('pitch_rate_toe_off', lively) + (running ? 80 * gain : 0)) * (1 + vary(0.03)) * RADIANS;
  return {
    touchdown: {
      pitch: (mix('pitch_rear', 'pitch_fore') + vary(1.2)) * RADIANS,
      pitch_rate: mix('pitch_rate_rear', 'pitch_rate_fore') * (1 + vary(0.1)) * RADIANS,
      shank: (lookUp('shank_touchdown', speed_mps) + runner.shank_offset_deg + 26 * gain + vary(1.2)) * RADIANS,
      shank_rate: lookUp('shank_rate_touchdown', lively) * (1 + vary(0.08)) * RADIANS,
      sink: lookUp('sink', lively) * firmness * (1 + vary(0.08)),
      slip: lookUp('slip', lively) * firmness * (1 - 0.7 * gain) * (1 + vary(0.12)),
    },
    toe_off: {
      pitch: (lookUp('pitch_toe_off', lively) + runner.toe_off_pitch_offset_deg + vary(1.5)) * RADIANS,
      pitch_rate: pitchRateToeOff,
      shank: (lookUp('shank_toe_off', speed_mps) + 0.6 * runner.shank_offset_deg + 12 * gain + vary(1.2)) * RADIANS,
      shank_rate: (lookUp('shank_rate_toe_off', lively) + vary(25)) * RADIANS,
    },
    push_off: running ? drawPushOff(runner.push_off, runner.second_hump, lively, gain, pitchRateToeOff, random) : null,
    swing: {
      thigh: thigh.map((angle) => angle * RADIANS),
      shank: shank.map((angle) => angle * RADIANS),
      pitch: shank.map((angle, i) => (angle + plantar[i]) * RADIANS),
    },
    pace_mps: lively,
    toe_out: vary(1.2) * RADIANS,
    roll_touchdown: (6 * runner.looseness + vary(1.5)) * RADIANS,
    roll_contact: (-6 * runner.looseness + vary(1.5)) * RADIANS,
    sway: (0.5 + vary(0.12)) * runner.looseness,
  };
}

/** Usual contact time at a steady speed, s: 318 ms at 2.5 m/s to 105 ms at 9.5 m/s. */
export function steadyContactTime(speed_mps: number): number {
  return 0.105 * (9.5 / Math.max(speed_mps, 1.5)) ** 0.83;
}

const STEP_RATES: [number, number][] = [
  [1.8, 2.5],
  [2.5, 2.62],
  [3.5, 2.75],
  [4.5, 2.92],
  [5.5, 3.12],
  [7, 3.5],
  [8, 3.8],
  [9, 4.1],
  [10, 4.35],
  [11, 4.5],
  [12.5, 4.6],
];

/** Usual flight time at a steady running speed, s. */
export function steadyFlightTime(speed_mps: number): number {
  let i = 0;
  while (i < STEP_RATES.length - 2 && speed_mps > STEP_RATES[i + 1][0]) i++;
  const [v0, rate0] = STEP_RATES[i];
  const [v1, rate1] = STEP_RATES[i + 1];
  const rate = rate0 + ((rate1 - rate0) * (speed_mps - v0)) / (v1 - v0);
  return Math.max(0.03, 1 / rate - steadyContactTime(speed_mps));
}

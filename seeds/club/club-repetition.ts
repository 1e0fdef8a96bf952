/** One repetition of one athlete of the club: sensor files, the times that the coach's timer gave, and the truth. */
import { gzipSync } from 'node:zlib';
import { generateRepetition, type Truth } from '../generate-repetition.ts';
import { makeRandom } from '../random.ts';
import { recordingCsv } from '../recording-csv.ts';
import { type ClubAthlete, clubOf } from './athletes.ts';
import { formOf } from './draw-form.ts';
import { COURSE_M } from './season.ts';

/** Everything needed to make the repetition anywhere: plain values, so that it can go to a worker thread. */
export interface ClubRepetitionOrder {
  athlete: number;
  athletes: number;
  session_index: number;
  date: string;
  /** Order within the session, from 0. */
  order: number;
  effort_percent: number;
  rate_hz: number;
}

export interface ClubRepetition {
  left: Uint8Array;
  right: Uint8Array;
  time_s: number;
  split_s: number;
  truth: Truth;
}

export function makeClubRepetition(order: ClubRepetitionOrder): ClubRepetition {
  const athlete = clubOf(order.athletes)[order.athlete];
  const seed = 500 + order.athlete;
  const form = formOf(athlete, order.session_index, order.order, seed);
  const random = makeRandom(seed * 7919 + order.session_index * 101 + order.order);
  const made = generateRepetition({
    // The person stays the same from day to day: constants come from one seed, chance from another.
    seed,
    chance_seed: random.integer(1, 2 ** 30),
    runner: {
      ...athlete.runner,
      full_speed_mps: form.full_speed_mps,
      contact_factor: form.contact_factor,
      side_difference: form.side_difference,
    },
    repetitions: [{ effort: order.effort_percent / 100, distance_m: COURSE_M, fatigue: form.fatigue }],
    split_distances_m: [COURSE_M / 2],
    stand_before_s: random.uniform(0.8, 1.2),
    walk_steps: 2,
    stand_after_s: 0.2,
    mountings: ['foot'],
    sensor: { rate_hz: order.rate_hz, acc_range_g: 64, gyr_range_dps: 4000 },
    internal_rate_hz: 2 * order.rate_hz,
  });
  const truth = made.truth.repetitions[0];
  // The group runs from five in the afternoon, in order, some minutes between an athlete's repetitions.
  const start_ms = Date.parse(`${order.date}T17:00:00Z`) + (order.order * order.athletes + order.athlete) * 45_000;
  const file = (side: 'left' | 'right') => gzipSync(recordingCsv(made.sensors.foot[side], start_ms), { level: 3 });
  // The timer starts on movement and stops at the beam: hundredths, with an error of about a hundredth.
  const read = (time_s: number) => Math.round((time_s + random.within(0, 0.008)) * 100) / 100;
  return {
    left: file('left'),
    right: file('right'),
    time_s: read(truth.time_s ?? 0),
    split_s: read(truth.splits[0].split_time_s),
    truth: made.truth,
  };
}

/**
 * Time over the course from first movement by the athlete's own speed curve: for tests run before anybody wore a sensor.
 * x(t) = V (t + T exp(-t / T)) - V T, solved for t by bisection.
 */
export function courseTime(athlete: ClubAthlete, index: number, sessionIndex: number, distance_m = COURSE_M): number {
  const V = formOf(athlete, sessionIndex, 0, 500 + index).full_speed_mps;
  const T = athlete.runner.time_constant_s;
  let [low, high] = [0, 60];
  for (let i = 0; i < 50; i++) {
    const t = (low + high) / 2;
    if (V * (t + T * Math.exp(-t / T)) - V * T < distance_m) low = t;
    else high = t;
  }
  return Math.round(high * 100) / 100;
}

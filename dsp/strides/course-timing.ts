import type { Course } from '../../shared/analysis.ts';
import type { TimingMethod } from '../../shared/words.ts';
import type { Prior, TimedDistance } from '../fit/fit-sprint-curve.ts';

/**
 * Standard uncertainty of one time, s, by the way it was taken. Hand: SD of hand minus electronic, 0.07 to 0.08 s
 * (Mayhew 2010, doi 10.1519/JSC.0b013e3181c08860; Mann 2015, doi 10.1519/JSC.0000000000000941). Others: common
 * practice; single beams are broken by an arm or a thigh before the trunk.
 */
const TIME_U_S: Record<TimingMethod, number> = {
  hand: 0.08,
  touch_pad_beam: 0.01,
  beam: 0.015,
  gun_photo_finish: 0.005,
  motion_start: 0.015,
  other: 0.02,
};

/** Every timed distance of the course, nearest first: splits and, unless it is one of them, the whole course. */
export function timedDistances(course: Course): TimedDistance[] {
  const time_s_u = TIME_U_S[course.timing_method ?? 'other'];
  const all = course.splits.map((s) => ({ distance_m: s.distance_m, time_s: s.split_time_s, time_s_u }));
  const { distance_m, time_s } = course;
  if (distance_m !== null && time_s !== null && !all.some((s) => Math.abs(s.distance_m - distance_m) < 0.01)) {
    all.push({ distance_m, time_s, time_s_u });
  }
  return all.filter((s) => s.distance_m > 0 && s.time_s > 0).sort((a, b) => a.distance_m - b.distance_m);
}

/**
 * What is known of clock zero minus first movement before any fit.
 * - first movement: 0, give or take the trigger. By hand the thumb reacts late: electronic minus hand time is 0.22 to
 *   0.31 s (Mann 2015; Mayhew 2010).
 * - gun: the athlete reacts after it; 0.146 s (Berlin 2009, Graubner and Nixdorf 2011) and 0.194 s (Zagreb 2011, Coh
 *   2018).
 * - gate: broken by the body some tenths of a second after the first movement (common practice: 0.3 to 0.5 m behind
 *   it); later from a rolling start.
 */
export function timeShiftPrior(course: Course): Prior {
  if (course.start_style === 'rolling') return { value: 0.8, u: 0.5 };
  if (course.clock === 'gun') return { value: -0.17, u: 0.04 };
  if (course.clock === 'gate') return { value: 0.3, u: 0.2 };
  if (course.timing_method === 'hand') return { value: 0.26, u: 0.08 };
  return { value: 0, u: 0.02 };
}

/**
 * A trigger may be late by this much, where the times cannot be had otherwise: Haugen and Buchheit 2016, Sports Med
 * 46:641-656.
 */
export const LATE_TRIGGER: Prior = { value: 0.1, u: 0.25 };

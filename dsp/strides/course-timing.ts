import type { Course } from '../../shared/analysis.ts';
import type { Prior, TimedDistance } from '../fit/fit-sprint-curve.ts';
import { STRIDE_SETTINGS, type StrideSettings } from '../settings/strides.ts';

/** Every timed distance of the course, nearest first: splits and, unless it is one of them, the whole course. */
export function timedDistances(course: Course, settings: StrideSettings = STRIDE_SETTINGS): TimedDistance[] {
  const time_s_u = settings.timing.time_s_u[course.timing_method ?? 'other'];
  const all = course.splits.map((s) => ({ distance_m: s.distance_m, time_s: s.split_time_s, time_s_u }));
  const { distance_m, time_s } = course;
  if (distance_m !== null && time_s !== null && !all.some((s) => Math.abs(s.distance_m - distance_m) < 0.01)) {
    all.push({ distance_m, time_s, time_s_u });
  }
  return all.filter((s) => s.distance_m > 0 && s.time_s > 0).sort((a, b) => a.distance_m - b.distance_m);
}

/** What is known of clock zero minus first movement before any fit; reasons in `STRIDE_SETTINGS.timing.shift`. */
export function timeShiftPrior(course: Course, settings: StrideSettings = STRIDE_SETTINGS): Prior {
  const { shift } = settings.timing;
  if (course.start_style === 'rolling') return shift.rolling;
  if (course.clock === 'gun') return shift.gun;
  if (course.clock === 'gate') return shift.gate;
  if (course.timing_method === 'hand') return shift.hand;
  return shift.first_movement;
}

/**
 * Where a course begins.
 * @returns whether distances count from where the runner was at clock zero, already under way, rather than from rest
 */
export function countsFromClockZero({ clock, start_style }: Course): boolean {
  return clock === 'gate' || start_style === 'rolling';
}

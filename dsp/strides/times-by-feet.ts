import type { Course } from '../../shared/analysis.ts';
import { type Fault, fault } from '../../shared/fault.ts';
import type { SuggestedTime } from '../../shared/messages/suggested-times.ts';
import { distanceAt, distanceGradient, parameterVariance, speedAt, timeAtDistance } from '../fit/index.ts';
import { countsFromClockZero, timedDistances, timeShiftPrior } from './course-timing.ts';
import type { MeasuredStride } from './foot-sensor-evidence.ts';
import { speedFromStrides } from './speed-from-strides.ts';
import type { StrideContext } from './stride-context.ts';

/** A typed time beside the one that the foot sensors alone give. */
export interface TimeByFeet {
  distance_m: number;
  typed_s: number;
  by_feet_s: number;
  /** Standard uncertainty of the difference of the two, s: feet, clock and the typed time's own. */
  apart_s_u: number;
}

/** The curve says nothing of a course that was measured for less than this share of it. */
const LEAST_MEASURED = 0.6;

/**
 * What the foot sensors alone say of the typed times: their curve from the first movement, its time at each distance.
 * @returns the typed times, nearest first; none where too little of the course could be measured
 */
export function timesByFeet(context: StrideContext, strides: MeasuredStride[]): TimeByFeet[] {
  const { course, settings } = context;
  const typed = timedDistances(course, settings);
  const own = typed.length === 0 ? null : speedFromStrides(context, strides);
  if (!own) return [];
  const { fit, zero_s_u } = own;
  const measured_m = distanceAt(fit, Math.max(...strides.map(({ to_s }) => to_s)) - own.zero_s);
  const shift = timeShiftPrior(course, settings);
  const before_m = countsFromClockZero(course) ? distanceAt(fit, shift.value) : 0;
  return typed
    .filter(({ distance_m }) => measured_m > LEAST_MEASURED * distance_m)
    .map(({ distance_m, time_s, time_s_u }) => {
      const t = timeAtDistance(fit, distance_m + before_m);
      const way_u = Math.sqrt(parameterVariance(fit, distanceGradient(fit, t)));
      const place_u = Math.hypot(way_u, settings.timing.start_place_m_u, settings.timing.model_share_u * distance_m);
      return {
        distance_m,
        typed_s: time_s,
        by_feet_s: t - shift.value,
        apart_s_u: Math.hypot(place_u / speedAt(fit, t), zero_s_u, shift.u, time_s_u),
      };
    });
}

/**
 * How far a typed time lies off what the feet say.
 * @returns in standard uncertainties of the difference, 0 or more
 */
export function strainOf({ typed_s, by_feet_s, apart_s_u }: TimeByFeet): number {
  return Math.abs(typed_s - by_feet_s) / apart_s_u;
}

/**
 * Doubted times that stay so once the clock's start is known: several times that lie off by the same are those of a clock that started
 * late, which their fit has found. One time alone cannot tell a late clock from a wrong time.
 * @param time_shift_s clock zero minus first movement by the fit of the typed times, s
 */
export function doubtedStill(
  doubted: TimeByFeet[],
  all: TimeByFeet[],
  time_shift_s: number,
  { course, settings }: StrideContext,
): TimeByFeet[] {
  if (all.length < 2) return doubted;
  const late_s = time_shift_s - timeShiftPrior(course, settings).value;
  return doubted.filter(
    (time) => strainOf({ ...time, by_feet_s: time.by_feet_s - late_s }) > settings.timing.doubted_u,
  );
}

/** The fault of times that the feet contradict. @param kept whether they were used all the same */
export function doubtedFault(doubted: TimeByFeet[], kept: boolean): Fault {
  const field = doubted.length === 1 ? 'time_s' : 'splits';
  return fault(kept ? 'TIMES_DOUBTED.kept' : 'TIMES_DOUBTED.left_out', { times: doubted.map(suggested) }, { field });
}

/** The course without the times at these distances. */
export function withoutTimesAt(course: Course, doubted: Pick<TimeByFeet, 'distance_m'>[]): Course {
  const out = (distance_m: number) => doubted.some((time) => Math.abs(time.distance_m - distance_m) < 0.01);
  return {
    ...course,
    time_s: course.distance_m !== null && out(course.distance_m) ? null : course.time_s,
    splits: course.splits.filter((split) => !out(split.distance_m)),
  };
}

/** A time as a fault tells it, with the 95 % half-width of what the feet say. */
export function suggested({ distance_m, typed_s, by_feet_s, apart_s_u }: TimeByFeet): SuggestedTime {
  return { distance_m, typed_s: Number(typed_s.toFixed(3)), by_feet_s, half_width_s: 1.96 * apart_s_u };
}

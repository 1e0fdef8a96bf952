import type { Contact, Course } from '../../shared/analysis.ts';
import { type Fault, fault } from '../../shared/fault.ts';
import type { ImpossibleTimes } from '../../shared/messages/en/faults/analysis.ts';
import type { SuggestedTime } from '../../shared/messages/suggested-times.ts';
import { type Prior, type SprintFit, speedAt } from '../fit/index.ts';
import { median } from '../numeric/statistics.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { countsFromClockZero, timedDistances } from './course-timing.ts';

/**
 * Times that contradict each other: not growing with the distance, or two for one distance.
 * @returns null where they agree
 */
export function contradictingTimes(course: Course, settings: StrideSettings): Fault | null {
  const { distance_m, time_s, splits } = course;
  const times = timedDistances(course, settings);
  const twice = splits.find(
    (split) =>
      distance_m !== null &&
      time_s !== null &&
      Math.abs(split.distance_m - distance_m) < 0.01 &&
      Math.abs(split.split_time_s - time_s) > 3 * settings.timing.time_s_u[course.timing_method ?? 'other'],
  );
  if (twice)
    return fault(
      'TIMES_NOT_INCREASING.twice',
      { distance_m: twice.distance_m, first_s: rounded(twice.split_time_s), second_s: rounded(time_s!) },
      { field: 'splits' },
    );
  for (let i = 1; i < times.length; i++) {
    const [near, far] = [times[i - 1], times[i]];
    if (far.time_s <= near.time_s) {
      return fault(
        'TIMES_NOT_INCREASING.back',
        { near_m: near.distance_m, near_s: rounded(near.time_s), far_m: far.distance_m, far_s: rounded(far.time_s) },
        { field: 'splits' },
      );
    }
  }
  return null;
}

/** What a fitted curve has to be plausible against. */
export interface FittedRun {
  fit: SprintFit;
  /** First movement on the rows' clock, s. */
  zero_s: number;
  /** When the course ends on the rows' clock, s. */
  end_s: number;
  /** Scale of the foot sensors' strides against the times; null without them. */
  scale: number | null;
  /** What had been expected of the clock. */
  expected_shift: Prior;
  /** How long running went on, s on the rows' clock, where the recording shows that it ended. */
  run_end_s: number | null;
}

/**
 * Why a run cannot have had these times; null when it can. The limits are those of the fastest people, and what the
 * sensors say of the run themselves: how far the feet went, how long they stayed on the ground.
 * @returns what is impossible, with the numbers on both sides
 */
export function impossibleTimes(
  rows: Contact[],
  course: Course,
  { fit, zero_s, end_s, scale, expected_shift, run_end_s }: FittedRun,
  settings: StrideSettings,
): ImpossibleTimes | null {
  const { fastest_mps, quickest_mps2, contact_length_m, scale_limit, short_run_s, short_run_share } = settings.timing;
  let before = { distance_m: 0, time_s: 0 };
  for (const at of timedDistances(course, settings)) {
    const mean_mps = (at.distance_m - before.distance_m) / (at.time_s - before.time_s);
    if (mean_mps > fastest_mps) {
      return { kind: 'mean_speed', mps: mean_mps, most_mps: fastest_mps };
    }
    before = at;
  }
  if (fit.vmax_mps > fastest_mps) {
    return { kind: 'top_speed', mps: fit.vmax_mps, most_mps: fastest_mps };
  }
  const from_rest = !countsFromClockZero(course);
  if (from_rest && fit.vmax_mps / fit.tau_s > quickest_mps2) {
    return { kind: 'start', mps2: fit.vmax_mps / fit.tau_s, most_mps2: quickest_mps2 };
  }
  if (scale !== null && Math.abs(scale) > scale_limit) {
    return { kind: 'strides', scale, most: scale_limit };
  }
  if (expected_shift.u > 0 && Math.abs(fit.time_shift_s - expected_shift.value) > SHIFT_LIMIT * expected_shift.u) {
    return { kind: 'clock', shift_s: fit.time_shift_s };
  }
  const course_s = end_s - zero_s;
  if (run_end_s !== null && end_s - run_end_s > Math.max(short_run_s, short_run_share * course_s)) {
    return { kind: 'running', needed_s: course_s, ran_s: run_end_s - zero_s };
  }
  // Over the later half of the course speed is near its top, and no start's long contacts are in it.
  const late = rows.filter((row) => row.touchdown_s > (zero_s + end_s) / 2 && row.touchdown_s < end_s);
  const lengths = late.flatMap((row) =>
    row.contact_time_ms === null ? [] : [(speedAt(fit, row.touchdown_s - zero_s) * row.contact_time_ms) / 1000],
  );
  const usual = median(lengths);
  if (usual < contact_length_m.least || usual > contact_length_m.most) {
    return { kind: 'body', travels_m: usual, least_m: contact_length_m.least, most_m: contact_length_m.most };
  }
  return null;
}

/** A clock that far from what is usual, in standard uncertainties, is another clock, or another run. */
const SHIFT_LIMIT = 3.5;

/** The fault of times that cannot be of this run. @param by_feet what the feet say instead, where they do */
export function impossibleFault(course: Course, why: ImpossibleTimes, by_feet: SuggestedTime[] = []): Fault {
  const times = timedDistances(course).map(({ distance_m, time_s }) => ({ distance_m, time_s: rounded(time_s) }));
  return fault('TIMES_IMPOSSIBLE', { times, why, by_feet }, { field: 'time_s' });
}

/** To the millisecond, as clocks show it. */
function rounded(time_s: number): number {
  return Number(time_s.toFixed(3));
}

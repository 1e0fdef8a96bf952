import type { Contact, Course } from '../../shared/analysis.ts';
import type { Fault } from '../../shared/fault.ts';
import { type Prior, type SprintFit, speedAt } from '../fit/index.ts';
import { median } from '../numeric/statistics.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { timedDistances } from './course-timing.ts';

/** Times that contradict each other: not growing with the distance, or two for one distance. */
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
      `${twice.distance_m} m was reached after ${rounded(twice.split_time_s)} s and after ${rounded(time_s!)} s`,
    );
  for (let i = 1; i < times.length; i++) {
    const [near, far] = [times[i - 1], times[i]];
    if (far.time_s <= near.time_s) {
      return fault(
        `${near.distance_m} m after ${rounded(near.time_s)} s, but ${far.distance_m} m after ${rounded(far.time_s)} s`,
      );
    }
  }
  return null;
}

function fault(found: string): Fault {
  return {
    code: 'TIMES_NOT_INCREASING',
    message: `Times of the course contradict each other: ${found}. Times must grow with the distance. All of them were left out; nothing else is lost.`,
    where: { field: 'splits' },
    hint: 'Correct the times, then analyse again.',
  };
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
 */
export function impossibleTimes(
  rows: Contact[],
  course: Course,
  { fit, zero_s, end_s, scale, expected_shift, run_end_s }: FittedRun,
  settings: StrideSettings,
): string | null {
  const { fastest_mps, quickest_mps2, contact_length_m, scale_limit, short_run_s, short_run_share } = settings.timing;
  let before = { distance_m: 0, time_s: 0 };
  for (const at of timedDistances(course, settings)) {
    const mean_mps = (at.distance_m - before.distance_m) / (at.time_s - before.time_s);
    if (mean_mps > fastest_mps) {
      return `a mean speed of ${mean_mps.toFixed(1)} m/s; the fastest sprinters stay below ${fastest_mps} m/s`;
    }
    before = at;
  }
  if (fit.vmax_mps > fastest_mps) {
    return `a top speed of ${fit.vmax_mps.toFixed(1)} m/s; the fastest sprinters stay below ${fastest_mps} m/s`;
  }
  const from_rest = course.clock !== 'gate' && course.start_style !== 'rolling';
  if (from_rest && fit.vmax_mps / fit.tau_s > quickest_mps2) {
    const start = (fit.vmax_mps / fit.tau_s).toFixed(0);
    return `a start of ${start} m/s2; the quickest stay below ${quickest_mps2} m/s2`;
  }
  if (scale !== null && Math.abs(scale) > scale_limit) {
    const percent = Math.abs(100 * scale).toFixed(0);
    return `strides ${percent} % ${scale > 0 ? 'shorter' : 'longer'} than the foot sensors measured; up to ${100 * scale_limit} % can be`;
  }
  if (expected_shift.u > 0 && Math.abs(fit.time_shift_s - expected_shift.value) > SHIFT_LIMIT * expected_shift.u) {
    const [by, when] = [Math.abs(fit.time_shift_s).toFixed(2), fit.time_shift_s > 0 ? 'after' : 'before'];
    return `a clock that started ${by} s ${when} the first movement`;
  }
  const course_s = end_s - zero_s;
  if (run_end_s !== null && end_s - run_end_s > Math.max(short_run_s, short_run_share * course_s)) {
    return `${course_s.toFixed(1)} s of running; the athlete ran for ${(run_end_s - zero_s).toFixed(1)} s`;
  }
  // Over the later half of the course speed is near its top, and no start's long contacts are in it.
  const late = rows.filter((row) => row.touchdown_s > (zero_s + end_s) / 2 && row.touchdown_s < end_s);
  const lengths = late.flatMap((row) =>
    row.contact_time_ms === null ? [] : [(speedAt(fit, row.touchdown_s - zero_s) * row.contact_time_ms) / 1000],
  );
  const usual = median(lengths);
  if (usual < contact_length_m.least || usual > contact_length_m.most) {
    return `a body that travels ${usual.toFixed(2)} m over a foot on the ground; runners travel ${contact_length_m.least} to ${contact_length_m.most} m`;
  }
  return null;
}

/** A clock that far from what is usual, in standard uncertainties, is another clock, or another run. */
const SHIFT_LIMIT = 3.5;

/** The fault of times that cannot be of this run. */
export function impossibleFault(course: Course, why: string): Fault {
  const times = timedDistances(course).map((t) => `${t.distance_m} m in ${rounded(t.time_s)} s`);
  return {
    code: 'TIMES_IMPOSSIBLE',
    message: `Times of the course: ${times.join(', ')} would mean ${why}. They were left out; nothing else is lost.`,
    where: { field: 'time_s' },
    hint: 'Check the distance, the time, what the clock started with, and that they belong to this run.',
  };
}

/** To the millisecond, as clocks show it. */
function rounded(time_s: number): number {
  return Number(time_s.toFixed(3));
}

import { type Course, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import type { Athlete } from '../../shared/schemas/athlete.ts';
import type { SprintTest } from '../../shared/schemas/coach/sprint-test.ts';
import type { AccelerationView } from '../../shared/schemas/coach/sprint-test-view.ts';
import { distanceAt, fitSprintCurve, speedAt, timeAtDistance } from '../../dsp/fit/index.ts';
import { timedDistances, timeShiftPrior } from '../../dsp/strides/course-timing.ts';

/** Share of the maximum speed at which acceleration is as good as over. */
const NEARLY_FULL = 0.95;
const CURVE_POINTS = 40;

/**
 * The acceleration curve of a sprint test with splits, and force and speed at the ends of the force-speed line.
 * @returns null where the splits fit no sprint
 */
export function accelerationView(
  test: SprintTest,
  athlete: Pick<Athlete, 'body_mass_kg' | 'stature_m'>,
): AccelerationView | null {
  const course = courseOf(test);
  const shift = timeShiftPrior(course);
  const fit = fitSprintCurve(timedDistances(course), { time_shift: shift, tau: { value: 1.1, u: 0.3 } });
  if (!fit) return null;
  const end_s = timeAtDistance(fit, test.distance_m);
  const curve = Array.from({ length: CURVE_POINTS + 1 }, (_, i) => {
    const time_s = (end_s * i) / CURVE_POINTS;
    return { time_s, distance_m: distanceAt(fit, time_s), speed_mps: speedAt(fit, time_s) };
  });
  return {
    sprint_test_id: test.sprint_test_id,
    date: test.date,
    vmax_mps: fit.vmax_mps,
    vmax_mps_u: Number.isFinite(fit.covariance[0][0]) ? Math.sqrt(fit.covariance[0][0]) : null,
    tau_s: fit.tau_s,
    residual_s: fit.residual_s,
    distance_95_m: distanceAt(fit, -fit.tau_s * Math.log(1 - NEARLY_FULL)),
    curve,
    force_velocity: null,
    why_not: athlete.body_mass_kg === null ? 'Body mass is not known.' : '',
  };
}

function courseOf(test: SprintTest): Course {
  const clock =
    test.timing_method === 'gun_photo_finish' ? 'gun' : test.timing_method === 'beam' ? 'gate' : 'first_movement';
  return {
    ...UNKNOWN_COURSE,
    distance_m: test.distance_m,
    time_s: test.time_s,
    splits: test.splits,
    timing_method: test.timing_method,
    start_style: test.start_style,
    clock,
  };
}

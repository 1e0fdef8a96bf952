import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { type Course, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { Athlete } from '../../../shared/schemas/athlete.ts';
import type { SprintTest } from '../../../shared/schemas/coach/sprint-test.ts';
import type { AccelerationView } from '../../../shared/schemas/coach/sprint-test-view.ts';
import { distanceAt, fitSprintCurve, type SprintCurve, speedAt, timeAtDistance } from '../../../dsp/fit/index.ts';
import { accelerationKinetics, bodyAndAir } from '../../../dsp/strides/acceleration-kinetics.ts';
import { timedDistances, timeShiftPrior } from '../../../dsp/strides/course-timing.ts';

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
  words: JudgementWords = JUDGEMENT_EN,
): Omit<AccelerationView, 'series_key'> | null {
  const course = courseOf(test);
  const shift = timeShiftPrior(course);
  const points = timedDistances(course);
  const fit = fitSprintCurve(points, { time_shift: shift, tau: { value: 1.1, u: 0.3 } });
  if (!fit) return null;
  // Top speed and time constant, and the clock's shift where it is not known.
  const unknowns = shift.u > 0 ? 3 : 2;
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
    points: points.length,
    unknowns,
    residual_s: points.length > unknowns ? fit.residual_s : null,
    distance_95_m: distanceAt(fit, -fit.tau_s * Math.log(1 - NEARLY_FULL)),
    curve,
    ...forceOf(fit, test, athlete, words),
  };
}

/** The force-speed line in still or known air; body mass and stature are needed. */
function forceOf(
  curve: SprintCurve,
  test: SprintTest,
  athlete: Pick<Athlete, 'body_mass_kg' | 'stature_m'>,
  words: JudgementWords,
): Pick<AccelerationView, 'force_velocity' | 'why_not'> {
  const { body_mass_kg, stature_m } = athlete;
  const body = bodyAndAir({ ...UNKNOWN_CONDITIONS, body_mass_kg, stature_m, wind_mps: test.wind_mps });
  if (!body) return { force_velocity: null, why_not: words.coach.testing('needs_body') };
  const kinetics = accelerationKinetics(curve, body);
  if (!kinetics) return { force_velocity: null, why_not: words.coach.testing('no_falling_line') };
  return {
    force_velocity: {
      force_n_per_kg: kinetics.horizontal_force_f0_n_per_kg,
      velocity_mps: kinetics.velocity_v0_mps,
      power_w_per_kg: kinetics.power_max_w_per_kg,
      ratio_of_force_max: kinetics.ratio_of_force_max,
      body_mass_kg: body.body_mass_kg,
    },
    why_not: '',
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

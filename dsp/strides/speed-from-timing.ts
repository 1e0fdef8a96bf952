import { instantOf } from '../signals/sensor-time.ts';
import { because, type Reason } from '../../shared/reason.ts';
import type { Contact, SpeedCurve } from '../../shared/analysis.ts';
import type { Fault } from '../../shared/fault.ts';
import {
  fitSprintCurve,
  type SprintFit,
  type SprintFitOptions,
  type TimedDistance,
  timeAtDistance,
} from '../fit/index.ts';
import type { ImpossibleTimes } from '../../shared/messages/en/faults/analysis.ts';
import { contradictingTimes, impossibleTimes } from './check-times.ts';
import { contactTimeEvidence } from './contact-time-evidence.ts';
import { countsFromClockZero, timedDistances, timeShiftPrior } from './course-timing.ts';
import { type MeasuredStride, strideEvidence } from './foot-sensor-evidence.ts';
import { type PriorEffect, priorEffect } from './prior-effect.ts';
import type { StrideContext } from './stride-context.ts';

/** The acceleration curve of one repetition, tied to the rows' clock. */
export interface TimedCurve {
  fit: SprintFit;
  /** First movement on the rows' clock, s. */
  zero_s: number;
  zero_s_u: number;
  /** When the last timed distance is reached, on the rows' clock. */
  end_s: number;
  from: SpeedCurve['from'];
  /** Why the uncertainty is wide; empty otherwise. */
  caution: Reason | null;
  /** Fits the curve again and again, so only what is reported asks for it. */
  priors: () => PriorEffect;
}

/** Why there is no curve by the times. */
export interface NotTimed {
  reason: Reason;
  fault?: Fault;
  impossible?: ImpossibleTimes;
}

/**
 * Fits v(t) = vmax (1 - exp(-t / tau)) to the course's times: with two or more from the times alone (the two-gate
 * method of de Ruiter and van Dieen 2019, generalised), with one from the time, the course of the contact times and a
 * prior on tau. Where foot sensors gave stride lengths, these join the fit: the times set the level, the strides the
 * shape.
 * @param strides measured by foot sensors, may be none
 * @returns a reason when there is nothing to fit, with the fault of times that contradict each other, or why they cannot be of this run
 */
export function speedFromTiming(
  rows: Contact[],
  context: StrideContext,
  strides: MeasuredStride[] = [],
): TimedCurve | NotTimed {
  const { settings } = context;
  const { timing } = settings;
  const contradiction = contradictingTimes(context.course, settings);
  if (contradiction) return { reason: because('times_contradict'), fault: contradiction };
  const times = timedDistances(context.course, settings);
  if (times.length === 0) return { reason: because('no_time') };
  if (rows.length === 0) return { reason: because('no_contacts') };
  const seen = context.first_movement_s !== null;
  const first_s = context.first_movement_s ?? rows[0].touchdown_s - timing.first_touchdown_s.value;
  const first_s_u = seen ? (context.first_movement_s_u ?? timing.first_movement_s_u) : timing.first_touchdown_s.u;
  const time_shift = timeShiftPrior(context.course, settings);
  const last = times[times.length - 1];
  const alone = times.length === 1;
  const end_s = first_s + last.time_s + time_shift.value;
  const fromStrides = strideEvidence(strides, first_s, first_s_u, end_s, settings);
  const options: SprintFitOptions = {
    time_shift,
    from_clock_zero: countsFromClockZero(context.course),
    ...(alone && { tau: timing.tau_s }),
    extra: fromStrides ?? (alone ? contactTimeEvidence(rows, first_s, end_s, settings) : undefined),
  };
  const strain = (of: SprintFit | null): number => clockStrain(of, times, fromStrides !== undefined, settings);
  let fit = fitSprintCurve(times, options);
  let expected_shift = time_shift;
  // More times than a curve needs, or strides beside them, show when the clock did not start with what it is said to.
  if ((times.length >= 3 || fromStrides) && strain(fit) > 1) {
    const late = fitSprintCurve(times, { ...options, time_shift: timing.shift.late_trigger });
    if (strain(late) < strain(fit) / 2) [fit, expected_shift] = [late, timing.shift.late_trigger];
  }
  if (!fit) {
    return { reason: DOUBTED, impossible: { kind: 'no_sprint' } };
  }
  const zero_s = first_s + (fromStrides ? fit.own[1] : 0);
  const length_m = context.course.distance_m ?? last.distance_m;
  // The line by the curve where it was not timed itself.
  const timed = times.find(({ distance_m }) => Math.abs(distance_m - length_m) < 0.01);
  const line_s = timed ? timed.time_s + fit.time_shift_s : timeAtDistance(fit, length_m + fit.run_at_clock_zero_m);
  const course_end_s = zero_s + line_s;
  // Contacts that were missed at the end do not end the run.
  const last_contact = rows[rows.length - 1];
  const run_end_s = (last_contact.toe_off_s ?? last_contact.touchdown_s) + (context.runs_on_s ?? 0);
  const impossible = impossibleTimes(
    rows,
    context.course,
    {
      fit,
      zero_s,
      end_s: course_end_s,
      scale: fromStrides ? fit.own[0] : null,
      expected_shift,
      run_end_s: recordedFor(run_end_s, context) > timing.short_run_s ? run_end_s : null,
    },
    settings,
  );
  if (impossible) return { reason: DOUBTED, impossible };
  const cautions = {
    one_time: alone && !fromStrides,
    start_unseen: !seen,
    ends_early: run_end_s < course_end_s - timing.short_run_s,
  };
  return {
    fit,
    zero_s,
    zero_s_u: fromStrides ? fit.own_u[1] : first_s_u,
    end_s: course_end_s,
    from: fromStrides ? 'combined' : alone ? 'time and steps' : 'splits',
    caution: Object.values(cautions).some(Boolean) ? because('timed_with_cautions', cautions) : null,
    priors: () =>
      priorEffect(
        times,
        { ...options, time_shift: expected_shift },
        fit,
        times.length + (fromStrides ? 1 : 0) >= PARAMETERS,
      ),
  };
}

/** Top speed, time constant, start of the clock. */
const PARAMETERS = 3;

/** How long the recording goes on after an instant, s: the sensor that stops first counts. */
function recordedFor(after_s: number, { sensors }: StrideContext): number {
  const ends = sensors.map((sensor) => instantOf(sensor.signals.length, sensor));
  return ends.length === 0 ? 0 : Math.min(...ends) - after_s;
}

const DOUBTED = because('times_doubted');

/** How badly times, and strides beside them, fit a curve that starts with the clock: up to 1 as their errors allow. */
function clockStrain(
  fit: SprintFit | null,
  times: TimedDistance[],
  strides: boolean,
  { timing, foot }: StrideContext['settings'],
): number {
  if (!fit) return Number.POSITIVE_INFINITY;
  const ofTimes = fit.residual_s / (timing.misfit * times[0].time_s_u);
  const ofStrides = strides ? Math.abs(fit.own[0]) / (timing.scale_misfit * foot.common_share_u) : 0;
  return Math.max(ofTimes, ofStrides);
}

/** The curve as it is reported. */
export function reportedCurve({ fit, from, zero_s_u, priors }: TimedCurve): SpeedCurve {
  return {
    vmax_mps: fit.vmax_mps,
    vmax_mps_u: Math.sqrt(fit.covariance[0][0]),
    tau_s: fit.tau_s,
    // Contact times move with the first movement, and tau by about as much; strides find it in the fit itself.
    tau_s_u: Math.hypot(Math.sqrt(fit.covariance[1][1]), from === 'time and steps' ? zero_s_u : 0),
    time_shift_s: fit.time_shift_s,
    time_shift_s_u: Math.sqrt(fit.covariance[2][2]),
    residual_s: fit.residual_s,
    from,
    ...priors(),
  };
}

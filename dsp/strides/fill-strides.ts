import { instantOf } from '../signals/sensor-time.ts';
import { because, type Reason } from '../../shared/reason.ts';
import type { AccelerationKinetics, Contact, SpeedCurve } from '../../shared/analysis.ts';
import { CONTACT_FIELDS, type ContactField, TURNED_QUANTITIES } from '../../shared/fields.ts';
import type { Fault } from '../../shared/fault.ts';
import { bodyAndAir } from './acceleration-kinetics.ts';
import { fillFromTiming } from './fill-from-timing.ts';
import { type MeasuredStride, measuredStrides } from './foot-sensor-evidence.ts';
import { contradictingTimes, impossibleFault } from './check-times.ts';
import { timedDistances } from './course-timing.ts';
import { uncertainKinetics } from './kinetics-uncertainty.ts';
import type { TrackedFoot } from './measured-repetition.ts';
import { STRIDE_MOUNTINGS } from './mountings.ts';
import { oddTimeFault, timesApartFault, timesTogether } from './odd-time.ts';
import { QUANTITIES } from './quantities.ts';
import { fillFromBelt } from './speed-from-belt.ts';
import { fillFromFlyingCourse, type FlyingCourse, flyingCourse } from './speed-from-flying-course.ts';
import { fillDistanceFromSteps, fillFromFootSensor, type StrideScale } from './speed-from-foot-sensor.ts';
import { speedFromStrides } from './speed-from-strides.ts';
import { type NotTimed, reportedCurve, speedFromTiming, type TimedCurve } from './speed-from-timing.ts';
import type { StrideContext } from './stride-context.ts';
import { doubtedFault, doubtedStill, strainOf, suggested, timesByFeet, withoutTimesAt } from './times-by-feet.ts';

/** What holds for the whole repetition. */
export interface StrideResult {
  speed_curve: SpeedCurve | null;
  kinetics: AccelerationKinetics | null;
  /** When the course's length is reached, on the rows' clock; null when unknown. */
  course_end_s: number | null;
  /** Field name -> why it is empty for the whole repetition. */
  reasons: Record<string, Reason>;
  /** What was left out because it cannot be. */
  faults: Fault[];
}

/**
 * Fills in everything of a repetition's contacts that goes beyond their instants: speed, step and stride length,
 * distance, angles and shape of the step, vertical force and stiffness, each with its standard uncertainty and, where
 * empty, a reason.
 * @param rows contacts of one repetition in time order, instants and step times filled in; changed in place
 */
export function fillStrides(rows: Contact[], given: StrideContext): StrideResult {
  const reasons: Record<string, Reason> = {};
  const context = { ...given, sensors: given.sensors.filter(({ axes_doubtful }) => !axes_doubtful) };
  const faults: Fault[] = [];
  const feet = context.sensors.flatMap((sensor) => {
    const contacts = STRIDE_MOUNTINGS[sensor.recording.mounting].track(rows, sensor, context);
    return contacts ? [{ sensor, contacts }] : [];
  });
  const curve = fillSpeed(rows, context, feet, reasons, faults);
  for (const fill of QUANTITIES) fill({ rows, context, feet, curve, reasons });
  explainMissingChannels(given, reasons);

  const speed_curve = curve && reportedCurve(curve);
  return {
    speed_curve,
    kinetics: fillKinetics(curve, speed_curve, context, reasons),
    course_end_s: courseEnd(rows, context, curve),
    reasons,
    faults,
  };
}

/** Force and power of the acceleration, with a reason where there are none or where something had to be supposed. */
function fillKinetics(
  curve: TimedCurve | null,
  reported: SpeedCurve | null,
  { conditions, settings }: StrideContext,
  reasons: Record<string, Reason>,
): AccelerationKinetics | null {
  const body = bodyAndAir(conditions);
  if (!body) reasons.kinetics = because('body_mass_or_stature_unknown');
  else if (!curve || !reported) reasons.kinetics = because('no_curve');
  else {
    const uncertain = { ...reported, covariance_m: curve.fit.covariance[0][1] };
    const kinetics = uncertainKinetics(uncertain, body, conditions, settings);
    if (!kinetics) reasons.kinetics = because('no_force_speed_line');
    else if (conditions.wind_mps === null) {
      reasons.kinetics_u = because('wind_unknown');
    }
    return kinetics;
  }
  return null;
}

/** Strides of all foot sensors on the common clock, in order of time. */
function stridesOfBothFeet(feet: TrackedFoot[]): MeasuredStride[] {
  return feet
    .flatMap(({ sensor, contacts }) => measuredStrides(contacts, (index) => instantOf(index, sensor)))
    .sort((a, b) => a.from_s - b.from_s);
}

/** Speed, step length and distance from the best there is: belt; times with foot sensors; times; foot sensors alone. */
function fillSpeed(
  rows: Contact[],
  context: StrideContext,
  feet: TrackedFoot[],
  reasons: Record<string, Reason>,
  faults: Fault[],
): TimedCurve | null {
  const belt = context.course.belt_speed_mps;
  if (belt !== null) {
    fillFromBelt(rows, belt, context.settings);
    return null;
  }
  const strides = stridesOfBothFeet(feet);
  const flying = flyingCourse(rows, context.course, context.settings);
  const timed =
    context.course.start_style === 'flying'
      ? noCurve(flying, context, faults)
      : timedByCheckedTimes(rows, context, strides, faults);
  let curve: TimedCurve | null = null;
  if (flying) fillFromFlyingCourse(rows, flying);
  else curve = 'reason' in timed ? speedFromStrides(context, strides) : timed;
  if (curve) fillFromTiming(rows, curve, context.settings);
  const why = feet[0]?.contacts.map(({ stride }) => ('reason' in stride ? stride.reason : '')).find(Boolean);
  const scale = strideScale(curve, context.settings);
  fillFromFootSensor(rows, strides, scale, why ?? because('no_foot_sensor_no_time'), context.settings);
  if (strides.length > 0 && !flying) {
    if (!curve) reasons.distance_m = because('start_not_seen');
    fillDistanceFromSteps(rows, context.settings);
  }
  if ('reason' in timed && strides.length === 0 && !flying) reasons.step_length_m = timed.reason;
  return curve;
}

/**
 * The curve by the typed times, each held against what the feet alone say: where some fit and others cannot, the others are left out;
 * what is used though the feet contradict it is told.
 */
function timedByCheckedTimes(
  rows: Contact[],
  context: StrideContext,
  strides: MeasuredStride[],
  faults: Fault[],
): TimedCurve | NotTimed {
  const { course, settings } = context;
  const contradict = contradictingTimes(course, settings) !== null;
  const byFeet = contradict ? [] : timesByFeet(context, strides);
  if (!contradict && byFeet.length === 0) return timedByTimesAlone(rows, context, strides, faults);
  const doubted = byFeet.filter((time) => strainOf(time) > settings.timing.doubted_u);
  const some = doubted.length > 0 && doubted.length < timedDistances(course).length;
  const without = some ? speedFromTiming(rows, { ...context, course: withoutTimesAt(course, doubted) }, strides) : null;
  if (without && 'fit' in without) {
    faults.push(doubtedFault(doubted, false));
    return without;
  }
  const timed = speedFromTiming(rows, context, strides);
  if ('fit' in timed) {
    const still = doubtedStill(doubted, byFeet, timed.fit.time_shift_s, context);
    if (still.length > 0) faults.push(doubtedFault(still, true));
  } else if (timed.fault) faults.push(timed.fault);
  else if (timed.impossible) faults.push(impossibleFault(course, timed.impossible, byFeet.map(suggested)));
  return timed;
}

/** The same where no foot sensor says anything: the times are held against each other. */
function timedByTimesAlone(
  rows: Contact[],
  context: StrideContext,
  strides: MeasuredStride[],
  faults: Fault[],
): TimedCurve | NotTimed {
  const { course, settings } = context;
  const together = timesTogether(course, settings);
  if (together.kind === 'one_off') {
    const without = speedFromTiming(rows, { ...context, course: withoutTimesAt(course, [together.time]) }, strides);
    if ('fit' in without) {
      faults.push(oddTimeFault(together.time));
      return without;
    }
  }
  const timed = speedFromTiming(rows, context, strides);
  if (!('fit' in timed)) {
    if (timed.fault) faults.push(timed.fault);
    else if (timed.impossible) faults.push(impossibleFault(course, timed.impossible));
    return timed;
  }
  if (together.kind !== 'apart') return timed;
  faults.push(timesApartFault(together.worst_s));
  return widened(timed, together.strain);
}

/** A curve through times that do not fit it is as uncertain as they are apart (Birge 1932, Phys Rev 40:207, from memory). */
function widened(timed: TimedCurve, strain: number): TimedCurve {
  const covariance = timed.fit.covariance.map((row) => row.map((value) => value * strain ** 2));
  return { ...timed, fit: { ...timed.fit, covariance } };
}

/** A flying start shows no acceleration; and its time may be none that anybody runs. */
function noCurve(flying: FlyingCourse | null, { course, settings }: StrideContext, faults: Fault[]): NotTimed {
  if (course.distance_m === null || course.time_s === null) return { reason: because('no_time') };
  if (flying) return { reason: because('flying_start') };
  const mean_mps = course.distance_m / course.time_s;
  const { fastest_mps } = settings.timing;
  if (mean_mps > fastest_mps)
    faults.push(impossibleFault(course, { kind: 'mean_speed', mps: mean_mps, most_mps: fastest_mps }));
  return { reason: because('no_stretch_fits') };
}

/** The scale of the foot sensors: found where times joined them in the curve, else 1 within what is usual. */
function strideScale(curve: TimedCurve | null, settings: StrideContext['settings']): StrideScale {
  if (curve?.from === 'combined') return { scale: curve.fit.own[0], scale_u: curve.fit.own_u[0] };
  return { scale: 0, scale_u: settings.foot.common_share_u };
}

/** When the course's length is reached: by the clock, else by the steps' own distances. */
function courseEnd(rows: Contact[], { course }: StrideContext, curve: TimedCurve | null): number | null {
  if (curve && curve.from !== 'foot_sensor') return curve.end_s;
  const length = course.distance_m;
  if (length === null || course.belt_speed_mps !== null) return null;
  for (const row of rows) {
    if (row.distance_m === null || row.step_length_m === null || row.speed_mps === null) continue;
    const rest = length - row.distance_m;
    if (rest >= 0 && rest <= row.step_length_m) return row.touchdown_s + rest / row.speed_mps;
  }
  return null;
}

/** Says once what the mounting or the missing gyroscope cannot give. */
function explainMissingChannels({ sensors }: StrideContext, reasons: Record<string, Reason>): void {
  const gyroscope = sensors.some(({ signals }) => signals.gyr_radps);
  for (const field of TURNED_QUANTITIES) {
    const { needs }: ContactField = CONTACT_FIELDS[field];
    if (needs && needs !== 'gyroscope' && !sensors.some(({ recording }) => recording.mounting === needs)) {
      reasons[field] = because('needs_sensor_on', { mounting: needs });
    } else if (!gyroscope) reasons[field] ??= because('needs_gyroscope');
  }
  const doubtful = sensors.find(({ axes_doubtful }) => axes_doubtful);
  if (!doubtful) return;
  const why = because('axes_doubtful_of', { side: doubtful.recording.side });
  for (const field of [...TURNED_QUANTITIES, 'stride_length_m']) reasons[field] ??= why;
}

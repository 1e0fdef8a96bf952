import type { AccelerationKinetics, Contact, SpeedCurve } from '../../shared/analysis.ts';
import { fillFromBelt } from './speed-from-belt.ts';
import { fillFromTiming, reportedCurve, speedFromTiming } from './speed-from-timing.ts';
import type { StrideContext } from './stride-context.ts';

/** What holds for the whole repetition. */
export interface StrideResult {
  speed_curve: SpeedCurve | null;
  kinetics: AccelerationKinetics | null;
  /** When the course's length is reached, on the rows' clock; null when unknown. */
  course_end_s: number | null;
  /** Field name -> why it is empty for the whole repetition. */
  reasons: Record<string, string>;
}

/**
 * Fills in everything of a repetition's contacts that goes beyond their instants: speed, step and stride length, distance,
 * angles and shape of the step, vertical force and stiffness, each with its standard uncertainty and, where empty, a reason.
 * @param rows contacts of one repetition in time order, instants and step times filled in; changed in place
 */
export function fillStrides(rows: Contact[], context: StrideContext): StrideResult {
  const result: StrideResult = { speed_curve: null, kinetics: null, course_end_s: null, reasons: {} };
  const belt = context.course.belt_speed_mps;
  if (belt !== null) {
    fillFromBelt(rows, belt);
    return result;
  }
  const timed = speedFromTiming(rows, context);
  if ('reason' in timed) {
    result.reasons.step_length_m = timed.reason;
    return result;
  }
  fillFromTiming(rows, timed);
  result.speed_curve = reportedCurve(timed);
  result.course_end_s = timed.end_s;
  return result;
}

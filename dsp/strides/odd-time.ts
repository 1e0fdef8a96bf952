import type { Course } from '../../shared/analysis.ts';
import { type Fault, fault } from '../../shared/fault.ts';
import {
  distanceGradient,
  fitSprintCurve,
  parameterVariance,
  type Prior,
  type SprintFit,
  speedAt,
  type TimedDistance,
  timeAtDistance,
} from '../fit/index.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { countsFromClockZero, timedDistances, timeShiftPrior } from './course-timing.ts';

/** A time that the others contradict. */
export interface OddTime {
  distance_m: number;
  typed_s: number;
  by_others_s: number;
  /** Standard uncertainty of the difference of the two, s: the others', the model's and the time's own. */
  apart_s_u: number;
}

/** Times that are of one run; one that is not; or several that do not fit each other, of which none can be singled out. */
export type TimesTogether =
  | { kind: 'agree' }
  | { kind: 'one_off'; time: OddTime }
  | { kind: 'apart'; worst_s: number /** Residuals against what their errors allow, above 1. */; strain: number };

/** Below this many times no one of them can be told wrong: three make a curve. */
const FEWEST = 4;
/** What is left must fit this well, as a share of what its errors allow, for the one left out to be the wrong one. */
const FITS = 2;
/** And this much better than with any other left out. */
const CLEARLY = 2;

/**
 * Holds times at several distances against each other, without any sensor: each in turn is foretold by the curve through the others.
 * One alone that lies far off, while the others agree without it and with no other left out, is the wrong one.
 * Limits: of three times none is judged; the nearest is hardly told from a clock that started late; a time that is wrong by less than
 * some hundredths of a second is not found; a run that slows down before its end leaves the curve, so that its last times are foretold
 * too early (the model's error stands for some of it).
 */
export function timesTogether(course: Course, settings: StrideSettings): TimesTogether {
  const times = timedDistances(course, settings);
  if (times.length < FEWEST) return { kind: 'agree' };
  const clock = { priors: priorsOf(course, settings), from_clock_zero: countsFromClockZero(course) };
  const all = bestFit(times, clock, settings);
  const left_out = times.flatMap((time) => {
    const others = times.filter((other) => other !== time);
    const fit = bestFit(others, clock, settings);
    return fit ? [{ strain: strainOfFit(fit, others, settings), odd: foretold(time, others, fit, settings) }] : [];
  });
  const far_off = left_out.some(({ odd }) => isFarOff(odd, settings));
  if (all && strainOfFit(all, times, settings) <= settings.timing.doubted_u && !far_off) return { kind: 'agree' };
  const restoring = left_out.filter(({ strain }) => strain <= FITS);
  restoring.sort((a, b) => a.strain - b.strain);
  const [best, next] = restoring;
  // Where leaving out another one would do nearly as well, nobody can tell which is wrong.
  const alone = best && (!next || (next.strain > CLEARLY * best.strain && next.strain > 1));
  if (alone && isFarOff(best.odd, settings)) return { kind: 'one_off', time: best.odd };
  return apart(all, times, settings);
}

interface Clock {
  priors: Prior[];
  from_clock_zero: boolean;
}

/** What the clock starts with, and, where it is one that a hand or a sensor starts, that it may have started late. */
function priorsOf(course: Course, settings: StrideSettings): Prior[] {
  return [timeShiftPrior(course, settings), settings.timing.shift.late_trigger];
}

/** The better of the curves with the clock as it is said to be and with one that started late, if it is much better. */
function bestFit(
  times: TimedDistance[],
  { priors, from_clock_zero }: Clock,
  settings: StrideSettings,
): SprintFit | null {
  const fits = priors.map((time_shift) => fitSprintCurve(times, { time_shift, from_clock_zero }));
  const [usual, late] = fits;
  if (!usual) return late;
  if (!late) return usual;
  const [strain, other] = [strainOfFit(usual, times, settings), strainOfFit(late, times, settings)];
  return strain > 1 && other < strain / 2 ? late : usual;
}

/** Root mean square of the residuals against their errors, by the degrees of freedom. */
function strainOfFit(fit: SprintFit, times: TimedDistance[], settings: StrideSettings): number {
  const squares = times.map((time) => (residual(fit, time) / errorOf(time, times, fit, settings)) ** 2);
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / Math.max(1, times.length - 2));
}

function residual(fit: SprintFit, { distance_m, time_s }: TimedDistance): number {
  return time_s + fit.time_shift_s - timeAtDistance(fit, distance_m + fit.run_at_clock_zero_m);
}

/** Error of a time and of the curve at its place, s: how far a sprint leaves the curve grows with the way between two times. */
function errorOf(time: TimedDistance, times: TimedDistance[], fit: SprintFit, { timing }: StrideSettings): number {
  const at = times.indexOf(time);
  const before_m = times[at - 1]?.distance_m ?? 0;
  const gap_m = Math.max(time.distance_m - before_m, (times[at + 1]?.distance_m ?? time.distance_m) - time.distance_m);
  const speed = speedAt(fit, timeAtDistance(fit, time.distance_m + fit.run_at_clock_zero_m));
  return Math.hypot(time.time_s_u, (timing.model_share_u * gap_m) / speed);
}

function foretold(time: TimedDistance, others: TimedDistance[], fit: SprintFit, settings: StrideSettings): OddTime {
  const t = timeAtDistance(fit, time.distance_m + fit.run_at_clock_zero_m);
  const speed = speedAt(fit, t);
  const way_u = Math.sqrt(parameterVariance(fit, distanceGradient(fit, t)));
  const nearby = [...others, time].sort((a, b) => a.distance_m - b.distance_m);
  return {
    distance_m: time.distance_m,
    typed_s: time.time_s,
    by_others_s: t - fit.time_shift_s,
    apart_s_u: Math.hypot(way_u / speed, Math.sqrt(fit.covariance[2][2]), errorOf(time, nearby, fit, settings)),
  };
}

/** True where a time lies far off the curve through the others, however well all of them together seem to fit. */
function isFarOff({ typed_s, by_others_s, apart_s_u }: OddTime, { timing }: StrideSettings): boolean {
  return Math.abs(typed_s - by_others_s) > timing.doubted_u * apart_s_u;
}

function apart(fit: SprintFit | null, times: TimedDistance[], settings: StrideSettings): TimesTogether {
  if (!fit) return { kind: 'agree' };
  const strain = strainOfFit(fit, times, settings);
  const worst_s = Math.max(...times.map((time) => Math.abs(residual(fit, time))));
  return strain > settings.timing.doubted_u ? { kind: 'apart', worst_s, strain } : { kind: 'agree' };
}

/** The fault of a time that the others contradict: it was left out. */
export function oddTimeFault({ distance_m, typed_s, by_others_s, apart_s_u }: OddTime): Fault {
  const values = { distance_m, typed_s, by_others_s, half_width_s: 1.96 * apart_s_u };
  return fault('TIMES_DOUBTED.odd', values, { field: 'splits' });
}

/**
 * The fault of times that do not fit each other, used as they are.
 * @param worst_s how far the worst of them lies off the best curve, s
 */
export function timesApartFault(worst_s: number): Fault {
  return fault('TIMES_DOUBTED.apart', { worst_s }, { field: 'splits' });
}

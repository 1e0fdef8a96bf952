import { HEEL_RISE_S } from './contact-course.ts';
import type { Gait } from './gait.ts';
import { AFTER_S } from './pitch-course.ts';
import { statesAtKnots } from './push-off.ts';
import { joinedPath, minimumJerkPath, type PathState, type SmoothPath } from './smooth-path.ts';

/** The shank turns faster and faster in the last instants before touchdown, with this time constant. */
export const SHANK_GROWS_S = 0.05;
/** Forward lean of the shank of somebody who stands. */
const STANDING_SHANK = 0.08;
/** After landing to stand, the shank has come to rest after this long. */
const SETTLES_S = 0.35;
const AT_REST: PathState = { value: STANDING_SHANK, rate: 0, acceleration: 0 };

/** The shank leans forward fastest soon after touchdown, slower and slower until the knee begins to fold, about at toe-off. */
export function stanceShank(gait: Gait, t0: number, t1: number): SmoothPath {
  const [a, b] = [gait.touchdown, gait.toe_off];
  const ends = gait.push_off
    ? statesAtKnots(gait.push_off.shank, t1, b.shank)
    : leavesWalking(t1 + 0.027 * (t1 - t0), b.shank, b.shank_rate, 7 * b.pitch_rate);
  const [slowest] = ends;
  const d = slowest.time_s - t0;
  const early = Math.min(0.035, 0.24 * d);
  const peak = (2 * (slowest.value - a.shank) - a.shank_rate * early - slowest.rate * (d - early)) / d;
  // It slows down evenly nearly to the end: the turn into the fold is short.
  const turn = 0.07 * d;
  const slowing = (peak - slowest.rate) / (d - early);
  return joinedPath([
    { time_s: t0, value: a.shank, rate: a.shank_rate, acceleration: a.shank_rate / SHANK_GROWS_S },
    {
      time_s: t0 + early,
      value: a.shank + ((a.shank_rate + peak) / 2) * early,
      rate: peak,
      acceleration: -0.5 * slowing,
    },
    {
      time_s: slowest.time_s - turn,
      value: slowest.value - turn * slowest.rate - 0.4 * slowing * turn ** 2,
      rate: slowest.rate + 0.8 * slowing * turn,
      acceleration: -slowing,
    },
    ...ends,
  ]);
}

function leavesWalking(t1: number, shank: number, rate: number, fold: number) {
  return [
    { time_s: t1, value: shank, rate, acceleration: fold },
    {
      time_s: t1 + AFTER_S,
      value: shank + rate * AFTER_S + 0.45 * fold * AFTER_S ** 2,
      rate: rate + 0.75 * fold * AFTER_S,
      acceleration: 0.3 * fold,
    },
  ];
}

/** Shank of a foot that stands from `t0` on, and pushes off at `t1` (infinity: stays). */
export function standingShank(gait: Gait, t0: number, t1: number): SmoothPath {
  const arrive = minimumJerkPath(
    {
      time_s: t0,
      value: gait.touchdown.shank,
      rate: gait.touchdown.shank_rate,
      acceleration: gait.touchdown.shank_rate / SHANK_GROWS_S,
    },
    [],
    { time_s: t0 + SETTLES_S, ...AT_REST },
  );
  if (t1 === Number.POSITIVE_INFINITY) return (t) => (t < t0 + SETTLES_S ? arrive(t) : AT_REST);
  const rise = minimumJerkPath({ time_s: t1 - HEEL_RISE_S, ...AT_REST }, [], {
    time_s: t1,
    value: gait.toe_off.shank,
    rate: gait.toe_off.shank_rate,
    acceleration: 0,
  });
  const leave = (t: number): PathState => ({
    value: gait.toe_off.shank + gait.toe_off.shank_rate * (t - t1),
    rate: gait.toe_off.shank_rate,
    acceleration: 0,
  });
  return (t) => {
    if (t < t0 + SETTLES_S) return arrive(t);
    if (t < t1 - HEEL_RISE_S) return AT_REST;
    return t < t1 ? rise(t) : leave(t);
  };
}

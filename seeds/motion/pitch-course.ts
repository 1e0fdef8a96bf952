import { HEEL_RISE_S, PITCH_GROWS_S } from './contact-course.ts';
import type { Gait } from './gait.ts';
import { statesAtKnots } from './push-off.ts';
import type { Plant } from './step-ground.ts';
import { joinedPath, minimumJerkPath, type PathState, type SmoothPath } from './smooth-path.ts';

/** Where the foot does not leave running, the intended paths of a contact go on for this long, until the swing takes over. */
export const AFTER_S = 0.06;

/** Intended pitch of the foot over a contact: slap or sink, flat, heel rise, and on until what follows toe-off is over. */
export function pitchCourse(gait: Gait, plant: Plant): SmoothPath {
  const t0 = plant.touchdown_s;
  const t1 = plant.toe_off_s;
  const d = t1 - t0;
  const { toe_off } = gait;
  if (plant.kind === 'stand') {
    if (t1 === Number.POSITIVE_INFINITY) {
      const land = minimumJerkPath(
        { time_s: t0, value: gait.touchdown.pitch, rate: gait.touchdown.pitch_rate, acceleration: 0 },
        [],
        { time_s: t0 + 0.12, value: 0, rate: 0, acceleration: 0 },
      );
      return (t) => (t < t0 + 0.12 ? land(t) : { value: 0, rate: 0, acceleration: 0 });
    }
    const rise = minimumJerkPath({ time_s: t1 - HEEL_RISE_S, value: 0, rate: 0, acceleration: 0 }, [], {
      time_s: t1 + 0.08,
      value: toe_off.pitch + 0.05 * toe_off.pitch_rate,
      rate: 0.5 * toe_off.pitch_rate,
      acceleration: 0,
    });
    const settle = pitchCourse(gait, { ...plant, toe_off_s: Number.POSITIVE_INFINITY });
    return (t) => (t < t1 - HEEL_RISE_S ? settle(t) : rise(Math.min(t, t1 + 0.08)));
  }
  const slow = plant.kind === 'walk';
  const touchdown = {
    time_s: t0,
    value: gait.touchdown.pitch,
    rate: gait.touchdown.pitch_rate,
    acceleration: gait.touchdown.pitch_rate / PITCH_GROWS_S,
  };
  // A heel strike slaps flat within some 15 to 50 ms; a forefoot strike sinks towards the heel and may never reach it.
  const heelFirst = gait.touchdown.pitch < 0;
  const down_s = slow
    ? 0.13 * d
    : heelFirst
      ? Math.min(0.25 * d, 0.01 + Math.abs(gait.touchdown.pitch) / 11)
      : Math.min(0.2 * d, 0.032);
  const down: PathState = heelFirst
    ? { value: 0, rate: 0.3, acceleration: 0 }
    : { value: 0.85 * gait.touchdown.pitch, rate: -0.6 - 6 * gait.touchdown.pitch, acceleration: 0 };
  const rise_s = (slow ? 0.5 : 0.36) * d;
  const rise: PathState = {
    value: (heelFirst ? 0.02 : 0.5 * gait.touchdown.pitch) + 0.03 * toe_off.pitch,
    rate: (slow ? 0.02 : 0.1) * toe_off.pitch_rate,
    acceleration: toe_off.pitch_rate / (1.5 * d),
  };
  const landed = [touchdown, { time_s: t0 + down_s, ...down }, { time_s: t0 + rise_s, ...rise }];
  if (gait.push_off) {
    const course = joinedPath([...landed, ...statesAtKnots(gait.push_off.foot, t1, toe_off.pitch)]);
    return (t) => course(Math.max(t, t0));
  }
  const leaves = {
    time_s: t1,
    value: toe_off.pitch,
    rate: toe_off.pitch_rate,
    acceleration: (0.4 * toe_off.pitch_rate) / d,
  };
  const stance = joinedPath([...landed, leaves]);
  const leave = minimumJerkPath(leaves, [], {
    time_s: t1 + AFTER_S,
    value: toe_off.pitch + 0.62 * toe_off.pitch_rate * AFTER_S,
    rate: 0.35 * toe_off.pitch_rate,
    acceleration: 0,
  });
  return (t) => (t <= t1 ? stance(Math.max(t, t0)) : leave(Math.min(t, t1 + AFTER_S)));
}

import { MOUNTING_PLACES } from '../../../mountings.ts';
import type { Mounting } from '../../../words.ts';
import type { Reason } from '../../../reason-shape.ts';
import type { FaultRoom } from '../../sentence.ts';
import type { Speech } from '../../say.ts';
import { type SuggestedTime, timesByFeetText, typedTimesText } from '../../suggested-times.ts';

/** Why a run cannot have had these times. */
export type ImpossibleTimes =
  | { kind: 'mean_speed' | 'top_speed'; mps: number; most_mps: number }
  | { kind: 'start'; mps2: number; most_mps2: number }
  /** Strides of the foot sensors against the times: 0.2 means that the times make them 20 % shorter. */
  | { kind: 'strides'; scale: number; most: number }
  | { kind: 'no_sprint' }
  | { kind: 'clock'; shift_s: number }
  | { kind: 'running'; needed_s: number; ran_s: number }
  | { kind: 'body'; travels_m: number; least_m: number; most_m: number };

type Worn = { side: string; mounting: Mounting };
const other = (mounting: Mounting): Mounting => MOUNTING_PLACES[mounting].mistaken_for;

function impossible(why: ImpossibleTimes, { number }: Speech): string {
  switch (why.kind) {
    case 'mean_speed':
    case 'top_speed':
      return `a ${why.kind === 'top_speed' ? 'top' : 'mean'} speed of ${number(why.mps, 1)} m/s; the fastest sprinters stay below ${number(why.most_mps)} m/s`;
    case 'no_sprint':
      return 'times that no sprint from rest has';
    case 'start':
      return `a start of ${number(why.mps2, 0)} m/s2; the quickest stay below ${number(why.most_mps2)} m/s2`;
    case 'strides':
      return `strides ${number(Math.abs(100 * why.scale), 0)} % ${why.scale > 0 ? 'shorter' : 'longer'} than the foot sensors measured; up to ${number(100 * why.most, 0)} % can be`;
    case 'clock':
      return `a clock that started ${number(Math.abs(why.shift_s), 2)} s ${why.shift_s > 0 ? 'after' : 'before'} the first movement`;
    case 'running':
      return `${number(why.needed_s, 1)} s of running; the athlete ran for ${number(why.ran_s, 1)} s`;
    case 'body':
      return `a body that travels ${number(why.travels_m, 2)} m over a foot on the ground; runners travel ${number(why.least_m)} to ${number(why.most_m)} m`;
  }
}

/** Signal processing, and what it says of sensors and times. */
export const analysisFaults = {
  FILTER_DESIGN_INVALID: {
    message: ({ field, value, allowed }: { field: string; value: string; allowed: string }) =>
      `filter design: ${field} is ${value}; it must be ${allowed}; no filter was made.`,
    hint: 'Choose another cut-off or order, or record at a higher rate.',
  },
  SIGNAL_NOT_FINITE: {
    message: ({ index, value }: { index: number; value: string }) =>
      `signal sample ${index} is ${value}; every sample must be a finite number; nothing was filtered.`,
    hint: 'Split the signal at its gaps first.',
  },
  SPECTRUM_INPUT_INVALID: {
    message: ({ found, allowed }: { found: string; allowed: string }) =>
      `spectrum: ${found}; allowed: ${allowed}; nothing was computed.`,
    hint: 'Cut the signal at its gaps, or leave the length to the function.',
  },
  'TIMES_NOT_INCREASING.twice': {
    message: ({ distance_m, first_s, second_s }: Record<'distance_m' | 'first_s' | 'second_s', number>, say) =>
      `Times of the course contradict each other: ${say.number(distance_m)} m was reached after ${say.number(first_s)} s and after ${say.number(second_s)} s. Times must grow with the distance. All of them were left out; nothing else is lost.`,
    hint: 'Correct the times, then analyse again.',
  },
  'TIMES_NOT_INCREASING.back': {
    message: ({ near_m, near_s, far_m, far_s }: Record<'near_m' | 'near_s' | 'far_m' | 'far_s', number>, say) =>
      `Times of the course contradict each other: ${say.number(near_m)} m after ${say.number(near_s)} s, but ${say.number(far_m)} m after ${say.number(far_s)} s. Times must grow with the distance. All of them were left out; nothing else is lost.`,
    hint: 'Correct the times, then analyse again.',
  },
  TIMES_IMPOSSIBLE: {
    message: (
      {
        times,
        why,
        by_feet,
      }: { times: { distance_m: number; time_s: number }[]; why: ImpossibleTimes; by_feet?: SuggestedTime[] },
      say,
    ) =>
      `Times of the course: ${times.map((t) => `${say.number(t.distance_m)} m in ${say.number(t.time_s)} s`).join(', ')} would mean ${impossible(why, say)}. They were left out; nothing else is lost.${by_feet?.length ? ` The foot sensors suggest ${timesByFeetText(by_feet, say)}.` : ''}`,
    hint: 'Check the distance, the time, what the clock started with, and that they belong to this run.',
  },
  'TIMES_DOUBTED.left_out': {
    message: ({ times }: { times: SuggestedTime[] }, say) =>
      `Times of the course: ${typedTimesText(times, say)} does not fit this run, the other times do; the foot sensors suggest ${timesByFeetText(times, say)}. It was left out; the other times were used.`,
    hint: 'Look for a slipped digit or the time of another run, correct it, then analyse again.',
  },
  'TIMES_DOUBTED.odd': {
    message: (
      {
        distance_m,
        typed_s,
        by_others_s,
        half_width_s,
      }: {
        distance_m: number;
        typed_s: number;
        by_others_s: number;
        half_width_s: number;
      },
      { number },
    ) =>
      `Times of the course: ${number(distance_m)} m in ${number(typed_s)} s does not fit the others, which fit each other; they suggest ${number(by_others_s, 2)} ± ${number(half_width_s, 2)} s. It was left out; the other times were used.`,
    hint: 'Look for a slipped digit, a gate that somebody else broke, or one that stood elsewhere; correct it, then analyse again.',
  },
  'TIMES_DOUBTED.apart': {
    message: ({ worst_s }: { worst_s: number }, { number }) =>
      `Times of the course do not fit one run: they lie up to ${number(worst_s, 2)} s off the best curve, and which one is wrong cannot be told. All were used; speed and step length are the less certain for it.`,
    hint: 'Check the distances, the times, and what the clock started with.',
  },
  'TIMES_DOUBTED.kept': {
    message: ({ times }: { times: SuggestedTime[] }, say) =>
      `Times of the course: ${typedTimesText(times, say)} is hard to believe of this run; the foot sensors suggest ${timesByFeetText(times, say)}. It was used as it is, so speed and step length rest on it.`,
    hint: 'Check the distance, the time, and what the clock started with.',
  },
  AXES_DOUBTFUL: {
    message: (
      {
        side,
        mounting,
        gravity_g,
        turned_g,
        share,
        axes,
      }: Worn & { gravity_g: number; turned_g: number; share: number; axes: string[] },
      say,
    ) =>
      `${side} ${mounting} sensor: turned back by the rotation, the acceleration of running averages to ${say.number(gravity_g, 2)} g; 1 g within ${say.number(100 * share, 0)} % is expected, and ${say.number(turned_g, 2)} g comes out with rotation about ${axes.join(', ')} turned round; it was analysed as it is.`,
    hint: ({ axes }: { axes: string[] }) =>
      `Give the signs of the axes in a layout: rotation about ${axes.join(', ')} is reversed, or the same axes of acceleration are mirrored.`,
  },
  SENSOR_SCALE_DOUBTFUL: {
    message: (
      {
        side,
        mounting,
        resting_mps2,
        gravity_mps2,
        share,
      }: Worn & { resting_mps2: number; gravity_mps2: number; share: number },
      say,
    ) =>
      `${side} ${mounting} sensor: at rest it reads ${say.number(resting_mps2, 2)} m/s2; ${say.number(gravity_mps2, 2)} within ${say.number(100 * share, 0)} % is expected; it was analysed as it is.`,
    hint: 'Check the scale of acceleration in the layout, or calibrate the sensor.',
  },
  MOUNTING_DOUBTFUL: {
    message: ({ side, mounting, why }: Worn & { why: Reason }, say) =>
      `${side} ${mounting} sensor: ${say.because(why)}; so it seems to have been worn on the ${other(mounting)}. It was analysed as a ${mounting} sensor: contacts are missed, and contact times, which would be wrong by tens of milliseconds, are left out.`,
    hint: ({ mounting }: Worn) => `Choose the mounting '${other(mounting)}' for this file and analyse again.`,
  },
  SIDES_DOUBTFUL: {
    message: ({ side, mounting, why }: Worn & { why: Reason }, say) =>
      `${side} ${mounting} sensor: ${say.because(why)}; so left and right seem swapped. They were analysed as stated: every contact counts for the other leg.`,
    hint: 'Swap the two files, or the labels of the sensors, and analyse again.',
  },
  SENSOR_LOOSE: {
    message: ({ side, mounting, why }: Worn & { why: Reason }, say) =>
      `${side} ${mounting} sensor: ${say.because(why)}; so it sits loose. Contacts were analysed as they are: touchdown and toe-off are blurred.`,
    hint: 'Tighten the strap or the lace over the sensor, and press it against the bone or the shoe.',
  },
  SENSOR_TURNED: {
    message: ({ side, mounting, why }: Worn & { why: Reason }, say) =>
      `${side} ${mounting} sensor: ${say.because(why)}; so it slipped on the leg. It was analysed as it is.`,
    hint: 'Fasten it so that it cannot turn, and put it back where it was before the next repetition.',
  },
} as const satisfies FaultRoom;

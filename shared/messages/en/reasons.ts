import { MOUNTING_PLACES } from '../../mountings.ts';
import type { Mounting } from '../../words.ts';
import type { PhraseRoom } from '../sentence.ts';
import { agreementReasons } from './agreement.ts';
import { layoutEvidence } from './layout-evidence.ts';
import { layoutReasons } from './layout-reasons.ts';
import { readingChecks } from './reading-checks.ts';
import { rowsSetAside } from './rows-set-aside.ts';

const other = (mounting: Mounting): Mounting => MOUNTING_PLACES[mounting].mistaken_for;
type Rate = { rate_hz: number };

/** Why something is not measurable, or only with doubt: the middle of a sentence, without capital and full stop. */
export const REASONS_EN = {
  ...layoutReasons,
  ...layoutEvidence,
  ...agreementReasons,
  ...readingChecks,
  ...rowsSetAside,
  // Steps and strides
  one_foot_alone: 'one foot alone: assumes that left and right are alike',
  no_next_contact_of_other_foot: 'no following contact of the other foot',
  no_next_contact_of_this_foot: 'no following contact of this foot',
  contacts_missing_after: ({ contacts }: { contacts: number }, say) =>
    say.plural(contacts, {
      one: 'a contact is missing after this one',
      other: `${say.number(contacts)} contacts are missing after this one`,
    }),
  feet_disagree:
    'steps after the left and after the right foot do not go together: the clocks of the two sensors seem apart',
  step_unlike_neighbours: 'the step is unlike those around it: a contact is missing or wrong',
  no_step_time: 'no step time',
  toe_off_unclear: 'the push-off does not show clearly in the acceleration',
  toe_off_rough: ({ u_ms }: { u_ms: number }, say) =>
    `toe-off shows too roughly: the contact time would be uncertain by ${say.number(u_ms)} ms`,
  lost_at_touchdown: 'samples were lost at touchdown',
  clipped_before_touchdown: 'acceleration was clipped before touchdown',
  landing_unclear: 'the acceleration of this stride is unlike those that landings without a gyroscope are known from',
  lost_at_toe_off: 'samples were lost at toe-off',
  rate_too_low: ({ rate_hz, least_hz }: Rate & { least_hz: number }, say) =>
    `${say.number(rate_hz, 0)} samples a second cannot give a contact time; at least ${say.number(least_hz)} are needed`,
  contact_of_few_samples: ({ samples, least }: { samples: number; least: number }, say) =>
    `so short a contact fills ${say.number(samples, 0)} samples at this rate; at least ${say.number(least)} are needed`,
  worn_elsewhere: ({ mounting }: { mounting: Mounting }) =>
    `the sensor moves as one on the ${other(mounting)}: choose that mounting and analyse again`,
  // Foot sensor
  no_gyroscope: 'no gyroscope',
  needs_gyroscope: 'needs a gyroscope',
  needs_sensor_on: ({ mounting }: { mounting: Mounting }) => `needs a sensor on the ${mounting}`,
  foot_not_at_rest: 'the foot was not seen at rest',
  foot_not_at_rest_twice: 'the foot was not at rest at both ends of the stride',
  foot_height_open: 'the height of the foot does not come back over the stride',
  gyroscope_range: 'beyond the range of the gyroscope',
  swing_beyond_gyroscope: 'the swing went beyond the range of the gyroscope',
  swing_beyond_accelerometer: 'the swing went beyond the range of the accelerometer',
  samples_missing_in_stride: 'samples are missing in the stride',
  no_vertical: 'no stride shows the vertical and the way',
  no_standing: 'no quiet standing in the recording to show how the sensor sits on the shank',
  clipped_or_no_stride: 'clipped or missing samples, or no neighbouring stride',
  axes_doubtful_of: ({ side }: { side: string }) =>
    `axes of rotation and of acceleration of the ${side} sensor do not belong together`,
  // Speed and times
  no_time: 'no time over a known distance',
  no_foot_sensor_no_time: 'no foot sensor, and no time over a known distance',
  no_contacts: 'no contacts',
  no_curve: 'no acceleration curve',
  fastest_strides_clipped: 'the fastest strides went beyond the range of a foot sensor, and nobody took a time',
  top_speed_hardly_known: 'the foot sensors alone hardly tell it, and nobody took a time',
  flying_start: 'a flying start shows no acceleration',
  no_stretch_fits: 'no stretch of the run fits the time over the flying course',
  times_contradict: 'the times contradict each other',
  times_doubted: 'the times cannot be of this run; check them and the clock they run from',
  outside_timed_stretch: 'outside the timed stretch',
  after_last_time: 'after the last timed distance',
  no_clock_to_gates: 'no clock ties the gates to the sensors: the stretch with the shortest contacts',
  start_not_seen: 'counted from the first contact: the start was not seen',
  from_foot_sensors_alone: 'from the foot sensors alone: no time over a known distance',
  timed_with_cautions: ({
    one_time,
    start_unseen,
    ends_early,
  }: {
    one_time: boolean;
    start_unseen: boolean;
    ends_early: boolean;
  }) =>
    [
      one_time && 'one time only: how fast top speed is approached comes from the contact times and from what is usual',
      start_unseen && 'the first movement was not seen: taken as 0.4 s before the first touchdown',
      ends_early && 'the run ends before the course does: do the times belong to it?',
    ]
      .filter(Boolean)
      .join('; '),
  // Forces
  body_mass_unknown: 'body mass unknown',
  body_mass_or_leg_unknown: 'body mass or leg length unknown',
  body_mass_or_stature_unknown: 'body mass or stature unknown',
  no_force_speed_line: 'the curve gives no falling force-speed line',
  wind_unknown: 'wind unknown: the uncertainty allows for 2 m/s either way',
  not_steady: 'speeding up or slowing down: the model is one of steady running',
  // How good a recording is
  good: 'rate, range and losses are within what it needs',
  samples_lost: ({ share }: { share: number }, say) => `${say.number(100 * share, 1)} % of the samples were lost`,
  stamps_jitter: 'the time stamps jitter',
  moves_as_other: ({ mounting }: { mounting: Mounting }) => `the sensor moves as one on the ${other(mounting)}`,
  moves_as_other_contacts_missed: ({ mounting }: { mounting: Mounting }) =>
    `the sensor moves as one on the ${other(mounting)}, and contacts are missed`,
  axes_doubtful: 'axes of rotation and of acceleration do not belong together',
  full_scale_in_contacts: ({ clipped, contacts }: { clipped: number; contacts: number }) =>
    `a channel reached its full scale in ${clipped} of ${contacts} contacts`,
  rings: 'the sensor rings on its strap',
  turned: 'the sensor turned on the leg',
  rate_no_stride: ({ rate_hz }: Rate, say) => `${say.number(rate_hz, 0)} samples a second do not resolve a stride`,
  rate_touchdown: ({ rate_hz, good_to_ms }: Rate & { good_to_ms: number }, say) =>
    `${say.number(rate_hz, 0)} samples a second: a touchdown is good to ${say.number(good_to_ms, 0)} ms`,
  rate_contact: ({ rate_hz, samples }: Rate & { samples: number }, say) =>
    `${say.number(rate_hz, 0)} samples a second: a contact of 100 ms would hold less than ${say.number(samples)} samples`,
  rate_smears: ({ rate_hz }: Rate, say) => `${say.number(rate_hz, 0)} samples a second smear the impact`,
  rate_angles: ({ rate_hz }: Rate, say) =>
    `${say.number(rate_hz, 0)} samples a second do not give the instants that the angles are read at`,
  no_gyroscope_toe_off: 'no gyroscope: toe-off is found from acceleration alone',
  no_gyroscope_turning: 'no gyroscope: turning is not measured',
  no_gyroscope_direction: 'no gyroscope: the direction of acceleration is unknown',
  swapped_toe_out: 'left and right seem swapped: toe out and toe in are then exchanged',
  full_scale_most_swings: 'the gyroscope reached its full scale in most swings',
  full_scale_some_swings: 'the gyroscope reached its full scale in some swings',
  // How a sensor was worn
  turning_unseen: 'without a gyroscope the turning of the leg is not seen',
  no_running: 'no running was found',
  few_strides: 'too few strides of running',
  segment_seen: (
    { value, strides, foot_below, shank_above }: Record<'value' | 'strides' | 'foot_below' | 'shank_above', number>,
    say,
  ) =>
    `while a foot lies flat it turns at ${say.number(value, 2)} of its mean backward rate (${strides} ${say.plural(strides, { one: 'stride', other: 'strides' })}); below ${say.number(foot_below)} it is a foot, above ${say.number(shank_above)} a shank`,
  ringing_needs: ({ least_hz }: { least_hz: number }) =>
    `it takes some seconds of running at ${least_hz} samples a second or more`,
  breaks_off: (
    { break_hz, break_db, factor, duration_s }: Record<'break_hz' | 'break_db' | 'factor' | 'duration_s', number>,
    say,
  ) =>
    `above ${say.number(break_hz, 0)} Hz the acceleration breaks off, ${say.number(break_db, 1)} dB within a factor of ${say.number(factor)}, as on a soft strap (${say.number(duration_s, 1)} s of running)`,
  rings_at: (
    {
      frequency_hz,
      rise_db,
      fall_db,
      duration_s,
    }: Record<'frequency_hz' | 'rise_db' | 'fall_db' | 'duration_s', number>,
    say,
  ) =>
    `the acceleration rings at ${say.number(frequency_hz, 0)} Hz, ${say.number(rise_db, 1)} dB out of what lies below and ${say.number(fall_db, 1)} dB out of what lies above (${say.number(duration_s, 1)} s of running)`,
  no_resonance: ({ to_hz, duration_s }: Record<'to_hz' | 'duration_s', number>, say) =>
    `no narrow resonance below ${say.number(to_hz)} Hz (${say.number(duration_s, 1)} s of running)`,
  axis_turned: ({ angle_deg, limit_deg, at_s }: { angle_deg: number; limit_deg: number; at_s: number | null }, say) =>
    `the axis of the swing turned by ${say.number(angle_deg, 0)} degrees in the sensor's own axes, ${at_s === null ? 'little by little over the recording' : `at ${say.number(at_s, 1)} s`}; up to ${say.number(limit_deg, 0)} degrees are the scatter of these strides`,
  axis_kept: ({ angle_deg }: { angle_deg: number }, say) =>
    `the axis of the swing kept its place to ${say.number(angle_deg, 0)} degrees`,
  needs_both_legs: 'it takes both legs: on a bend one leg alone leans like the other',
  needs_strides_of_both: 'it takes some whole strides of both legs, with gyroscopes',
  outward_turn: (
    { value, right_above, swapped_below }: Record<'value' | 'right_above' | 'swapped_below', number>,
    say,
  ) =>
    `outward turn before toe-off ${say.number(value, 2)} of what is usual for the stated sides; above ${say.number(right_above)} they are as stated, below ${say.number(swapped_below)} swapped`,
  axis_reversed: 'an axis is mirrored or reversed',
  mounting_doubtful: 'the mounting is doubtful',
  a_sensor_turned: 'a sensor turned on the leg',
} as const satisfies PhraseRoom;

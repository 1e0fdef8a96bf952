/**
 * What a coach works on with an athlete, tied to the quantities a sensor on the foot or shank can give. What coaches
 * usually try is common practice, offered as a reminder and not as a prescription.
 */

import type { CoachQuantity } from '../../shared/coach-quantities.ts';
import type { Aim, Focus, FocusQuantity } from '../../shared/schemas/coach/focus.ts';
import type { Mounting } from '../../shared/words.ts';

const on = (quantity: CoachQuantity, aim: Aim, mounting: Mounting | null = null): FocusQuantity => ({
  quantity,
  aim,
  mounting,
});

const UPPER_BODY = 'Arms, head and trunk: watch them yourself and keep a note or a rating with the repetition.';
const PRACTICE = 'common practice';

export const FOCUSES: readonly Focus[] = [
  {
    key: 'contact_time',
    name: 'Short contact',
    meaning: 'How long each foot stays on the ground at speed; fast runners leave it sooner.',
    quantities: [
      on('contact_time_ms', 'lower'),
      on('duty_factor', 'lower'),
      on('flight_time_ms', 'no fixed direction'),
    ],
    coaches_try: [
      'Land with the foot already moving back under the hip.',
      'Stiff ankle drills: low pogo jumps, straight-leg runs over 20 yd.',
      'Full-speed repetitions short enough that the last is as quick as the first.',
    ],
    sensor_cannot_see: `How stiff the ankle and the hip are while the foot is down. ${UPPER_BODY}`,
    source: PRACTICE,
  },
  {
    key: 'foot_landing',
    name: 'Landing under the hip',
    meaning:
      'Where and how the foot lands: reaching ahead of the knee brakes, a foot that comes down from above does not.',
    quantities: [
      on('shank_angle_touchdown_deg', 'lower', 'shank'),
      on('foot_pitch_touchdown_deg', 'no fixed direction', 'foot'),
    ],
    coaches_try: [
      'Part-speed runs at 50 to 75 % over 30 to 40 yd, thinking of the foot coming down from above.',
      'Runs over low marks set a little closer than the normal step.',
      'Do not ask for a shorter step at full speed before the landing has changed at half speed.',
    ],
    sensor_cannot_see: `How far the foot is from the hip: the sensor knows its own angle, not where the hip is. ${UPPER_BODY}`,
    source: PRACTICE,
  },
  {
    key: 'push_finish',
    name: 'Finish of the push',
    meaning:
      'How far the leg turns over the foot before it leaves the ground: cut short it wastes force, dragged out it is late.',
    quantities: [
      on('shank_rotation_deg', 'no fixed direction', 'shank'),
      on('foot_pitch_toe_off_deg', 'no fixed direction', 'foot'),
    ],
    coaches_try: [
      'Three-point starts over 10 to 20 yd, pushing the ground away behind.',
      'Uphill runs over 20 yd at three-quarter effort.',
      'At full speed, leave the ground early: long pushes belong to acceleration.',
    ],
    sensor_cannot_see: `Whether the hip is fully straight. ${UPPER_BODY}`,
    source: PRACTICE,
  },
  {
    key: 'foot_direction',
    name: 'Foot pointing ahead',
    meaning: 'Whether the foot points in the direction of running, or in or out, while it is on the ground.',
    quantities: [on('foot_progression_deg', 'nearer zero', 'foot')],
    coaches_try: [
      'Half-speed runs along a line, feet on either side of it and pointing along it.',
      "Leave it alone when it is the athlete's build and nothing hurts: not every foot points ahead.",
    ],
    sensor_cannot_see: `Whether the turn comes from the hip, the knee or the foot. ${UPPER_BODY}`,
    source: PRACTICE,
  },
  {
    key: 'heel_recovery',
    name: 'Heel recovery',
    meaning: 'How high the heel comes and how far the leg folds after the push; a folded leg swings through faster.',
    quantities: [
      on('heel_recovery_height_m', 'no fixed direction', 'foot'),
      on('swing_fold_deg', 'higher'),
      on('swing_time_ms', 'lower'),
    ],
    coaches_try: [
      'Part-speed runs in which the heel passes the other knee.',
      'Fast-leg drills, one side at a time, every third step.',
    ],
    sensor_cannot_see: `The knee lift in front. ${UPPER_BODY}`,
    source: PRACTICE,
  },
  {
    key: 'evenness',
    name: 'Evenness left and right',
    meaning:
      'Whether left and right do the same, beyond what each side varies by itself; it is no sign of injury by itself.',
    quantities: [
      on('contact_time_side_difference_ms', 'nearer zero'),
      on('step_time_side_difference_ms', 'nearer zero'),
    ],
    coaches_try: [
      'Check the easy reasons first: the lane, the wind, the shoes, where the sensors sit.',
      'Look at it over several sessions; one repetition says little.',
      'Single-leg strength work on both sides alike.',
    ],
    sensor_cannot_see: `Why the sides differ. A limp or pain is for a clinician, not for a number. ${UPPER_BODY}`,
    source: 'common practice; reading of side differences after Exell 2017, doi 10.1111/sms.12759',
  },
  {
    key: 'rhythm',
    name: 'Rhythm',
    meaning: 'How speed is made up: more steps a second, or longer steps; most athletes lean on one of the two.',
    quantities: [
      on('step_rate_hz', 'no fixed direction'),
      on('step_length_m', 'no fixed direction'),
      on('speed_max_mps', 'higher'),
    ],
    coaches_try: [
      'For more rate: quick steps over close marks at three-quarter effort, then without marks.',
      'For more length: stronger pushes and better landing, never reaching.',
      'Change one of the two by a little and see what the other does.',
    ],
    sensor_cannot_see: UPPER_BODY,
    source: PRACTICE,
  },
  {
    key: 'acceleration_end',
    name: 'How long they accelerate',
    meaning:
      'Where the athlete stops gaining speed; common practice expects upright and at full speed after 15 to 20 yards.',
    quantities: [on('acceleration_end_m', 'no fixed direction'), on('speed_max_mps', 'higher')],
    coaches_try: [
      'Standing and three-point starts over 20 yd, rising a little with every step.',
      'Forty yards with marks at 10 and 20: still pushing at the first, upright at the second.',
    ],
    sensor_cannot_see: `How upright the trunk is. ${UPPER_BODY}`,
    source: PRACTICE,
  },
];

const BY_KEY = new Map(FOCUSES.map((focus) => [focus.key, focus]));

/** The focus of that key, or null. */
export function findFocus(key: string): Focus | null {
  return BY_KEY.get(key) ?? null;
}

/**
 * The one quantity of a focus to show between repetitions, for sensors mounted there.
 * @returns null when none of the focus's quantities can be measured with that mounting
 */
export function leadQuantity(focus: Focus, mounting: Mounting | null): string | null {
  const fits = focus.quantities.find(
    (entry) => entry.mounting === null || mounting === null || entry.mounting === mounting,
  );
  return fits?.quantity ?? null;
}

/** What coaches usually want of a quantity; common practice. Quantities of no focus have none. */
const AIM_OF = new Map<string, Aim>([
  ...FOCUSES.flatMap((focus) => focus.quantities.map(({ quantity, aim }) => [quantity, aim] as const)),
  ['time_s', 'lower'],
]);

/** Is 'beyond normal' in this direction the unwanted one? Without a fixed direction any lasting change counts. */
export function isWorse(quantity: string, beyond: 'above' | 'below', value: number): boolean {
  const aim = AIM_OF.get(quantity) ?? 'no fixed direction';
  if (aim === 'lower') return beyond === 'above';
  if (aim === 'higher') return beyond === 'below';
  if (aim === 'nearer zero') return value > 0 ? beyond === 'above' : beyond === 'below';
  return true;
}

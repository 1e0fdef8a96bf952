/**
 * What a coach can work on with an athlete, tied to the quantities a sensor on the foot or shank can give: the few for which
 * there are published findings, each with its source, and the coach's own (own-focuses.ts). Cues are the coach's alone.
 */

import type { CoachQuantity } from '../../shared/coach-quantities.ts';
import type { Aim } from '../../shared/coach-words.ts';
import type { Focus, FocusQuantity } from '../../shared/schemas/coach/focus.ts';
import type { Mounting } from '../../shared/words.ts';

const on = (quantity: CoachQuantity, aim: Aim): FocusQuantity => ({ quantity, aim, mounting: null, target: null });
const listed = (focus: Pick<Focus, 'key' | 'name' | 'meaning' | 'quantities' | 'sensor_cannot_see' | 'source'>) => ({
  ...focus,
  cue: '',
  coach_focus_id: null,
});

const UPPER_BODY = 'Arms, head and trunk: watch them yourself and keep a note or a rating with the repetition.';

export const FOCUSES: readonly Focus[] = [
  listed({
    key: 'contact_time',
    name: 'Short contact',
    meaning: 'How long each foot stays on the ground at speed.',
    quantities: [
      on('contact_time_ms', 'lower'),
      on('duty_factor', 'lower'),
      on('flight_time_ms', 'no fixed direction'),
    ],
    sensor_cannot_see: `How stiff the ankle and the hip are while the foot is down. ${UPPER_BODY}`,
    source:
      'Blauberger, Horsch and Lames 2021, Sensors 21:7331, table 1: 163 ms over the first five steps of a 100 m, 105 to 109 ms at speed; Meyers and others (n = 189): boys who gained 10.4 % of speed had contacts 3.6 % shorter',
  }),
  listed({
    key: 'evenness',
    name: 'Evenness left and right',
    meaning:
      'Whether left and right do the same, beyond what each side varies by itself. It is no sign of injury by itself, and among sprinters it was not related to speed.',
    quantities: [
      on('contact_time_side_difference_ms', 'nearer zero'),
      on('step_time_side_difference_ms', 'nearer zero'),
    ],
    sensor_cannot_see: `Why the sides differ. A limp or pain is for a clinician, not for a number. ${UPPER_BODY}`,
    source: 'Exell 2017, Scand J Med Sci Sports 27:1273, doi 10.1111/sms.12759',
  }),
  listed({
    key: 'rhythm',
    name: 'Step rate and step length',
    meaning: 'How speed is made up: more steps a second, or longer steps. Athletes rely on one or the other.',
    quantities: [
      on('step_rate_hz', 'no fixed direction'),
      on('step_length_m', 'no fixed direction'),
      on('speed_max_mps', 'higher'),
    ],
    sensor_cannot_see: UPPER_BODY,
    source:
      'Salo et al. 2011, Med Sci Sports Exerc: reliance on step frequency or step length differs between athletes',
  }),
  listed({
    key: 'acceleration_end',
    name: 'How long they accelerate',
    meaning: 'Where the athlete stops gaining speed. Acceleration has sections with transitions between them.',
    quantities: [on('acceleration_end_m', 'no fixed direction'), on('speed_max_mps', 'higher')],
    sensor_cannot_see: `How upright the trunk is. ${UPPER_BODY}`,
    source: 'Nagahara 2014, Biol Open 3:689-699: two transitions divide acceleration into three sections',
  }),
];

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

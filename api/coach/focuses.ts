/**
 * What a coach can work on with an athlete, tied to the quantities a sensor on the foot or shank can give: the few for which
 * there are published findings, each with its source, and the coach's own (own-focuses.ts). Cues are the coach's alone.
 */

import { JUDGEMENT_EN } from '../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../shared/messages/judgement-words.ts';
import type { CoachQuantity } from '../../shared/coach-quantities.ts';
import type { Aim } from '../../shared/coach-words.ts';
import type { Focus, FocusQuantity } from '../../shared/schemas/coach/focus.ts';
import type { Mounting } from '../../shared/words.ts';

const on = (quantity: CoachQuantity, aim: Aim): FocusQuantity => ({ quantity, aim, mounting: null, target: null });

/** Published focuses: what each rests on. Their words stand in shared/messages, by the key. */
const PUBLISHED = {
  contact_time: {
    quantities: [
      on('contact_time_ms', 'lower'),
      on('duty_factor', 'lower'),
      on('flight_time_ms', 'no fixed direction'),
    ],
    unseen: 'focus_contact_time_unseen',
    source:
      'Blauberger, Horsch and Lames 2021, Sensors 21:7331, table 1: 163 ms over the first five steps of a 100 m, 105 to 109 ms at speed; Meyers and others (n = 189): boys who gained 10.4 % of speed had contacts 3.6 % shorter',
  },
  evenness: {
    quantities: [
      on('contact_time_side_difference_ms', 'nearer zero'),
      on('step_time_side_difference_ms', 'nearer zero'),
    ],
    unseen: 'focus_evenness_unseen',
    source: 'Exell 2017, Scand J Med Sci Sports 27:1273, doi 10.1111/sms.12759',
  },
  rhythm: {
    quantities: [
      on('step_rate_hz', 'no fixed direction'),
      on('step_length_m', 'no fixed direction'),
      on('speed_max_mps', 'higher'),
    ],
    unseen: null,
    source:
      'Salo et al. 2011, Med Sci Sports Exerc: reliance on step frequency or step length differs between athletes',
  },
  acceleration_end: {
    quantities: [on('acceleration_end_m', 'no fixed direction'), on('speed_max_mps', 'higher')],
    unseen: 'focus_acceleration_end_unseen',
    source: 'Nagahara 2014, Biol Open 3:689-699: two transitions divide acceleration into three sections',
  },
} as const;
type PublishedKey = keyof typeof PUBLISHED;
const KEYS = Object.keys(PUBLISHED) as PublishedKey[];

/** The list in one language. */
export function publishedFocuses(words: JudgementWords = JUDGEMENT_EN): Focus[] {
  const say = words.coach.planning;
  return KEYS.map((key) => {
    const { quantities, unseen, source } = PUBLISHED[key];
    return {
      key,
      name: say(`focus_${key}`),
      meaning: say(`focus_${key}_meaning`),
      cue: '',
      quantities: [...quantities],
      sensor_cannot_see: [...(unseen ? [say(unseen)] : []), say('upper_body')].join(' '),
      source,
      coach_focus_id: null,
    };
  });
}

/** In English, for what needs no words. */
export const FOCUSES: readonly Focus[] = publishedFocuses();

/** A focus in the reader's language; the coach's own keeps the coach's words. */
export function tellFocus(focus: Focus, words: JudgementWords): Focus {
  if (focus.coach_focus_id !== null) return focus;
  return publishedFocuses(words).find(({ key }) => key === focus.key) ?? focus;
}

/** Its name alone. */
export function focusName(key: string, name: string, words: JudgementWords): string {
  return (KEYS as string[]).includes(key) ? words.coach.planning(`focus_${key as PublishedKey}`) : name;
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

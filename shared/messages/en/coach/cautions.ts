import type { PhraseRoom } from '../../sentence.ts';

/** Cautions, by their code. */
export const cautionPhrases = {
  MEASURES_ONLY:
    'Cinderlane measures; it does not diagnose. A longer contact or a side difference is no sign of injury by itself.',
  STOP_ON_PAIN:
    'Sudden pain in the back of the thigh, hip or groin, a pop, a limp, or pain at rest: stop, tell an adult, see a clinician. Never run through it.',
  MINORS: 'Minors train under a responsible adult. Local rules and licensed practice come first.',
  RETURNING:
    'Returning from an injury: no comparison is made. Sprinting comes back step by step, as the clinician who looks after the athlete says; nearly a third of hamstring injuries come again within a year.',
  ADULT_FIGURES:
    'Figures of Haugen 2019 are of elite adult sprinters: limits to stay below, no aim, and none for minors. After a break, come back step by step: fewer repetitions, below full speed.',
  HEAT: 'On hot days: longer rests, shade and water, and stop anyone who is not used to the heat. Follow the local heat rules.',
  STRENGTH_SUPERVISED:
    'Strength work by minors needs a qualified person beside it: 2 to 3 non-consecutive days a week, start light, small steps.',
} as const satisfies PhraseRoom;

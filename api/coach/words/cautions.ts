/**
 * Shown wherever advice is shown. Cinderlane measures; it does not diagnose, and local rules and licensed practice
 * come before anything written here.
 */
import type { Sourced } from '../../../shared/schemas/coach/caution.ts';

export const CAUTIONS: readonly Sourced[] = [
  {
    code: 'MEASURES_ONLY',
    text: 'Cinderlane measures; it does not diagnose. A longer contact or a side difference is no sign of injury by itself.',
    source:
      'Malisoux et al. (side difference did not raise injury risk in 800+ runners); Carton-Llorente 2024, Sports 12:117',
  },
  {
    code: 'STOP_ON_PAIN',
    text: 'Sudden pain in the back of the thigh, hip or groin, a pop, a limp, or pain at rest: stop, tell an adult, see a clinician. Never run through it.',
    source: 'Ferraro 2023, J Pediatr Orthop (avulsions in adolescents); Erickson and Sherry 2017, J Sport Health Sci',
  },
  {
    code: 'MINORS',
    text: 'Minors train under a responsible adult. Local rules and licensed practice come first.',
    source: 'common practice; Faigenbaum 2009, JSCR 23:S60-S79 (supervised training)',
  },
];

export const HEAT_CAUTION: Sourced = {
  code: 'HEAT',
  text: 'On hot days: longer rests, shade and water, and stop anyone who is not used to the heat. Follow the local heat rules.',
  source: 'AAP 2011, reaffirmed 2019, Pediatrics 128:e741',
};

export const STRENGTH_CAUTION: Sourced = {
  code: 'STRENGTH_SUPERVISED',
  text: 'Strength work by minors needs a qualified person beside it: 2 to 3 non-consecutive days a week, start light, small steps.',
  source: 'Faigenbaum 2009, JSCR 23:S60-S79; load steps of 5 to 10 % from memory',
};

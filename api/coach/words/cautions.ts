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
    source: 'Faigenbaum 2009, JSCR 23:S60-S79 (supervised training)',
  },
];

/** Stands first wherever an athlete is marked as returning. */
export const RETURN_CAUTION: Sourced = {
  code: 'RETURNING',
  text: 'Returning from an injury: no comparison is made. Sprinting comes back step by step, as the clinician who looks after the athlete says; nearly a third of hamstring injuries come again within a year.',
  source:
    'Paton 2023, Br J Sports Med, doi 10.1136/bjsports-2021-105384 (dose raised gradually to full sprinting); Erickson and Sherry 2017, J Sport Health Sci',
};

/** The cautions of a page of advice about some athletes. */
export function cautionsFor(athletes: readonly { returning: boolean }[]): Sourced[] {
  return athletes.some((athlete) => athlete.returning) ? [RETURN_CAUTION, ...CAUTIONS] : [...CAUTIONS];
}

/** Wherever figures of adult sprinters stand. */
export const ADULT_FIGURES_CAUTION: Sourced = {
  code: 'ADULT_FIGURES',
  text: 'Figures of Haugen 2019 are of elite adult sprinters: limits to stay below, no aim, and none for minors. After a break, come back step by step: fewer repetitions, below full speed.',
  source:
    'Haugen 2019, doi 10.1186/s40798-019-0221-0 (gradual familiarisation; rapid rises after the off-season and soft-tissue injury)',
};

export const HEAT_CAUTION: Sourced = {
  code: 'HEAT',
  text: 'On hot days: longer rests, shade and water, and stop anyone who is not used to the heat. Follow the local heat rules.',
  source: 'AAP 2011, reaffirmed 2019, Pediatrics 128:e741',
};

export const STRENGTH_CAUTION: Sourced = {
  code: 'STRENGTH_SUPERVISED',
  text: 'Strength work by minors needs a qualified person beside it: 2 to 3 non-consecutive days a week, start light, small steps.',
  source: 'Faigenbaum 2009, JSCR 23:S60-S79',
};

/**
 * Shown wherever advice is shown. Cinderlane measures; it does not diagnose, and local rules and licensed practice
 * come before anything written here. The words stand in shared/messages, by the code.
 */
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { Sourced } from '../../../shared/schemas/coach/caution.ts';

const SOURCES = {
  MEASURES_ONLY:
    'Malisoux et al. (side difference did not raise injury risk in 800+ runners); Carton-Llorente 2024, Sports 12:117',
  STOP_ON_PAIN:
    'Ferraro 2023, J Pediatr Orthop (avulsions in adolescents); Erickson and Sherry 2017, J Sport Health Sci',
  MINORS: 'Faigenbaum 2009, JSCR 23:S60-S79 (supervised training)',
  RETURNING:
    'Paton 2023, Br J Sports Med, doi 10.1136/bjsports-2021-105384 (dose raised gradually to full sprinting); Erickson and Sherry 2017, J Sport Health Sci',
  ADULT_FIGURES:
    'Haugen 2019, doi 10.1186/s40798-019-0221-0 (gradual familiarisation; rapid rises after the off-season and soft-tissue injury)',
  HEAT: 'AAP 2011, reaffirmed 2019, Pediatrics 128:e741',
  STRENGTH_SUPERVISED: 'Faigenbaum 2009, JSCR 23:S60-S79',
} as const;
export type CautionCode = keyof typeof SOURCES;

/** Beside every page of advice. */
const ALWAYS = ['MEASURES_ONLY', 'STOP_ON_PAIN', 'MINORS'] as const;

/** One caution with its source. */
export function caution(code: CautionCode, words: JudgementWords = JUDGEMENT_EN): Sourced {
  return { code, text: words.coach.cautions(code), source: SOURCES[code] };
}

/**
 * The cautions of a page of advice about some athletes.
 * @param more those that belong to the page, behind the ones that always stand
 */
export function cautionsFor(
  athletes: readonly { returning: boolean }[],
  words: JudgementWords = JUDGEMENT_EN,
  more: readonly CautionCode[] = [],
): Sourced[] {
  const returning = athletes.some((athlete) => athlete.returning) ? (['RETURNING'] as const) : [];
  return [...returning, ...ALWAYS, ...more].map((code) => caution(code, words));
}

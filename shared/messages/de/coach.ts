import type { CoachPhrases } from '../coach-phrases.ts';
import { agreementPhrases_de } from './coach/agreement.ts';
import { judgedPhrases_de } from './coach/judged.ts';
import { cautionPhrases_de } from './coach/cautions.ts';
import { planningPhrases_de } from './coach/planning.ts';
import { testingPhrases_de } from './coach/testing.ts';
import { reportingPhrases_de } from './coach/reporting.ts';

export const COACH_DE: CoachPhrases = {
  judged: judgedPhrases_de,
  cautions: cautionPhrases_de,
  planning: planningPhrases_de,
  testing: testingPhrases_de,
  reporting: reportingPhrases_de,
  agreement: agreementPhrases_de,
};

import { agreementPhrases } from './coach/agreement.ts';
import { judgedPhrases } from './coach/judged.ts';
import { cautionPhrases } from './coach/cautions.ts';
import { planningPhrases } from './coach/planning.ts';
import { testingPhrases } from './coach/testing.ts';
import { reportingPhrases } from './coach/reporting.ts';

/** What the server says to a coach beside the verdict, by room. */
export const COACH_EN = {
  judged: judgedPhrases,
  cautions: cautionPhrases,
  planning: planningPhrases,
  testing: testingPhrases,
  reporting: reportingPhrases,
  agreement: agreementPhrases,
};

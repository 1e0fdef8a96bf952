import { Type } from 'typebox';
import { localDate } from '../../../shared/dates.ts';
import { Done, FaultAnswer, Id } from '../../../shared/schemas/common.ts';
import { KeepBody, RetentionQuestionList } from '../../../shared/schemas/retention.ts';
import { keepForAYear, retentionQuestions } from '../../coach/people/retention.ts';
import type { ApiRoutes } from '../../http/context.ts';

const tags = ['coach'];

/** The yearly question: whose data are still needed? */
export const retentionRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/coach/retention',
    {
      schema: {
        tags,
        description: 'Athletes who have not run for a year, and for whom this was not answered within a year.',
        response: { 200: RetentionQuestionList, default: FaultAnswer },
      },
    },
    async () => ({ items: retentionQuestions(store, localDate(new Date())) }),
  );

  app.post(
    '/coach/athletes/:athlete_id/keep',
    {
      schema: {
        tags,
        description: 'The data are still needed: the question comes again in a year. Erasing is the other answer.',
        params: Type.Object({ athlete_id: Id }),
        body: KeepBody,
        response: { 200: Done, default: FaultAnswer },
      },
    },
    async ({ params, body }) => {
      keepForAYear(store, params.athlete_id, body.reason);
      return { ok: true as const };
    },
  );
};

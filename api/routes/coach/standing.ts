import { Type } from 'typebox';
import { localDate } from '../../../shared/dates.ts';
import { AthleteNow, GroupStanding, SessionVerdicts } from '../../../shared/schemas/coach/standing.ts';
import { Comparison, ComparisonQuestion } from '../../../shared/schemas/coach/comparison.ts';
import { FaultAnswer, Id, LocalDate, wordOf } from '../../../shared/schemas/common.ts';
import { athleteNow } from '../../coach/desk/athlete-now.ts';
import { compare } from '../../coach/desk/compare.ts';
import { groupStanding } from '../../coach/desk/group-standing.ts';
import { sessionVerdicts } from '../../coach/desk/session-verdicts.ts';
import type { ApiRoutes } from '../../http/context.ts';
import { wordsOfRequest } from '../../http/request-language.ts';

const tags = ['coach'];
const onDay = Type.Object({
  today: Type.Optional(LocalDate),
  length: Type.Optional(wordOf(['m', 'yd', 'ft'] as const)),
});

/** What the coach looks at at a desk: how an athlete stands, a session by athlete, the group. */
export const standingRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/coach/athletes/:athlete_id/now',
    {
      schema: {
        tags,
        params: Type.Object({ athlete_id: Id }),
        querystring: onDay,
        response: { 200: AthleteNow, default: FaultAnswer },
      },
    },
    async (request) => {
      const { params, query } = request;
      const today = query.today ?? localDate(new Date());
      return athleteNow(store, params.athlete_id, today, query.length, wordsOfRequest(request));
    },
  );

  app.get(
    '/coach/sessions/:session_id/verdicts',
    {
      schema: {
        tags,
        params: Type.Object({ session_id: Id }),
        querystring: onDay,
        response: { 200: SessionVerdicts, default: FaultAnswer },
      },
    },
    async (request) => sessionVerdicts(store, request.params.session_id, request.query.length, wordsOfRequest(request)),
  );

  app.get(
    '/coach/standing',
    { schema: { tags, querystring: onDay, response: { 200: GroupStanding, default: FaultAnswer } } },
    async (request) => {
      const { query } = request;
      return groupStanding(store, query.today ?? localDate(new Date()), query.length, wordsOfRequest(request));
    },
  );

  app.get(
    '/coach/comparison',
    {
      schema: {
        tags,
        summary: 'Two repetitions, sessions or blocks beside each other, with the certainty of every difference',
        querystring: ComparisonQuestion,
        response: { 200: Comparison, default: FaultAnswer },
      },
    },
    async (request) => compare(store, request.query, wordsOfRequest(request)),
  );
};

import { Type } from 'typebox';
import { localDate } from '../../../shared/dates.ts';
import { AthleteBesideOthers, ClubNorms, NormsShown } from '../../../shared/schemas/coach/norms.ts';
import { FaultAnswer, Id, LocalDate, Nullable } from '../../../shared/schemas/common.ts';
import { athleteBesideOthers, clubNorms, showNorms } from '../../coach/norms/club-norms.ts';
import type { ApiRoutes } from '../../http/context.ts';

const tags = ['coach'];

/** Norms of a programme that the club fetched: whether they are shown, and one athlete beside others alike. */
export const normsRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/coach/norms',
    { schema: { tags, response: { 200: Type.Object({ norms: Nullable(ClubNorms) }), default: FaultAnswer } } },
    async () => ({ norms: clubNorms(store) }),
  );

  app.put(
    '/coach/norms',
    { schema: { tags, body: NormsShown, response: { 200: ClubNorms, default: FaultAnswer } } },
    async ({ body }) => showNorms(store, body.shown),
  );

  app.get(
    '/coach/athletes/:athlete_id/others',
    {
      schema: {
        tags,
        description:
          'Bands of people of the same sex and age, at the same speed and effort; never people, minors only beside minors. Empty while norms are not shown.',
        params: Type.Object({ athlete_id: Id }),
        querystring: Type.Object({ today: Type.Optional(LocalDate) }),
        response: { 200: AthleteBesideOthers, default: FaultAnswer },
      },
    },
    async ({ params, query }) => athleteBesideOthers(store, params.athlete_id, query.today ?? localDate(new Date())),
  );
};

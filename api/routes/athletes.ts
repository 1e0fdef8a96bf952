import { Type } from 'typebox';
import { Athlete, AthleteChange, AthleteList, NewAthlete } from '../../shared/schemas/athlete.ts';
import { Done, FaultAnswer, Id } from '../../shared/schemas/common.ts';
import type { ApiRoutes } from '../http/context.ts';
import { changeAthlete, createAthlete, getAthlete, listAthletes, markAthleteDeleted } from '../store/athletes.ts';

const params = Type.Object({ athlete_id: Id });
const tags = ['athletes'];

export const athleteRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/athletes',
    {
      schema: {
        tags,
        querystring: Type.Object({ group_id: Type.Optional(Id), deleted: Type.Optional(Type.Boolean()) }),
        response: { 200: AthleteList, default: FaultAnswer },
      },
    },
    async ({ query }) => ({ items: listAthletes(store, query) }),
  );

  app.post(
    '/athletes',
    { schema: { tags, body: NewAthlete, response: { 201: Athlete, default: FaultAnswer } } },
    async ({ body }, reply) => reply.status(201).send(createAthlete(store, body)),
  );

  app.get(
    '/athletes/:athlete_id',
    { schema: { tags, params, response: { 200: Athlete, default: FaultAnswer } } },
    async (request) => getAthlete(store, request.params.athlete_id),
  );

  app.patch(
    '/athletes/:athlete_id',
    { schema: { tags, params, body: AthleteChange, response: { 200: Athlete, default: FaultAnswer } } },
    async (request) => changeAthlete(store, request.params.athlete_id, request.body),
  );

  app.delete(
    '/athletes/:athlete_id',
    { schema: { tags, params, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      markAthleteDeleted(store, request.params.athlete_id, true);
      return { ok: true as const };
    },
  );

  app.post(
    '/athletes/:athlete_id/restore',
    { schema: { tags, params, response: { 200: Athlete, default: FaultAnswer } } },
    async (request) => {
      markAthleteDeleted(store, request.params.athlete_id, false);
      return getAthlete(store, request.params.athlete_id);
    },
  );
};

import { type Static, Type } from 'typebox';
import { localDate } from '../../shared/dates.ts';
import { Done, FaultAnswer, Id } from '../../shared/schemas/common.ts';
import {
  NewSession,
  Session,
  SessionChange,
  SessionList,
  SessionQuery,
  SessionWithRepetitions,
} from '../../shared/schemas/session.ts';
import { seesOneDay } from '../access/narrow.ts';
import type { ApiRoutes } from '../http/context.ts';
import type { Page } from '../http/page-lists.ts';
import { changeSession, countSessions, createSession, listSessions, markSessionDeleted } from '../store/sessions.ts';
import { getSessionWithRepetitions } from '../store/session-with-repetitions.ts';

const params = Type.Object({ session_id: Id });
const tags = ['sessions'];

export const sessionRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/sessions',
    { schema: { tags, querystring: SessionQuery, response: { 200: SessionList, default: FaultAnswer } } },
    async ({ query, caller }) => {
      const filter = seesOneDay(caller) ? within(query, localDate(new Date())) : query;
      const { limit, offset } = query as Page;
      if (limit === undefined && offset === undefined) return { items: listSessions(store, filter) };
      return { items: listSessions(store, filter, { limit, offset }), total: countSessions(store, filter) };
    },
  );

  app.post(
    '/sessions',
    { schema: { tags, body: NewSession, response: { 201: Session, default: FaultAnswer } } },
    async ({ body }, reply) => reply.status(201).send(createSession(store, body)),
  );

  app.get(
    '/sessions/:session_id',
    { schema: { tags, params, response: { 200: SessionWithRepetitions, default: FaultAnswer } } },
    async (request) => getSessionWithRepetitions(store, request.params.session_id),
  );

  app.patch(
    '/sessions/:session_id',
    { schema: { tags, params, body: SessionChange, response: { 200: Session, default: FaultAnswer } } },
    async (request) => changeSession(store, request.params.session_id, request.body),
  );

  app.delete(
    '/sessions/:session_id',
    { schema: { tags, params, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      markSessionDeleted(store, request.params.session_id, true);
      return { ok: true as const };
    },
  );

  app.post(
    '/sessions/:session_id/restore',
    { schema: { tags, params, response: { 200: SessionWithRepetitions, default: FaultAnswer } } },
    async (request) => {
      markSessionDeleted(store, request.params.session_id, false);
      return getSessionWithRepetitions(store, request.params.session_id);
    },
  );
};

/** What a question asks for, and of that only one day. */
function within(query: Static<typeof SessionQuery>, day: string): Static<typeof SessionQuery> {
  const { from = day, to = day } = query;
  return { ...query, from: from > day ? from : day, to: to < day ? to : day };
}

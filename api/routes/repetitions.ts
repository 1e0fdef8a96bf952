import { Type } from 'typebox';
import { Done, FaultAnswer, Id, LocalDate, wordOf } from '../../shared/schemas/common.ts';
import {
  NewRepetition,
  Repetition,
  REPETITION_STATES,
  RepetitionChange,
  RepetitionLine,
  RepetitionList,
} from '../../shared/schemas/repetition.ts';
import type { ApiRoutes } from '../context.ts';
import {
  changeRepetition,
  createRepetition,
  getRepetitionLine,
  listRepetitions,
  markRepetitionDeleted,
} from '../store/repetitions.ts';

const params = Type.Object({ repetition_id: Id });
const tags = ['repetitions'];

const query = Type.Object({
  session_id: Type.Optional(Id),
  athlete_id: Type.Optional(Id),
  effort_percent: Type.Optional(Type.Number()),
  course_distance_m: Type.Optional(Type.Number()),
  from: Type.Optional(LocalDate),
  to: Type.Optional(LocalDate),
  state: Type.Optional(wordOf(REPETITION_STATES)),
  deleted: Type.Optional(Type.Boolean()),
});

export const repetitionRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/repetitions',
    { schema: { tags, querystring: query, response: { 200: RepetitionList, default: FaultAnswer } } },
    async (request) => ({ items: listRepetitions(store, request.query) }),
  );

  app.post(
    '/repetitions',
    { schema: { tags, body: NewRepetition, response: { 201: RepetitionLine, default: FaultAnswer } } },
    async ({ body }, reply) => reply.status(201).send(createRepetition(store, body)),
  );

  app.get(
    '/repetitions/:repetition_id',
    { schema: { tags, params, response: { 200: Repetition, default: FaultAnswer } } },
    async (request) => ({ ...getRepetitionLine(store, request.params.repetition_id), recordings: [], analysis: null }),
  );

  app.patch(
    '/repetitions/:repetition_id',
    { schema: { tags, params, body: RepetitionChange, response: { 200: RepetitionLine, default: FaultAnswer } } },
    async (request) => changeRepetition(store, request.params.repetition_id, request.body),
  );

  app.delete(
    '/repetitions/:repetition_id',
    { schema: { tags, params, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      markRepetitionDeleted(store, request.params.repetition_id, true);
      return { ok: true as const };
    },
  );

  app.post(
    '/repetitions/:repetition_id/restore',
    { schema: { tags, params, response: { 200: RepetitionLine, default: FaultAnswer } } },
    async (request) => {
      markRepetitionDeleted(store, request.params.repetition_id, false);
      return getRepetitionLine(store, request.params.repetition_id);
    },
  );
};

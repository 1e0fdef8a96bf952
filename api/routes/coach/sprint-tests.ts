import { Type } from 'typebox';
import { NewSprintTest, SprintTest, SprintTestChange } from '../../../shared/schemas/coach/sprint-test.ts';
import { SprintTestView } from '../../../shared/schemas/coach/sprint-test-view.ts';
import { NewStrengthRecord, StrengthLog, StrengthRecord } from '../../../shared/schemas/coach/strength.ts';
import { FaultAnswer, Id, LocalDate } from '../../../shared/schemas/common.ts';
import { markDeleted } from '../../coach/soft-deletion.ts';
import { sprintTestView } from '../../coach/tests/sprint-test-view.ts';
import { addSprintTest, changeSprintTest } from '../../coach/tests/sprint-tests.ts';
import { addStrengthRecord, strengthLog } from '../../coach/tests/strength-log.ts';
import type { ApiRoutes } from '../../http/context.ts';
import { wordsOfRequest } from '../../http/request-language.ts';
import { deletable } from './deletable.ts';
import { localDate } from '../../../shared/dates.ts';

const tags = ['coach'];
const ofAthlete = Type.Object({ athlete_id: Id });
const onDay = Type.Object({ today: Type.Optional(LocalDate) });

export const sprintTestRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/coach/athletes/:athlete_id/sprint-tests',
    {
      schema: { tags, params: ofAthlete, querystring: onDay, response: { 200: SprintTestView, default: FaultAnswer } },
    },
    async (request) => {
      const { params, query } = request;
      return sprintTestView(store, params.athlete_id, query.today ?? localDate(new Date()), wordsOfRequest(request));
    },
  );

  app.post(
    '/coach/sprint-tests',
    { schema: { tags, body: NewSprintTest, response: { 201: SprintTest, default: FaultAnswer } } },
    async ({ body }, reply) => reply.status(201).send(addSprintTest(store, body)),
  );

  const ofTest = Type.Object({ sprint_test_id: Id });
  app.patch(
    '/coach/sprint-tests/:sprint_test_id',
    { schema: { tags, params: ofTest, body: SprintTestChange, response: { 200: SprintTest, default: FaultAnswer } } },
    async ({ params, body }) => changeSprintTest(store, params.sprint_test_id, body),
  );

  app.get(
    '/coach/athletes/:athlete_id/strength',
    { schema: { tags, params: ofAthlete, response: { 200: StrengthLog, default: FaultAnswer } } },
    async (request) => strengthLog(store, request.params.athlete_id, localDate(new Date()), wordsOfRequest(request)),
  );

  app.post(
    '/coach/strength',
    { schema: { tags, body: NewStrengthRecord, response: { 201: StrengthRecord, default: FaultAnswer } } },
    async ({ body }, reply) => reply.status(201).send(addStrengthRecord(store, body)),
  );

  deletable(app, '/coach/sprint-tests', 'sprint_test_id', (id, deleted) =>
    markDeleted(store, 'sprint_tests', id, deleted),
  );
  deletable(app, '/coach/strength', 'strength_record_id', (id, deleted) =>
    markDeleted(store, 'strength_records', id, deleted),
  );
};

import { Type } from 'typebox';
import { CoachFocusChange, Focus, NewCoachFocus } from '../../../shared/schemas/coach/focus.ts';
import { FaultAnswer, Id, listOf } from '../../../shared/schemas/common.ts';
import { addCoachFocus, changeCoachFocus, listAllFocuses } from '../../coach/own-focuses.ts';
import { markDeleted } from '../../coach/soft-deletion.ts';
import type { ApiRoutes } from '../../http/context.ts';
import { wordsOfRequest } from '../../http/request-language.ts';
import { deletable } from './deletable.ts';

const tags = ['coach'];

export const focusRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/coach/focuses',
    { schema: { tags, response: { 200: listOf(Focus), default: FaultAnswer } } },
    async (request) => ({
      items: listAllFocuses(store, wordsOfRequest(request)),
    }),
  );

  app.post(
    '/coach/focuses',
    { schema: { tags, body: NewCoachFocus, response: { 201: Focus, default: FaultAnswer } } },
    async ({ body }, reply) => reply.status(201).send(addCoachFocus(store, body)),
  );

  app.patch(
    '/coach/focuses/:coach_focus_id',
    {
      schema: {
        tags,
        params: Type.Object({ coach_focus_id: Id }),
        body: CoachFocusChange,
        response: { 200: Focus, default: FaultAnswer },
      },
    },
    async ({ params, body }) => changeCoachFocus(store, params.coach_focus_id, body),
  );

  deletable(app, '/coach/focuses', 'coach_focus_id', (id, deleted) => markDeleted(store, 'coach_focuses', id, deleted));
};

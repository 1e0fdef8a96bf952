import { Type } from 'typebox';
import { Done, FaultAnswer, Id } from '../../shared/schemas/common.ts';
import { Group, GroupChange, GroupList, NewGroup } from '../../shared/schemas/group.ts';
import type { ApiRoutes } from '../http/context.ts';
import { changeGroup, createGroup, getGroup, listGroups, markGroupDeleted } from '../store/groups.ts';

const params = Type.Object({ group_id: Id });
const tags = ['groups'];

export const groupRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/groups',
    {
      schema: {
        tags,
        querystring: Type.Object({ deleted: Type.Optional(Type.Boolean()) }),
        response: { 200: GroupList, default: FaultAnswer },
      },
    },
    async ({ query }) => ({ items: listGroups(store, query) }),
  );

  app.post(
    '/groups',
    { schema: { tags, body: NewGroup, response: { 201: Group, default: FaultAnswer } } },
    async ({ body }, reply) => reply.status(201).send(createGroup(store, body)),
  );

  app.get(
    '/groups/:group_id',
    { schema: { tags, params, response: { 200: Group, default: FaultAnswer } } },
    async (request) => getGroup(store, request.params.group_id),
  );

  app.patch(
    '/groups/:group_id',
    { schema: { tags, params, body: GroupChange, response: { 200: Group, default: FaultAnswer } } },
    async (request) => changeGroup(store, request.params.group_id, request.body),
  );

  app.delete(
    '/groups/:group_id',
    { schema: { tags, params, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      markGroupDeleted(store, request.params.group_id, true);
      return { ok: true as const };
    },
  );

  app.post(
    '/groups/:group_id/restore',
    { schema: { tags, params, response: { 200: Group, default: FaultAnswer } } },
    async (request) => {
      markGroupDeleted(store, request.params.group_id, false);
      return getGroup(store, request.params.group_id);
    },
  );
};

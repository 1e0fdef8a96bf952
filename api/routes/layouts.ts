import multipart from '@fastify/multipart';
import { Type } from 'typebox';
import { Done, FaultAnswer, Id } from '../../shared/schemas/common.ts';
import { LayoutPreview, LayoutPreviewFields } from '../../shared/schemas/layout-preview.ts';
import { NewSavedLayout, SavedLayout, SavedLayoutChange, SavedLayoutList } from '../../shared/schemas/saved-layout.ts';
import type { ApiRoutes } from '../http/context.ts';
import { changeLayout, createLayout, getLayout, listLayouts, markLayoutDeleted } from '../store/layouts.ts';
import { goneSignal } from '../http/gone-signal.ts';
import { receivePreview } from '../http/receive-preview.ts';

const params = Type.Object({ layout_id: Id });
const tags = ['layouts'];

export const layoutRoutes: ApiRoutes = async (app, { store, jobs }) => {
  await app.register(multipart);

  app.get(
    '/layouts',
    {
      schema: {
        tags,
        querystring: Type.Object({ deleted: Type.Optional(Type.Boolean()) }),
        response: { 200: SavedLayoutList, default: FaultAnswer },
      },
    },
    async ({ query }) => ({ items: listLayouts(store, query) }),
  );

  app.post(
    '/layouts',
    {
      schema: {
        tags,
        description: 'Keeps a layout under a name; also how one that was exported elsewhere comes in.',
        body: NewSavedLayout,
        response: { 201: SavedLayout, default: FaultAnswer },
      },
    },
    async ({ body }, reply) => reply.status(201).send(createLayout(store, body)),
  );

  app.post(
    '/layouts/preview',
    {
      schema: {
        tags,
        consumes: ['multipart/form-data'],
        description:
          'What the beginning of a sensor file is taken for, why, and what comes out. Form with `file` and the fields ' +
          `${Object.keys(LayoutPreviewFields.properties).join(', ')}. Nothing is stored; a refusal of the file is part of the answer.`,
        response: { 200: LayoutPreview, default: FaultAnswer },
      },
    },
    async (request, reply) => jobs.preview(await receivePreview(store, request), goneSignal(reply)),
  );

  app.get(
    '/layouts/:layout_id',
    { schema: { tags, params, response: { 200: SavedLayout, default: FaultAnswer } } },
    async (request) => getLayout(store, request.params.layout_id),
  );

  app.patch(
    '/layouts/:layout_id',
    { schema: { tags, params, body: SavedLayoutChange, response: { 200: SavedLayout, default: FaultAnswer } } },
    async (request) => changeLayout(store, request.params.layout_id, request.body),
  );

  app.delete(
    '/layouts/:layout_id',
    { schema: { tags, params, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      markLayoutDeleted(store, request.params.layout_id, true);
      return { ok: true as const };
    },
  );

  app.post(
    '/layouts/:layout_id/restore',
    { schema: { tags, params, response: { 200: SavedLayout, default: FaultAnswer } } },
    async (request) => {
      markLayoutDeleted(store, request.params.layout_id, false);
      return getLayout(store, request.params.layout_id);
    },
  );
};

import { Readable } from 'node:stream';
import multipart from '@fastify/multipart';
import { Type } from 'typebox';
import { FaultError, fault } from '../../shared/fault.ts';
import { FaultAnswer, Id, wordOf } from '../../shared/schemas/common.ts';
import { IMPORT_STATES, Import, ImportAccepted, ImportFields, ImportList } from '../../shared/schemas/import.ts';
import { SavedLayout } from '../../shared/schemas/saved-layout.ts';
import { tellAll } from '../../shared/messages/tell-all.ts';
import { csvText } from '../csv-text.ts';
import { speechOfRequest } from '../http/request-language.ts';
import type { ApiRoutes } from '../http/context.ts';
import {
  createImport,
  getImport,
  importFields,
  layoutOfImport,
  listImportFiles,
  listImports,
  rejectedRows,
  setImportFields,
} from '../store/imports.ts';
import { createLayout } from '../store/layouts.ts';
import { readRawFile } from '../store/raw-files.ts';
import { checkForm, LARGEST_FILE_BYTES, receiveImport } from '../http/receive-import.ts';
import { sendEvents } from '../http/send-events.ts';

const params = Type.Object({ import_id: Id });
const tags = ['imports'];
const MOST_LISTED = 10_000;

export const importRoutes: ApiRoutes = async (app, { store, jobs }) => {
  await app.register(multipart, { limits: { fileSize: LARGEST_FILE_BYTES, files: 8, fields: 64 } });

  app.get(
    '/imports',
    {
      schema: {
        tags,
        querystring: Type.Object({ state: Type.Optional(wordOf(IMPORT_STATES)) }),
        response: { 200: ImportList, default: FaultAnswer },
      },
    },
    // The latest, as many as pages may be asked for; the view shows fewer.
    async ({ query }) => ({ items: listImports(store, { ...query, limit: MOST_LISTED }) }),
  );

  app.post(
    '/imports',
    {
      schema: {
        tags,
        consumes: ['multipart/form-data'],
        description:
          'Form with the files `left` and `right`, or one of them, or `file` where one file holds both sides, and the fields ' +
          `${Object.keys(ImportFields.properties).join(', ')}.`,
        response: { 202: ImportAccepted, default: FaultAnswer },
      },
    },
    async (request, reply) => {
      const { fields, files } = await receiveImport(store, request);
      const importId = createImport(store, fields, files);
      void jobs.startImport(importId);
      return reply.status(202).send({ import_id: importId });
    },
  );

  app.get(
    '/imports/:import_id',
    { schema: { tags, params, response: { 200: Import, default: FaultAnswer } } },
    async (request) => getImport(store, request.params.import_id),
  );

  app.get(
    '/imports/:import_id/events',
    {
      schema: {
        tags,
        params,
        description:
          'Server-sent events: `progress`, then one of `done`, `failed`, `cancelled`; each carries the import.',
      },
    },
    async (request, reply) => {
      const importId = request.params.import_id;
      const now = getImport(store, importId);
      sendEvents(request, reply, (send) => {
        const tell = (state: Import) => {
          const ended = state.state === 'done' || state.state === 'failed' || state.state === 'cancelled';
          send(ended ? state.state : 'progress', state, ended);
        };
        tell(now);
        return jobs.follow(importId, tell);
      });
    },
  );

  app.get(
    '/imports/:import_id/files/:side',
    {
      schema: {
        tags,
        params: Type.Object({ import_id: Id, side: Type.Enum(['left', 'right', 'unknown']) }),
        description: 'The file exactly as it came, also of a failed import.',
      },
    },
    async (request, reply) => {
      const { import_id, side } = request.params;
      getImport(store, import_id);
      const file = listImportFiles(store, import_id).find((candidate) => candidate.side === side);
      if (!file) {
        throw new FaultError(fault('RECORDING_NOT_FOUND.of_import', { import_id, side }, { import_id, side }));
      }
      return reply
        .type('application/octet-stream')
        .header('content-disposition', `attachment; filename*=UTF-8''${encodeURIComponent(file.file_name)}`)
        .send(Readable.from(readRawFile(store, file.raw_file_id)));
    },
  );

  app.get(
    '/imports/:import_id/rejected.csv',
    {
      schema: {
        tags,
        params,
        description: 'Rows of the files that were set aside: where, what was found and expected.',
      },
    },
    async (request, reply) => {
      const columns = ['file', 'line', 'column', 'found', 'expected', 'text'];
      const rows = tellAll(rejectedRows(store, request.params.import_id), speechOfRequest(request));
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', `attachment; filename="import-${request.params.import_id}-rejected.csv"`)
        .send(csvText({ fields: columns, data: rows }));
    },
  );

  app.post(
    '/imports/:import_id/layout',
    {
      schema: {
        tags,
        params,
        description: 'Keeps the layout an import was read with under a name, for the next files of this shape.',
        body: Type.Object({ name: Type.String({ minLength: 1, maxLength: 120 }) }, { additionalProperties: false }),
        response: { 201: SavedLayout, default: FaultAnswer },
      },
    },
    async (request, reply) => {
      const importId = request.params.import_id;
      const layout = layoutOfImport(store, importId);
      return reply.status(201).send(createLayout(store, { name: request.body.name, layout }));
    },
  );

  app.post(
    '/imports/:import_id/retry',
    {
      schema: {
        tags,
        params,
        description: 'Starts a failed or cancelled import again, with other fields where given; no file is sent anew.',
        body: Type.Partial(ImportFields, { additionalProperties: false }),
        response: { 202: ImportAccepted, default: FaultAnswer },
      },
    },
    async (request, reply) => {
      const importId = request.params.import_id;
      const { state } = getImport(store, importId);
      if (state !== 'failed' && state !== 'cancelled') {
        throw new FaultError(
          fault('IMPORT_NOT_FAILED', { import_id: importId, state }, { import_id: importId, state }),
        );
      }
      const fields = { ...importFields(store, importId), ...request.body };
      checkForm(store, fields);
      setImportFields(store, importId, fields);
      void jobs.startImport(importId);
      return reply.status(202).send({ import_id: importId });
    },
  );

  app.post(
    '/imports/:import_id/cancel',
    { schema: { tags, params, response: { 200: Import, default: FaultAnswer } } },
    async (request) => {
      getImport(store, request.params.import_id);
      await jobs.cancelImport(request.params.import_id);
      return getImport(store, request.params.import_id);
    },
  );
};

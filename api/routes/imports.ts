import { Readable } from 'node:stream';
import type { MultipartFile } from '@fastify/multipart';
import multipart from '@fastify/multipart';
import { Ajv } from 'ajv';
import type { FastifyRequest } from 'fastify';
import Papa from 'papaparse';
import { Type } from 'typebox';
import { FaultError } from '../../shared/fault.ts';
import { FaultAnswer, Id, wordOf } from '../../shared/schemas/common.ts';
import { IMPORT_STATES, Import, ImportAccepted, ImportFields, ImportList } from '../../shared/schemas/import.ts';
import { SavedLayout } from '../../shared/schemas/saved-layout.ts';
import { readLayoutField } from '../analysis/read-layout-field.ts';
import { repetitionFieldsOf } from '../analysis/repetition-fields.ts';
import type { ApiRoutes } from '../context.ts';
import { getAthlete } from '../store/athletes.ts';
import {
  createImport,
  getImport,
  type ImportFile,
  importFields,
  layoutOfImport,
  listImportFiles,
  listImports,
  rejectedRows,
  setImportFields,
} from '../store/imports.ts';
import { createLayout } from '../store/layouts.ts';
import { RawFileWriter, readRawFile } from '../store/raw-files.ts';
import { getRepetitionLine } from '../store/repetitions.ts';
import { getSession } from '../store/sessions.ts';
import type { Store } from '../store/store.ts';
import { sendEvents } from './send-events.ts';

const params = Type.Object({ import_id: Id });
const tags = ['imports'];

/** Largest file taken. A day of two sensors at 1000 Hz as text is about a quarter of it. */
const LARGEST_FILE_BYTES = 16 * 1024 ** 3;

/** Form fields are text; numbers among them are turned into numbers by the schema. */
const checkFields = new Ajv({ strict: false, coerceTypes: true, allErrors: true }).compile(ImportFields);

export const importRoutes: ApiRoutes = async (app, { store, jobs }) => {
  await app.register(multipart, { limits: { fileSize: LARGEST_FILE_BYTES, files: 8, fields: 64 } });

  app.get(
    '/imports',
    {
      schema: {
        tags,
        querystring: Type.Object({
          state: Type.Optional(wordOf(IMPORT_STATES)),
          limit: Type.Optional(Type.Integer({ minimum: 1, maximum: 1000 })),
        }),
        response: { 200: ImportList, default: FaultAnswer },
      },
    },
    async ({ query }) => ({ items: listImports(store, query) }),
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
      const { fields, files } = await receive(store, request);
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
        throw new FaultError({
          code: 'RECORDING_NOT_FOUND',
          message: `Import ${import_id} has no file of side "${side}".`,
          where: { import_id, side },
          hint: 'Its files are listed with the import.',
        });
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
      const rows = rejectedRows(store, request.params.import_id);
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', `attachment; filename="import-${request.params.import_id}-rejected.csv"`)
        .send(`${Papa.unparse({ fields: columns, data: rows }, { newline: '\n' })}\n`);
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
        throw new FaultError({
          code: 'IMPORT_NOT_FAILED',
          message: `Import ${importId} is ${state}; only a failed or cancelled one can be started again.`,
          where: { import_id: importId, state },
          hint: 'To use other settings for a finished one, analyse its repetitions again.',
        });
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

/** Takes a form as it streams in: files go into the store chunk by chunk; a form that is refused leaves nothing. */
async function receive(store: Store, request: FastifyRequest): Promise<{ fields: ImportFields; files: ImportFile[] }> {
  if (!request.isMultipart()) throw refused('content-type', 'the form is not multipart/form-data');
  const text: Record<string, unknown> = {};
  const writers: { side: string; file_name: string; writer: RawFileWriter }[] = [];
  try {
    for await (const part of request.parts()) {
      if (part.type === 'field') text[part.fieldname] = part.value;
      else writers.push(await receiveFile(store, part));
    }
    const fields = checkFormText(store, text);
    if (writers.length === 0) throw refused('left', 'there is no file; send `left`, `right` or both, or `file`');
    if (writers.length > 1 && writers.some(({ side }) => side === 'unknown')) {
      throw refused('file', '`file` comes alone: it holds both sides');
    }
    if (new Set(writers.map(({ side }) => side)).size < writers.length) throw refused('left', 'a side was sent twice');
    const files: ImportFile[] = [];
    for (const { writer, ...file } of writers) {
      files.push({ ...file, raw_file_id: (await writer.finish()).raw_file_id });
    }
    return { fields, files };
  } catch (error) {
    for (const { writer } of writers) writer.abort();
    throw error;
  }
}

async function receiveFile(store: Store, part: MultipartFile) {
  const side = part.fieldname === 'left' || part.fieldname === 'right' ? part.fieldname : 'unknown';
  if (side === 'unknown' && part.fieldname !== 'file') {
    throw refused(part.fieldname, 'a file is named `left`, `right` or `file`');
  }
  const writer = new RawFileWriter(store, part.filename);
  try {
    for await (const bytes of part.file) await writer.append(bytes as Uint8Array);
    if (part.file.truncated) throw refused(part.fieldname, `the file is larger than ${LARGEST_FILE_BYTES} bytes`);
  } catch (error) {
    writer.abort();
    throw error;
  }
  return { side, file_name: part.filename, writer };
}

function checkFormText(store: Store, text: Record<string, unknown>): ImportFields {
  // A form sends what was left blank as empty text.
  const fields = Object.fromEntries(Object.entries(text).filter(([, value]) => value !== ''));
  if (!checkFields(fields)) {
    const problem = checkFields.errors![0];
    const name =
      problem.instancePath.slice(1) || problem.params.missingProperty || problem.params.additionalProperty || 'form';
    throw refused(String(name), `field "${name}": ${problem.message}`);
  }
  checkForm(store, fields as ImportFields);
  return fields as ImportFields;
}

/** Finds out before the work starts whether the form can be used. */
function checkForm(store: Store, fields: ImportFields): void {
  getAthlete(store, fields.athlete_id);
  getSession(store, fields.session_id);
  repetitionFieldsOf(fields);
  if (fields.layout !== undefined) readLayoutField(store, fields.layout);
  if (fields.repetition_id === undefined) return;
  const planned = getRepetitionLine(store, fields.repetition_id);
  if (planned.session_id !== fields.session_id || planned.athlete_id !== fields.athlete_id) {
    throw refused('repetition_id', `repetition ${planned.repetition_id} is of another session or athlete`);
  }
  if (planned.state !== 'planned') {
    throw new FaultError({
      code: 'REPETITION_HAS_RECORDING',
      message: `Repetition ${planned.repetition_id} has a recording already; it is not overwritten. Nothing was stored.`,
      where: { repetition_id: planned.repetition_id },
      hint: 'Leave repetition_id out to add a repetition, or delete the old one first (it can be restored).',
    });
  }
}

function refused(field: string, why: string): FaultError {
  return new FaultError({
    code: 'REQUEST_INVALID',
    message: `form: ${why}. Nothing was stored.`,
    where: { part: 'form', field },
    hint: 'The fields are described at /api/docs.',
  });
}

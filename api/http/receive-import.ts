import type { MultipartFile } from '@fastify/multipart';
import { Ajv } from 'ajv';
import type { FastifyRequest } from 'fastify';
import { FaultError, fault } from '../../shared/fault.ts';
import { ImportFields } from '../../shared/schemas/import.ts';
import { readLayoutField } from '../measuring/read-layout-field.ts';
import { repetitionFieldsOf } from '../measuring/repetition-fields.ts';
import { getAthlete } from '../store/athletes.ts';
import type { ImportFile } from '../store/imports.ts';
import { RawFileWriter } from '../store/raw-files.ts';
import { getRepetitionLine } from '../store/repetitions.ts';
import { getSession } from '../store/sessions.ts';
import type { Store } from '../store/store.ts';
import { formParts } from './form-parts.ts';
import { refuseOddNumbers, type TextSchema } from './validate-requests.ts';

/** Largest file taken. A day of two sensors at 1000 Hz as text is about a quarter of it. */
export const LARGEST_FILE_BYTES = 16 * 1024 ** 3;

/** Form fields are text; numbers among them are turned into numbers by the schema. */
const checkFields = new Ajv({ strict: false, coerceTypes: true, allErrors: true }).compile(ImportFields);

/** Takes a form as it streams in: files go into the store chunk by chunk; a form that is refused leaves nothing. */
export async function receiveImport(
  store: Store,
  request: FastifyRequest,
): Promise<{ fields: ImportFields; files: ImportFile[] }> {
  if (!request.isMultipart()) throw refused('content-type', 'the form is not multipart/form-data');
  const text: Record<string, unknown> = {};
  const writers: { side: string; file_name: string; writer: RawFileWriter }[] = [];
  try {
    for await (const part of formParts(request)) {
      if (part.type === 'field') text[part.fieldname] = part.value;
      else writers.push(await receiveFile(store, part));
    }
    refuseOddNumbers('form', text, ImportFields as TextSchema, request.url);
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
export function checkForm(store: Store, fields: ImportFields): void {
  getAthlete(store, fields.athlete_id);
  getSession(store, fields.session_id);
  repetitionFieldsOf(fields);
  for (const text of [fields.layout, fields.layout_left, fields.layout_right]) {
    if (text !== undefined) readLayoutField(store, text);
  }
  if (fields.repetition_id === undefined) return;
  const planned = getRepetitionLine(store, fields.repetition_id);
  if (planned.session_id !== fields.session_id || planned.athlete_id !== fields.athlete_id) {
    throw refused('repetition_id', `repetition ${planned.repetition_id} is of another session or athlete`);
  }
  if (planned.state !== 'planned') {
    throw new FaultError(
      fault(
        'REPETITION_HAS_RECORDING',
        { repetition_id: planned.repetition_id },
        { repetition_id: planned.repetition_id },
      ),
    );
  }
}

function refused(field: string, why: string): FaultError {
  return new FaultError(fault('REQUEST_INVALID.form', { why }, { part: 'form', field }));
}

import { Ajv } from 'ajv';
import type { FastifyRequest } from 'fastify';
import { FaultError, fault } from '../../shared/fault.ts';
import { parseRate } from '../../shared/quantity-text.ts';
import { LayoutPreviewFields } from '../../shared/schemas/layout-preview.ts';
import type { PreviewRequest } from '../measuring/preview-layout.ts';
import { readLayoutField } from '../measuring/read-layout-field.ts';
import type { Store } from '../store/store.ts';
import { formParts } from './form-parts.ts';

/** A layout is found from 4 MiB of text; a workbook is a zip file and comes whole. */
const LARGEST_PART_BYTES = 32 << 20;

/** Form fields are text; true and false among them are turned by the schema. */
const checkFields = new Ajv({ strict: false, coerceTypes: true }).compile(LayoutPreviewFields);

/** Takes the form of a preview into memory. @throws FaultError REQUEST_INVALID, LAYOUT_UNREADABLE */
export async function receivePreview(store: Store, request: FastifyRequest): Promise<PreviewRequest> {
  if (!request.isMultipart()) throw refused('content-type', 'the form is not multipart/form-data');
  const text: Record<string, unknown> = {};
  let file: { file_name: string; bytes: Uint8Array } | null = null;
  for await (const part of formParts(request, { limits: { fileSize: LARGEST_PART_BYTES, files: 1 } })) {
    if (part.type === 'field') {
      if (part.value !== '') text[part.fieldname] = part.value;
      continue;
    }
    if (part.fieldname !== 'file') throw refused(part.fieldname, 'the file is named `file`');
    const bytes = await part.toBuffer().catch(() => {
      throw refused('file', `more than ${LARGEST_PART_BYTES} bytes; send the beginning of the file and \`part\``);
    });
    file = { file_name: part.filename, bytes };
  }
  if (!file) throw refused('file', 'there is no file');
  if (!checkFields(text)) {
    const problem = checkFields.errors![0];
    throw refused(problem.instancePath.slice(1) || 'form', `${problem.message}`);
  }
  const fields = text as LayoutPreviewFields;
  return {
    ...file,
    part: fields.part ?? false,
    side: fields.side ?? null,
    mounting: fields.mounting ?? 'foot',
    rate_hz: fields.rate === undefined ? null : parseRate(fields.rate),
    layout: fields.layout === undefined ? null : readLayoutField(store, fields.layout),
  };
}

function refused(field: string, why: string): FaultError {
  return new FaultError(fault('REQUEST_INVALID.preview', { why }, { part: 'form', field }));
}

import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { type Fault, FaultError, fault } from '../../shared/fault.ts';
import type { FaultCode } from '../../shared/fault-codes.ts';
import type { RequestProblem } from '../../shared/messages/en/faults/http.ts';
import { tellAll } from '../../shared/messages/tell-all.ts';
import type { FaultAnswer } from '../../shared/schemas/common.ts';
import { storeFault } from '../store/store-fault.ts';
import { speechOfRequest } from './request-language.ts';

/** HTTP status of faults that are not plain 'your input does not fit' (422). */
const STATUS_OF_CODE: Partial<Record<FaultCode, number>> = {
  REQUEST_INVALID: 400,
  ORIGIN_REFUSED: 403,
  DEVICE_UNKNOWN: 401,
  ROLE_REFUSED: 403,
  OTHER_DAY_REFUSED: 403,
  FRESH_CODE_NEEDED: 403,
  CONSENT_NOT_GIVEN: 403,
  CODE_REFUSED: 403,
  TOO_MANY_REQUESTS: 429,
  UPLOAD_TOO_LARGE: 413,
  VIEW_NOT_BUILT: 404,
  REPETITION_NOT_RECORDED: 409,
  REPETITION_HAS_RECORDING: 409,
  IMPORT_NOT_FAILED: 409,
  SERVER_BUSY: 503,
  ARCHIVE_UNREACHABLE: 503,
  RUN_KIND_DIFFERS: 409,
  RUN_NOT_ENDED: 409,
  DISK_FULL: 507,
  READ_ONLY: 503,
  DATABASE_BUSY: 503,
  ERASE_UNFINISHED: 503,
  DATABASE_UNREADABLE: 500,
  TASK_CANCELLED: 503,
  WORKER_FAILED: 500,
  INTERNAL: 500,
};

export function statusOf(code: FaultCode): number {
  return STATUS_OF_CODE[code] ?? (code.endsWith('_NOT_FOUND') ? 404 : 422);
}

/** The one body of every error answer, in the language of the request. */
export function faultAnswer(fault: Fault, request: FastifyRequest): FaultAnswer {
  const { code, message, where, hint } = speechOfRequest(request).tell(fault);
  return { ok: false, code, message, where, hint };
}

/** Keeps a failure of the program. @returns the identifier under which it can be looked up */
export type NoteFailure = (request: FastifyRequest, error: unknown) => string;

/** Makes every error and every unknown address answer in the one fault shape. */
export function answerFaults(app: FastifyInstance, noteFailure: NoteFailure): void {
  app.setErrorHandler((thrown: FastifyError | FaultError, request, reply) => {
    const error = storeFault(thrown, 'database') ?? thrown;
    const known = error instanceof FaultError ? error.toFault() : faultOfHttpError(error, request.url);
    const status = error instanceof FaultError ? statusOf(known.code) : statusOfHttpError(error);
    if (status < 500) return reply.status(status).send(faultAnswer(known, request));
    request.log.error(error);
    const where = { ...known.where, error_id: noteFailure(request, thrown) };
    return reply.status(status).send(faultAnswer({ ...known, where }, request));
  });
  app.setNotFoundHandler((request, reply) => {
    const [path] = request.url.split('?');
    const nothing = fault('ROUTE_NOT_FOUND', { method: request.method, path }, { path });
    return reply.status(404).send(faultAnswer(nothing, request));
  });
  // Faults that stand within an answer, such as those of a stored import, are told here, in one place.
  app.addHook('preSerialization', async (request, reply, answer) => {
    const speech = speechOfRequest(request);
    reply.header('content-language', speech.language).header('vary', 'accept-language, cookie');
    return tellAll(answer, speech);
  });
}

function statusOfHttpError(error: FastifyError): number {
  if (error.validation) return 400;
  return error.statusCode && error.statusCode >= 400 ? error.statusCode : 500;
}

function faultOfHttpError(error: FastifyError, url: string): Fault {
  const path = url.split('?')[0];
  if (error.validation) {
    const problems = worthTelling(error.validation);
    const first = problems[0];
    const field = fieldOf(first);
    const part = error.validationContext ?? null;
    return fault(
      'REQUEST_INVALID.fields',
      { part: part ?? 'request', field, problems: problems.map(problemOf) },
      { path, part, field: field || null },
    );
  }
  const status = statusOfHttpError(error);
  if (status < 500) {
    const sentence = status === 413 ? 'UPLOAD_TOO_LARGE' : 'REQUEST_INVALID.other';
    return fault(sentence, { why: error.message }, { path });
  }
  return fault('INTERNAL.request', {}, { path });
}

type Validation = NonNullable<FastifyError['validation']>[number];

/** 'Number or null' gives three problems for one wrong value; the one about the value itself says it all. */
function worthTelling(problems: Validation[]): Validation[] {
  const plain = problems.filter(({ keyword, params }) => keyword !== 'anyOf' && params.type !== 'null');
  return plain.length > 0 ? plain : problems;
}

function fieldOf(problem: Validation): string {
  const path = problem.instancePath.slice(1).replaceAll('/', '.');
  const named = problem.params.missingProperty ?? problem.params.additionalProperty;
  return [path, typeof named === 'string' ? named : ''].filter(Boolean).join('.');
}

/** One problem of a request: which field, what kind, and what goes with the kind. */
function problemOf(problem: Validation): RequestProblem {
  const field = problem.instancePath.slice(1).replaceAll('/', '.');
  if (problem.keyword === 'required') return { kind: 'missing', field: fieldOf(problem) };
  if (problem.keyword === 'additionalProperties') return { kind: 'unknown', field: fieldOf(problem) };
  if (problem.keyword === 'enum') return { kind: 'word', field, words: problem.params.allowedValues as string[] };
  return { kind: 'other', field, why: problem.message ?? '' };
}

/** An address that cannot even be read, such as `/api/%zz`, in the one fault shape. */
export function answerBadAddress(error: FastifyError, request: FastifyRequest, reply: FastifyReply): void {
  const [path] = request.url.split('?');
  const unreadable = fault('REQUEST_INVALID.other', { why: error.message }, { path });
  reply.status(400).send(faultAnswer(unreadable, request));
}

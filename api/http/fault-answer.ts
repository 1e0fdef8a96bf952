import type { FastifyError, FastifyInstance } from 'fastify';
import { type Fault, FaultError } from '../../shared/fault.ts';
import type { FaultAnswer } from '../../shared/schemas/common.ts';
import { storeFault } from '../store/store-fault.ts';

/** HTTP status of faults that are not plain 'your input does not fit' (422). */
const STATUS_OF_CODE: Record<string, number> = {
  REQUEST_INVALID: 400,
  ORIGIN_REFUSED: 403,
  UPLOAD_TOO_LARGE: 413,
  VIEW_NOT_BUILT: 404,
  REPETITION_NOT_RECORDED: 409,
  REPETITION_HAS_RECORDING: 409,
  IMPORT_NOT_FAILED: 409,
  DISK_FULL: 507,
  DATABASE_BUSY: 503,
  DATABASE_UNREADABLE: 500,
  TASK_CANCELLED: 503,
  WORKER_FAILED: 500,
  INTERNAL: 500,
};

export function statusOf(code: string): number {
  return STATUS_OF_CODE[code] ?? (code.endsWith('_NOT_FOUND') ? 404 : 422);
}

/** The one body of every error answer. */
export function faultAnswer(fault: Fault): FaultAnswer {
  return { ok: false, code: fault.code, message: fault.message, where: fault.where, hint: fault.hint };
}

/** Makes every error and every unknown address answer in the one fault shape. */
export function answerFaults(app: FastifyInstance): void {
  app.setErrorHandler((thrown: FastifyError | FaultError, request, reply) => {
    const error = storeFault(thrown, 'database') ?? thrown;
    const fault = error instanceof FaultError ? error.toFault() : faultOfHttpError(error, request.url);
    const status = error instanceof FaultError ? statusOf(fault.code) : statusOfHttpError(error);
    if (status >= 500) request.log.error(error);
    return reply.status(status).send(faultAnswer(fault));
  });
  app.setNotFoundHandler((request, reply) =>
    reply.status(404).send(
      faultAnswer({
        code: 'ROUTE_NOT_FOUND',
        message: `There is nothing at ${request.method} ${request.url.split('?')[0]}.`,
        where: { path: request.url.split('?')[0] },
        hint: 'The addresses are listed at /api/docs.',
      }),
    ),
  );
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
    return {
      code: 'REQUEST_INVALID',
      message: `${error.validationContext ?? 'request'}${field ? `, field "${field}"` : ''}: ${problems.map(sentenceOf).join('; ')}. Nothing was stored.`,
      where: { path, part: error.validationContext ?? null, field: field || null },
      hint: 'The expected fields are described at /api/docs.',
    };
  }
  const status = statusOfHttpError(error);
  if (status < 500) {
    const code = status === 413 ? 'UPLOAD_TOO_LARGE' : 'REQUEST_INVALID';
    return { code, message: `${error.message}. Nothing was stored.`, where: { path }, hint: 'See /api/docs.' };
  }
  return {
    code: 'INTERNAL',
    message: 'The server failed at this request. What was stored before is safe.',
    where: { path },
    hint: "The server's output says more; trying again does no harm.",
  };
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

function sentenceOf(problem: Validation): string {
  const field = problem.instancePath.slice(1).replaceAll('/', '.');
  if (problem.keyword === 'required') return `"${fieldOf(problem)}" is missing`;
  if (problem.keyword === 'additionalProperties') return `"${fieldOf(problem)}" is not a known field`;
  if (problem.keyword === 'enum') {
    return `"${field}" must be one of ${(problem.params.allowedValues as string[]).join(', ')}`;
  }
  return `"${field || 'it'}" ${problem.message}`;
}

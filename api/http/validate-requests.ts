import { Ajv, type Options } from 'ajv';
import type { FastifyInstance } from 'fastify';
import { fault, FaultError } from '../../shared/fault.ts';

const COMMON: Options = { strict: false, useDefaults: true, removeAdditional: false, allErrors: true };
/** A whole number as people and programs write it: the checker would take `0x1`, `+1` and `1e0` for 1 as well. */
const WHOLE_NUMBER = /^-?\d{1,16}$/;

/** What is needed of a schema whose values come as text. */
export type TextSchema = { properties?: Record<string, { type?: string }> } | undefined;

/**
 * Checks requests against their schemas. Bodies are taken as they are (a null stays null, a misspelt field is refused);
 * only addresses and queries, which are text by nature, are turned into numbers and booleans, and whole numbers in plain digits only.
 * Answers are written by JSON.stringify: their schemas are for the documentation and are checked by the tests.
 */
export function validateRequests(app: FastifyInstance): void {
  const body = new Ajv(COMMON);
  const text = new Ajv({ ...COMMON, coerceTypes: true });
  app.setValidatorCompiler(({ schema, httpPart }) => (httpPart === 'body' ? body : text).compile(schema as object));
  app.setSerializerCompiler(() => (answer) => JSON.stringify(answer));
  app.addHook('preValidation', async (request) => {
    const { params, querystring } = request.routeOptions.schema ?? {};
    refuseOddNumbers('params', request.params, params as TextSchema, request.url);
    refuseOddNumbers('querystring', request.query, querystring as TextSchema, request.url);
  });
}

/**
 * Refuses whole numbers in another spelling than plain digits.
 * @param part where the values come from, for the fault
 * @throws FaultError REQUEST_INVALID
 */
export function refuseOddNumbers(part: string, values: unknown, schema: TextSchema, url: string): void {
  for (const [field, value] of Object.entries((values ?? {}) as Record<string, unknown>)) {
    if (schema?.properties?.[field]?.type !== 'integer' || typeof value !== 'string' || WHOLE_NUMBER.test(value))
      continue;
    const problems = [{ kind: 'other' as const, field, why: 'must be integer' }];
    throw new FaultError(
      fault('REQUEST_INVALID.fields', { part, field, problems }, { path: url.split('?')[0], part, field }),
    );
  }
}

import { Ajv, type Options } from 'ajv';
import type { FastifyInstance } from 'fastify';

const COMMON: Options = { strict: false, useDefaults: true, removeAdditional: false, allErrors: true };

/**
 * Checks requests against their schemas. Bodies are taken as they are (a null stays null, a misspelt field is refused);
 * only addresses and queries, which are text by nature, are turned into numbers and booleans.
 * Answers are written by JSON.stringify: their schemas are for the documentation and are checked by the tests.
 */
export function validateRequests(app: FastifyInstance): void {
  const body = new Ajv(COMMON);
  const text = new Ajv({ ...COMMON, coerceTypes: true });
  app.setValidatorCompiler(({ schema, httpPart }) => (httpPart === 'body' ? body : text).compile(schema as object));
  app.setSerializerCompiler(() => (answer) => JSON.stringify(answer));
}

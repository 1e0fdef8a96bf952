import type { FastifyInstance } from 'fastify';
import { fault, FaultError } from '../../shared/fault.ts';

/** The page that a request asks for; all rows without either. */
export interface Page {
  limit?: number;
  offset?: number;
}

/** Most rows of one page. */
const MOST = 1000;
const PAGE = {
  limit: { type: 'integer', minimum: 1, maximum: MOST, description: 'Rows of one page; all without it.' },
  offset: { type: 'integer', minimum: 0, maximum: Number.MAX_SAFE_INTEGER, description: 'Rows before the page.' },
};

interface ObjectSchema {
  type?: string;
  properties?: Record<string, unknown>;
  required?: string[];
  anyOf?: ObjectSchema[];
  allOf?: ObjectSchema[];
}

/** Parameters that a schema knows, in whichever of its forms. */
function namesOf(schema: ObjectSchema | undefined): string[] {
  if (!schema) return [];
  const parts = [...(schema.anyOf ?? []), ...(schema.allOf ?? [])].flatMap(namesOf);
  return [...Object.keys(schema.properties ?? {}), ...parts];
}

/**
 * Lists can be asked for in pages: every GET that answers `items` takes `limit` and `offset`, and says in `total` how many there are. A list
 * that comes with its `total` is a page already: of what grows by the year, the store reads no more than that.
 * Parameters that an operation does not have are refused instead of passed over.
 */
export function pageLists(app: FastifyInstance): void {
  app.addHook('onRoute', (route) => {
    const { schema } = route;
    const answer = (schema?.response as Record<number, ObjectSchema> | undefined)?.[200];
    if (route.method !== 'GET' || !schema || !answer?.properties?.items) return;
    const query = (schema.querystring ?? { type: 'object' }) as ObjectSchema;
    if (query.properties?.before_id) return;
    route.schema = { ...schema, querystring: { ...query, properties: { ...PAGE, ...query.properties } } };
    const hooks = [route.preSerialization ?? []].flat();
    route.preSerialization = [
      async (request, _reply, payload) => {
        const { items, total } = (payload ?? {}) as { items?: unknown[]; total?: number };
        const { limit, offset } = request.query as Page;
        if (!Array.isArray(items) || total !== undefined || (limit === undefined && offset === undefined))
          return payload;
        const from = offset ?? 0;
        const page = items.slice(from, limit === undefined ? undefined : from + limit);
        return { ...(payload as object), items: page, total: items.length };
      },
      ...hooks,
    ] as typeof route.preSerialization;
  });
  app.addHook('preValidation', async (request) => {
    const { schema } = request.routeOptions;
    if (!request.routeOptions.url?.startsWith('/api/') || schema?.hide) return;
    const known = namesOf(schema?.querystring as ObjectSchema | undefined);
    const field = Object.keys((request.query ?? {}) as object).find((name) => !known.includes(name));
    if (field === undefined) return;
    const problems = [{ kind: 'unknown' as const, field }];
    const [path] = request.url.split('?');
    throw new FaultError(
      fault('REQUEST_INVALID.fields', { part: 'querystring', field, problems }, { path, part: 'querystring', field }),
    );
  });
}

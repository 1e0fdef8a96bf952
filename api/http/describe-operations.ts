import { Type } from 'typebox';
import { ImportFields } from '../../shared/schemas/import.ts';
import { operationName } from './operation-names.ts';

type Schema = Record<string, unknown> & { consumes?: string[]; body?: unknown };

const binary = (description: string) =>
  Type.Optional(Type.Unsafe<string>({ type: 'string', format: 'binary', description }));

/** Bodies that are read as they come in, and so are no schema of the request's own: for the documentation alone. */
const BODIES: Record<string, unknown> = {
  'POST /imports': Type.Object({
    ...ImportFields.properties,
    left: binary('CSV of the left sensor, plain or gzip.'),
    right: binary('CSV of the right sensor.'),
    file: binary('One file that holds both sides, instead.'),
  }),
  'POST /layouts/preview': Type.Object({
    file: binary('The file, or its beginning.'),
    layout: Type.Optional(Type.String({ description: 'A layout as JSON, whole, or what is to be corrected.' })),
  }),
  'POST /timings': Type.Unsafe<string>({ type: 'string', description: 'CSV: athlete, repetition, distance, time.' }),
  'PUT /coach/repetitions/{repetition_id}/ratings/{aspect}/photo': Type.Unsafe<string>({
    type: 'string',
    format: 'binary',
  }),
  'POST /capture/browser/{sensor_id}/packets': Type.Unsafe<string>({ type: 'string', format: 'binary' }),
};
const CONSUMES: Record<string, string[]> = {
  'POST /capture/browser/{sensor_id}/packets': ['application/octet-stream'],
};

/** Completes an operation for the documentation: its id, a summary, and the body of an upload. Nothing is checked by it. */
export function describeOperation({
  schema,
  url,
  route,
}: {
  schema: unknown;
  url: string;
  route: { method: string | string[] };
}) {
  const described = { ...(schema as Schema) };
  if (described.hide || !url.startsWith('/api/')) return { schema: described, url };
  const method = String(Array.isArray(route.method) ? route.method[0] : route.method);
  const path = url.slice('/api'.length).replace(/:(\w+)/g, '{$1}');
  const { id, summary } = operationName(method, path);
  described.operationId ??= id;
  described.summary ??= summary;
  const body = BODIES[`${method} ${path}`];
  if (body) {
    described.body = body;
    described.consumes ??= CONSUMES[`${method} ${path}`];
  }
  return { schema: described, url };
}

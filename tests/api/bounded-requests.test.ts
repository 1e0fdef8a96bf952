/** What a request may bring has an end: every text, number, list and table of the routes' schemas. */
import { Type } from 'typebox';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ImportFields } from '../../shared/schemas/import.ts';
import { LayoutCorrection } from '../../shared/schemas/layout.ts';
import { LayoutPreviewFields } from '../../shared/schemas/layout-preview.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

interface Schema {
  type?: string;
  enum?: unknown[];
  const?: unknown;
  anyOf?: Schema[];
  allOf?: Schema[];
  pattern?: string;
  maxLength?: number;
  minimum?: number;
  exclusiveMinimum?: number;
  maximum?: number;
  exclusiveMaximum?: number;
  maxItems?: number;
  maxProperties?: number;
  items?: Schema | Schema[];
  additionalItems?: boolean;
  properties?: Record<string, Schema>;
  patternProperties?: Record<string, Schema>;
  additionalProperties?: boolean | Schema;
}

/** Checked by readers of their own, field by field, behind the schema: settings of an analysis, a stream description. */
const READ_ELSEWHERE = [
  'POST /api/repetitions/{repetition_id}/analyses body.settings{}: anything',
  'POST /api/reanalyses body.settings{}: anything',
  'POST /api/capture/descriptions body{}: anything',
];

let api: TestApi;
let parts: { at: string; schema: Schema }[];

beforeAll(async () => {
  api = await openTestApi();
  const { paths } = (await api.call('GET', '/docs/json')).body;
  parts = Object.entries(paths as Record<string, Record<string, Operation>>).flatMap(([path, methods]) =>
    Object.entries(methods).flatMap(([method, { parameters = [], requestBody }]) => [
      ...parameters.map(({ in: part, name, schema }) => ({
        at: `${method.toUpperCase()} ${path} ${part}.${name}`,
        schema,
      })),
      // Files and forms stream in, to a limit of bytes; the fields of forms are looked at below.
      ...Object.entries(requestBody?.content ?? {})
        .filter(([type]) => type === 'application/json')
        .map(([, { schema }]) => ({ at: `${method.toUpperCase()} ${path} body`, schema: schema ?? {} })),
    ]),
  );
});
afterAll(() => api.close());

interface Operation {
  parameters?: { name: string; in: string; schema: Schema }[];
  requestBody?: { content?: Record<string, { schema?: Schema }> };
}

/** Places of a schema that have no end, each with what it lacks. */
function unbounded(schema: Schema, at: string): string[] {
  if (schema.enum || schema.const !== undefined || schema.type === 'boolean' || schema.type === 'null') return [];
  const either = [...(schema.anyOf ?? []), ...(schema.allOf ?? [])];
  if (either.length > 0) return either.flatMap((part) => unbounded(part, at));
  if (schema.type === 'string')
    return schema.maxLength !== undefined || fixedLength(schema.pattern) ? [] : [`${at}: no maxLength`];
  if (schema.type === 'number' || schema.type === 'integer') {
    const low = schema.minimum ?? schema.exclusiveMinimum;
    const high = schema.maximum ?? schema.exclusiveMaximum;
    return low === undefined || high === undefined ? [`${at}: no range`] : [];
  }
  if (schema.type === 'array') {
    const tuple = Array.isArray(schema.items);
    const ends = schema.maxItems !== undefined || (tuple && schema.additionalItems === false);
    return [
      ...(ends ? [] : [`${at}: no maxItems`]),
      ...[schema.items ?? {}].flat().flatMap((item) => unbounded(item, `${at}[]`)),
    ];
  }
  if (schema.type === 'object') {
    const extra = [
      ...Object.values(schema.patternProperties ?? {}),
      ...(typeof schema.additionalProperties === 'object' ? [schema.additionalProperties] : []),
    ];
    const open = extra.length === 0 && schema.additionalProperties !== false;
    return [
      ...Object.entries(schema.properties ?? {}).flatMap(([key, inner]) => unbounded(inner, `${at}.${key}`)),
      ...(extra.length > 0 && schema.maxProperties === undefined ? [`${at}: no maxProperties`] : []),
      ...(open && at.endsWith(' body') ? [`${at}: takes any field`] : []),
      ...extra.flatMap((inner) => unbounded(inner, `${at}{}`)),
    ];
  }
  return [`${at}: anything`];
}

/** An anchored pattern without an open repetition has an end of its own. */
function fixedLength(pattern = '*'): boolean {
  return pattern.startsWith('^') && pattern.endsWith('$') && !/[*+]|\{\d+,\}/.test(pattern);
}

describe('what requests may bring', () => {
  it('has an end in every text, number, list and table of every operation', () => {
    expect(parts.length).toBeGreaterThan(150);
    const found = parts.flatMap(({ at, schema }) => unbounded(schema, at));
    expect(found.filter((place) => !READ_ELSEWHERE.includes(place))).toEqual([]);
    expect(READ_ELSEWHERE.filter((place) => !found.includes(place))).toEqual([]);
  });

  it('has an end in the fields of forms and in layouts that come as text', () => {
    for (const [name, schema] of Object.entries({ ImportFields, LayoutPreviewFields, LayoutCorrection })) {
      expect(unbounded(schema as Schema, `${name} body`), name).toEqual([]);
    }
  });

  it('would be named by this walk where it had none', () => {
    const open = Type.Object({
      text: Type.String(),
      count: Type.Integer({ minimum: 0 }),
      list: Type.Array(Type.Boolean()),
      table: Type.Record(Type.String(), Type.Boolean()),
      word: Type.Enum(['a', 'b']),
    });
    expect(unbounded(open as Schema, 'GET /x body')).toEqual([
      'GET /x body.text: no maxLength',
      'GET /x body.count: no range',
      'GET /x body.list: no maxItems',
      'GET /x body.table: no maxProperties',
      'GET /x body: takes any field',
    ]);
  });
});

import { openTestApi } from '../../helpers/test-api.ts';
import { fromSchema, mutateJson, type Random, pick, below } from './mutate.ts';
import type { Outcome } from './try-input.ts';
import { LIMIT_S } from './try-input.ts';

interface Operation {
  method: string;
  path: string;
  parameters: { name: string; in: string; schema: object }[];
  body: object | null;
  mediaType: string;
}

/** Those wait for a radio or never end; the others of capture are asked like all. */
const LEFT_OUT = /events|\/capture\/(?:search|start|explore|replay|stop|sensors\/\{sensor_id\}\/fetch)|\/replay$/;

/** An API with a few rows, asked by requests made from its own schemas and then damaged. */
export async function httpBodies() {
  const api = await openTestApi();
  const { athlete_id, session_id } = await api.athleteAndSession();
  await api.call('POST', '/repetitions', { athlete_id, session_id });
  const { paths } = (await api.call('GET', '/docs/json')).body;
  // biome-ignore lint/suspicious/noExplicitAny: the API description
  const operations: Operation[] = Object.entries(paths as Record<string, Record<string, any>>).flatMap(
    ([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => {
        const [mediaType, content] = Object.entries(operation.requestBody?.content ?? {})[0] ?? ['', null];
        const body = (content as { schema?: object } | null)?.schema ?? null;
        return { method: method.toUpperCase(), path, parameters: operation.parameters ?? [], body, mediaType };
      }),
  );
  const asked = operations.filter(({ path }) => !LEFT_OUT.test(path));

  /** Asks once. @returns what became of it; an answer of 500 and more is a crash */
  const ask = async (random: Random): Promise<Outcome & { what: string }> => {
    const { method, path, parameters, body, mediaType } = pick(random, asked);
    const value = (schema: object): string => {
      const made = random() < 0.5 ? 1 : fromSchema(schema, random);
      return typeof made === 'string' ? made : String(JSON.stringify(made));
    };
    let url = path;
    const query = new URLSearchParams();
    for (const { name, in: part, schema } of parameters) {
      if (part === 'path')
        url = url.replace(`{${name}}`, encodeURIComponent(wellFormed(value(schema)).slice(0, 200)) || 'x');
      else if (random() < 0.7) query.set(name, wellFormed(value(schema)).slice(0, 2000));
    }
    const text = query.size > 0 ? `${url}?${query}` : url;
    const made =
      body === null
        ? undefined
        : random() < 0.6
          ? fromSchema(body, random)
          : mutateJson(fromSchema(body, random), random);
    const odd = random() < 0.05 ? pick(random, ['{', 'null', '[]', '"x"', '', '\u0000', '[[['.repeat(3000)]) : null;
    const payload = odd ?? (made === undefined ? undefined : JSON.stringify(made));
    const types = [
      'application/json',
      'text/csv',
      'application/octet-stream',
      'image/png',
      'multipart/form-data; boundary=x',
    ];
    const type = random() < 0.9 ? mediaType || 'application/json' : types[below(random, types.length)];
    const before = process.cpuUsage();
    let kind: Outcome['kind'] = 'read';
    let why = '';
    try {
      const answer = await api.app.inject({
        method: method as 'GET',
        url: text,
        payload: method === 'GET' || method === 'DELETE' ? undefined : payload,
        headers: payload === undefined || method === 'GET' || method === 'DELETE' ? {} : { 'content-type': type },
      });
      if (answer.statusCode >= 500 && answer.statusCode !== 503 && answer.statusCode !== 507) {
        kind = 'crashed';
        why = `${answer.statusCode} ${answer.body.slice(0, 300)}`;
      } else if (answer.statusCode >= 400) {
        kind = 'refused';
        why = faultShape(answer.body) ? '' : 'no fault shape';
        if (why) kind = 'crashed';
      }
    } catch (error) {
      kind = 'crashed';
      why = error instanceof Error ? (error.stack ?? error.message) : String(error);
    }
    const { user, system } = process.cpuUsage(before);
    const cpu_s = (user + system) / 1e6;
    if (kind !== 'crashed' && cpu_s > LIMIT_S) kind = 'slow';
    return { kind, why, cpu_s, what: `${method} ${text.slice(0, 300)} ${String(payload).slice(0, 500)}` };
  };
  return { ask, close: () => api.close() };
}

/** Half a character has no place in an address; whoever sends one sends other bytes. */
function wellFormed(text: string): string {
  return text.replace(/[\uD800-\uDFFF]/g, '?');
}

function faultShape(body: string): boolean {
  try {
    const value = JSON.parse(body) as { ok?: boolean; code?: string; message?: string };
    return value.ok === false && typeof value.code === 'string' && typeof value.message === 'string';
  } catch {
    return false;
  }
}

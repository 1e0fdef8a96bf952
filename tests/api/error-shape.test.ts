import { Ajv } from 'ajv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FAULT_CODES } from '../../shared/fault-codes.ts';
import { FaultAnswer } from '../../shared/schemas/common.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';

interface Operation {
  parameters?: { name: string; in: string }[];
  requestBody?: unknown;
  responses: Record<string, { content?: Record<string, { schema: object }> }>;
}

const ajv = new Ajv({ strict: false });
const isFault = ajv.compile(FaultAnswer);
let api: TestApi;
let routes: { method: string; path: string; operation: Operation }[];

beforeAll(async () => {
  api = await openTestApi();
  const { paths } = (await api.call('GET', '/docs/json')).body as {
    paths: Record<string, Record<string, Operation>>;
  };
  routes = Object.entries(paths).flatMap(([path, operations]) =>
    Object.entries(operations).map(([method, operation]) => ({ method: method.toUpperCase(), path, operation })),
  );
});
afterAll(() => api.close());

/** Streams that stay open by design cannot be waited for. */
const endsByItself = (path: string) => !path.endsWith('/events') && !path.includes('/capture');

const fill = (path: string, value: string) => path.replace(/\{[^}]+\}/g, value);

describe('every route', () => {
  it('is in the documentation', () => {
    expect(routes.length).toBeGreaterThan(25);
    expect(routes.map((route) => route.path)).toContain('/api/repetitions/{repetition_id}/profile');
  });

  it('answers an identifier that is not there, or not a number, in the one fault shape', async () => {
    for (const { method, path } of routes.filter((route) => route.path.includes('{') && endsByItself(route.path))) {
      for (const value of ['4711', 'x y', '-1', '1e99']) {
        const answer = await api.app.inject({ method: method as 'GET', url: fill(path, encodeURIComponent(value)) });
        const label = `${method} ${fill(path, value)}: ${answer.statusCode} ${answer.body.slice(0, 200)}`;
        if (answer.statusCode < 400) continue;
        expect(answer.statusCode, label).toBeLessThan(500);
        expect(isFault(answer.json()), label).toBe(true);
        expect(FAULT_CODES, label).toHaveProperty(answer.json().code);
      }
    }
  });

  it('answers a body that makes no sense in the one fault shape', async () => {
    for (const { method, path } of routes.filter((route) => route.operation.requestBody && endsByItself(route.path))) {
      for (const payload of ['{"nonsense":true}', '[]', '"text"', '{broken', 'null']) {
        const answer = await api.app.inject({
          method: method as 'POST',
          url: fill(path, '4711'),
          payload,
          headers: { 'content-type': 'application/json' },
        });
        const label = `${method} ${path} with ${payload}: ${answer.statusCode} ${answer.body.slice(0, 200)}`;
        expect(answer.statusCode, label).toBeGreaterThanOrEqual(400);
        expect(answer.statusCode, label).toBeLessThan(500);
        expect(isFault(answer.json()), label).toBe(true);
        expect(FAULT_CODES, label).toHaveProperty(answer.json().code);
      }
    }
  });

  it('answers as its schema says, on a store that holds something', async () => {
    const { athlete_id, session_id } = await api.athleteAndSession();
    await api.call('POST', '/groups', { name: 'All', athlete_ids: [athlete_id] });
    const { left, right } = sprintFiles();
    await api.import({ athlete_id, session_id, mounting: 'foot', effort_percent: 95, course: '30m' }, { left, right });
    let checked = 0;
    for (const { path, operation } of routes.filter((route) => route.method === 'GET' && endsByItself(route.path))) {
      const schema = operation.responses['200']?.content?.['application/json']?.schema;
      if (!schema) continue;
      const answer = await api.app.inject({ method: 'GET', url: fill(path, '1') });
      if (answer.statusCode !== 200) continue;
      const check = ajv.compile(schema);
      expect(check(answer.json()), `GET ${path}: ${ajv.errorsText(check.errors)}`).toBe(true);
      checked++;
    }
    expect(checked).toBeGreaterThan(12);
  });

  it('refuses what comes from the page of another site, and names that were made to point here', async () => {
    for (const headers of [
      { origin: 'https://elsewhere.example' },
      { host: 'elsewhere.example' },
      { origin: 'null' },
    ]) {
      const answer = await api.app.inject({ method: 'POST', url: '/api/groups', payload: { name: 'x' }, headers });
      expect([answer.statusCode, answer.json().code]).toEqual([403, 'ORIGIN_REFUSED']);
    }
    const own = { host: 'localhost:7100', origin: 'http://localhost:7100' };
    const answer = await api.app.inject({ method: 'POST', url: '/api/groups', payload: { name: 'x' }, headers: own });
    expect(answer.statusCode).toBe(201);
  });

  it('sends pages with a policy that lets nothing foreign in', async () => {
    const answer = await api.app.inject({ method: 'GET', url: '/api/health' });
    const policy = String(answer.headers['content-security-policy']);
    expect(policy).toContain("default-src 'self'");
    expect(policy).not.toContain('unsafe');
  });
});

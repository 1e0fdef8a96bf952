/** Every operation of the API, asked by nobody, by a device of each role, and by the machine itself. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessOf, NAMED_OPERATIONS } from '../../../api/access/operation-roles.ts';
import { addDevice } from '../../../api/access/devices.ts';
import { TOKEN_COOKIE } from '../../../api/access/caller.ts';
import { DEVICE_ROLES } from '../../../shared/schemas/access.ts';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';

/** An address of the local network (RFC 1918). */
const ELSEWHERE = '192.168.7.31';
const GUARD_CODES = ['DEVICE_UNKNOWN', 'ROLE_REFUSED', 'FRESH_CODE_NEEDED'];

let api: TestApi;
let operations: { method: string; path: string; description: string }[];
const tokens = new Map<string, string>();

beforeAll(async () => {
  api = await openTestApi();
  for (const role of DEVICE_ROLES) tokens.set(role, addDevice(api.store, `a ${role}`, role).token);
  const { paths } = (await api.call('GET', '/docs/json')).body;
  operations = Object.entries(paths as Record<string, Record<string, { description?: string }>>).flatMap(
    ([path, methods]) =>
      Object.entries(methods).map(([method, { description = '' }]) => ({
        method: method.toUpperCase(),
        path,
        description,
      })),
  );
});
afterAll(() => api.close());

const routerPath = (path: string) => path.replace(/\{([^}]+)\}/g, ':$1');
// An address that cannot belong to anything: what gets past the guard is refused by the schema, and nothing happens.
const fill = (path: string) => path.replace(/\{[^}]+\}/g, 'x');

async function codeFor(method: string, path: string, token?: string): Promise<string> {
  const answer = await api.app.inject({
    method: method as 'GET',
    url: fill(path),
    remoteAddress: ELSEWHERE,
    headers: token ? { cookie: `${TOKEN_COOKIE}=${token}` } : {},
    payload: method === 'GET' ? undefined : {},
  });
  return String(answer.headers['content-type']).includes('json') ? (answer.json().code ?? 'ANSWERED') : 'ANSWERED';
}

/** Streams stay open, and searching by radio needs one: the guard is asked before either begins, by its own rule. */
const asksForLong = (path: string) => path.endsWith('/events') || path.endsWith('/search') || path.includes('/capture');

describe('every operation', () => {
  it('says in the description of the API who may use it', () => {
    expect(operations.length).toBeGreaterThan(100);
    expect(operations.filter(({ description }) => !/Access: /.test(description)).map(({ path }) => path)).toEqual([]);
  });

  it('named in the table of roles exists', () => {
    const offered = new Set(operations.map(({ method, path }) => `${method} ${routerPath(path)}`));
    expect(NAMED_OPERATIONS.filter((operation) => !offered.has(operation))).toEqual([]);
  });

  it.each([undefined, ...DEVICE_ROLES])(
    'lets a device with the role %s do what the table says and nothing else',
    async (role) => {
      const wrong: string[] = [];
      for (const { method, path } of operations.filter((operation) => !asksForLong(operation.path))) {
        const { roles, fresh_code } = accessOf(`${method} ${routerPath(path)}`);
        const allowed = roles === null || (role !== undefined && roles.includes(role) && !fresh_code);
        if (allowed && /\/access\/(?:leave|pair)/.test(path)) continue;
        const code = await codeFor(method, path, role && tokens.get(role));
        if (GUARD_CODES.includes(code) === allowed) wrong.push(`${method} ${path}: ${code}`);
      }
      expect(wrong).toEqual([]);
    },
  );

  it('refuses capture and its streams to who may not have them', async () => {
    const capture = operations.filter(({ path }) => asksForLong(path));
    expect(capture.length).toBeGreaterThan(10);
    for (const { method, path } of capture) {
      expect(await codeFor(method, path), `${method} ${path}`).toBe('DEVICE_UNKNOWN');
      expect(await codeFor(method, path, tokens.get('scientist')), `${method} ${path}`).toBe('ROLE_REFUSED');
    }
  });

  it('is open on the machine itself, but not through something that hands requests on', async () => {
    const here = await api.app.inject({ url: '/api/athletes' });
    const handedOn = await api.app.inject({ url: '/api/athletes', headers: { 'x-forwarded-for': '203.0.113.9' } });
    expect([here.statusCode, handedOn.statusCode]).toEqual([200, 401]);
  });
});

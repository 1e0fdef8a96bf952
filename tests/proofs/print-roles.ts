/**
 * npm run proof:roles: every operation of the API, asked by a stranger, by a device of each role, by a coach's device with a fresh code and
 * by the machine itself, against what the table of roles says. Prints one line an operation, and what is wrong.
 */
import { TOKEN_COOKIE } from '../../api/access/caller.ts';
import { addDevice, confirmDevice } from '../../api/access/devices.ts';
import { accessOf } from '../../api/access/operation-roles.ts';
import { DEVICE_ROLES, type DeviceRole } from '../../shared/schemas/access.ts';
import { openTestApi } from '../helpers/test-api.ts';

const ELSEWHERE = '192.168.7.31';
const GUARD_CODES = ['DEVICE_UNKNOWN', 'ROLE_REFUSED', 'FRESH_CODE_NEEDED'];
const NEXT_YEAR = new Date(Date.now() + 3.15e10).toISOString();
/** Streams stay open and a search waits for a radio: they are asked for with a method's body that is refused, or not by who may. */
const STAYS_OPEN = /\/events$|\/capture\/search$/;

interface Asker {
  name: string;
  role: DeviceRole | null;
  fresh: boolean;
  here: boolean;
  headers: Record<string, string>;
}

const api = await openTestApi();
const device = (role: DeviceRole, name: string) => addDevice(api.store, name, role);
const cookie = (token: string) => ({ cookie: `${TOKEN_COOKIE}=${token}` });
const confirmed = device('coach', 'coach with a fresh code');
confirmDevice(api.store, confirmed.device.device_id, NEXT_YEAR);
const nobody = { fresh: false, here: false, headers: {} };
const askers: Asker[] = [
  { ...nobody, name: 'stranger', role: null },
  { ...nobody, name: 'wrong token', role: null, headers: cookie('0'.repeat(43)) },
  ...DEVICE_ROLES.map((role) => ({ ...nobody, name: role, role, headers: cookie(device(role, role).token) })),
  { ...nobody, name: 'coach+code', role: 'coach', fresh: true, headers: cookie(confirmed.token) },
  { ...nobody, name: 'machine', role: 'coach', fresh: true, here: true },
  { ...nobody, name: 'handed on', role: null, headers: { 'x-forwarded-for': '127.0.0.1' }, here: true },
];
const { paths } = (await api.call('GET', '/docs/json')).body;
const operations = Object.entries(paths as Record<string, object>).flatMap(([path, methods]) =>
  Object.keys(methods).map((method) => ({ method: method.toUpperCase(), path })),
);

const wrong: string[] = [];
let asked = 0;
for (const { method, path } of operations) {
  const { roles, fresh_code } = accessOf(`${method} ${path.replace(/\{([^}]+)\}/g, ':$1')}`);
  const line: string[] = [];
  for (const { name, role, fresh, here, headers } of askers) {
    const trusted = here && name === 'machine';
    const allowed = trusted || roles === null || (role !== null && roles.includes(role) && (!fresh_code || fresh));
    if (allowed && (STAYS_OPEN.test(path) || /\/access\/(?:leave|pair)/.test(path))) {
      line.push('yes');
      continue;
    }
    const answer = await api.app.inject({
      method: method as 'GET',
      url: path.replace(/\{[^}]+\}/g, 'x'),
      remoteAddress: here ? '127.0.0.1' : ELSEWHERE,
      headers,
      payload: method === 'GET' ? undefined : {},
    });
    asked++;
    const json = String(answer.headers['content-type']).includes('json');
    const code = json ? (answer.json().code ?? 'answered') : 'answered';
    const refused = GUARD_CODES.includes(code);
    line.push(refused ? 'no' : 'yes');
    if (refused === allowed) wrong.push(`${method} ${path} as ${name}: ${code}, status ${answer.statusCode}`);
  }
  console.log(`${method.padEnd(6)} ${path.padEnd(66)} ${line.map((word) => word.padEnd(4)).join(' ')}`);
}
console.log(`columns: ${askers.map(({ name }) => name).join(', ')}`);
console.log(`${operations.length} operations, ${asked} requests, ${wrong.length} wrong`);
for (const what of wrong) console.log(what);
await api.close();
process.exit(wrong.length > 0 ? 1 : 0);

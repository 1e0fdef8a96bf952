/** What devices of each role get to read of people, asked of every address that answers, with identifiers that are there. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TOKEN_COOKIE } from '../../../api/access/caller.ts';
import { addDevice } from '../../../api/access/devices.ts';
import { localDate } from '../../../shared/dates.ts';
import { DEVICE_ROLES, type DeviceRole } from '../../../shared/schemas/access.ts';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';
import { sprintFiles } from '../../helpers/sprint-files.ts';

const ELSEWHERE = '192.168.7.31';
const TODAY = localDate(new Date());
let api: TestApi;
let gets: string[];
const tokens = new Map<string, string>();
const ids: Record<string, number> = {};
let otherDay: number;
let other: number;

const as = (role: DeviceRole | null, method: 'GET' | 'POST' | 'PUT' | 'PATCH', url: string, payload?: object) =>
  api.app.inject({
    method,
    url: `/api${url}`,
    remoteAddress: ELSEWHERE,
    headers: role === null ? {} : { cookie: `${TOKEN_COOKIE}=${tokens.get(role)}` },
    payload,
  });

beforeAll(async () => {
  api = await openTestApi();
  for (const role of DEVICE_ROLES) tokens.set(role, addDevice(api.store, `a ${role}`, role).token);
  const make = async (path: string, body: object) => (await api.call('POST', path, body)).body;
  const runner = await make('/athletes', { name: 'Rosa Quillmark', birth_date: '2012-05-04', notes: 'SECRETathlete' });
  const absent = await make('/athletes', { name: 'Otto Hiddenmark', notes: 'SECRETathlete' });
  const group = await make('/groups', { name: 'Juniors', athlete_ids: [runner.athlete_id], notes: 'SECRETgroup' });
  const session = await make('/sessions', {
    session_date: TODAY,
    title: 'Evening',
    group_id: group.group_id,
    notes: 'SECRETsession',
  });
  const before = await make('/sessions', {
    session_date: '2026-03-02',
    title: 'Before',
    athlete_id: absent.athlete_id,
  });
  otherDay = before.session_id;
  other = absent.athlete_id;
  const files = sprintFiles();
  const imported = await api.import(
    { athlete_id: runner.athlete_id, session_id: session.session_id, mounting: 'foot', notes: 'SECRETrepetition' },
    { left: files.left, right: files.right },
  );
  Object.assign(ids, runner, group, session, imported.body, { repetition_id: imported.body.repetition_ids[0] });
  ids.athlete_id = runner.athlete_id;
  const rating = { rating: 4, note: 'SECRETrating' };
  await api.call('PUT', `/coach/repetitions/${ids.repetition_id}/ratings/arms`, rating);
  for (const [sensor, athlete_id] of [
    ['S:1', runner.athlete_id],
    ['S:2', other],
  ] as const)
    await api.call('PUT', `/capture/sensors/${sensor}`, {
      name: sensor,
      description_id: 'bramble',
      side: 'left',
      mounting: 'foot',
      athlete_id,
    });
  const { paths } = (await api.call('GET', '/docs/json')).body;
  gets = Object.entries(paths as Record<string, object>)
    .filter(([, methods]) => 'get' in methods)
    .map(([path]) => path.replace('/api', ''))
    .filter((path) => !path.endsWith('/events'));
}, 60_000);
afterAll(() => api.close());

const fill = (path: string) => path.replace(/\{([^}]+)\}/g, (_, name: string) => String(ids[name] ?? 1));

/** Addresses that told a role what matches, with their answers. */
async function whoTells(role: DeviceRole | null, forbidden: RegExp): Promise<string[]> {
  const told: string[] = [];
  for (const path of gets) {
    const answer = await as(role, 'GET', fill(path));
    const found = forbidden.exec(answer.body);
    if (found) told.push(`${path}: ${found[0]} (${answer.statusCode})`);
  }
  return told;
}

describe('of names and notes', () => {
  it('everything stands in answers to the machine itself, so that it would be found below', async () => {
    const all = await Promise.all(gets.map((path) => api.app.inject({ url: `/api${fill(path)}` })));
    const text = all.map((answer) => answer.body).join('\n');
    for (const mark of [
      'Rosa Quillmark',
      'Otto Hiddenmark',
      'SECRETathlete',
      'SECRETgroup',
      'SECRETsession',
      'SECRETrepetition',
      'SECRETrating',
    ])
      expect(text.includes(mark), mark).toBe(true);
  });

  it('a stranger and a device for studies read none', async () => {
    expect(await whoTells(null, /Rosa|Otto|Quill|Hidden|SECRET|2012-05/)).toEqual([]);
    expect(await whoTells('scientist', /Rosa|Otto|Quill|Hidden|SECRET|2012-05/)).toEqual([]);
  });

  it('a display reads first names of those who run today', async () => {
    expect(await whoTells('display', /Quill|Otto|Hidden|SECRET|2012-05/)).toEqual([]);
    expect(await whoTells('display', /Rosa/)).not.toEqual([]);
  });

  it('a field device reads names of those who run today, and of notes those of ratings', async () => {
    expect(await whoTells('field', /Otto|Hidden|SECRET(?!rating)|2012-05/)).toEqual([]);
    expect(await whoTells('field', /SECRETrating/)).not.toEqual([]);
  });
});

describe('a field device', () => {
  it('cannot name, replay or record for somebody of another day', async () => {
    const place = { name: 'S:3', description_id: 'bramble', side: 'left', mounting: 'foot', athlete_id: other };
    const codes = [
      await as('field', 'PUT', '/capture/sensors/S:3', place),
      await as('field', 'POST', '/capture/replay', { session_id: otherDay }),
      await as('field', 'POST', '/capture/start', { session_id: otherDay }),
    ].map((answer) => answer.json().code);
    expect(codes).toEqual(['OTHER_DAY_REFUSED', 'OTHER_DAY_REFUSED', 'OTHER_DAY_REFUSED']);
  });

  it('cannot overwrite notes that it is not shown', async () => {
    const answer = await as('field', 'PATCH', `/repetitions/${ids.repetition_id}`, { notes: '' });
    expect(answer.json().code).toBe('ROLE_REFUSED');
    expect((await as('field', 'PATCH', `/repetitions/${ids.repetition_id}`, { wind_mps: 1 })).statusCode).toBe(200);
  });
});

describe('a device for studies', () => {
  it('gets no export with names or free text, whoever ordered it', async () => {
    await api.call('PUT', `/athletes/${ids.athlete_id}/research-consent`, { status: 'given', status_date: TODAY });
    const order = { kind: 'tables', athlete_ids: [ids.athlete_id] };
    for (const more of [{ with_names: true }, { with_free_text: true }]) {
      expect((await as('scientist', 'POST', '/exports', { ...order, ...more })).json().code).toBe('ROLE_REFUSED');
      expect((await as('coach', 'POST', '/exports', { ...order, ...more })).json().code).toBe('FRESH_CODE_NEEDED');
      const { body: made } = await api.call('POST', '/exports', { ...order, ...more });
      expect((await as('scientist', 'GET', `/exports/${made.export_id}/archive`)).json().code).toBe('ROLE_REFUSED');
    }
    expect((await as('scientist', 'POST', '/exports', order)).statusCode).toBe(201);
  });

  it('compares those who have agreed, by the names of exports', async () => {
    const reference_csv = 'side,touchdown_s,toe_off_s\nleft,1,1.1\nright,1.25,1.35\nleft,1.5,1.6\n';
    const items = [{ repetition_id: ids.repetition_id, reference_csv }];
    const study = (role: DeviceRole) => as(role, 'POST', '/agreement', { reference_clock: 'file', items });
    await api.call('PUT', `/athletes/${ids.athlete_id}/research-consent`, { status: 'refused', status_date: TODAY });
    expect((await study('scientist')).json().code).toBe('CONSENT_NOT_GIVEN');
    await api.call('PUT', `/athletes/${ids.athlete_id}/research-consent`, { status: 'given', status_date: TODAY });
    expect((await study('scientist')).body).not.toMatch(/Rosa|Quill/);
  });
});

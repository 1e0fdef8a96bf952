import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AccessService } from '../../../api/access/access-service.ts';
import { PairingCodes } from '../../../api/access/pairing-codes.ts';
import { narrowAnswer } from '../../../api/access/narrow.ts';
import type { AccessCode, AccessState } from '../../../shared/schemas/access.ts';
import { localDate } from '../../../shared/dates.ts';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';

const PHONE = '192.168.7.31';
let api: TestApi;
beforeAll(async () => {
  api = await openTestApi();
});
afterAll(() => api.close());

type Method = 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
const asPhone = (method: Method, path: string, cookie = '', payload?: object) =>
  api.app.inject({ method, url: `/api${path}`, remoteAddress: PHONE, headers: cookie ? { cookie } : {}, payload });

/** Pairs a phone in a role; its cookie. */
async function pair(role: string): Promise<string> {
  const { body } = await api.call<AccessCode>('POST', '/access/codes', { purpose: 'pair', role });
  const answer = await asPhone('POST', '/access/pair', '', { code: body.code, device_name: `phone of a ${role}` });
  expect(answer.statusCode).toBe(201);
  return String(answer.headers['set-cookie']).split(';')[0];
}

describe('a code', () => {
  it('has six digits, is good once, and dies with the fifth wrong try', () => {
    const codes = new PairingCodes();
    const { code } = codes.issue('pair', 'field');
    expect(code).toMatch(/^\d{6}$/);
    expect(codes.redeem('pair', `${code.slice(0, 3)} ${code.slice(3)}`)).toBe('field');
    expect(() => codes.redeem('pair', code)).toThrow(/CODE_REFUSED/);

    const next = codes.issue('pair', 'coach').code;
    const wrong = next === '000000' ? '000001' : '000000';
    for (let left = 4; left >= 0; left--) expect(() => codes.redeem('pair', wrong)).toThrow(`"tries_left":${left}`);
    expect(() => codes.redeem('pair', next)).toThrow(/CODE_REFUSED.none/);
  });

  it('can be typed for two minutes', () => {
    let now = 1_000_000;
    const codes = new PairingCodes(() => now);
    const first = codes.issue('confirm', null).code;
    now += 119_999;
    expect(codes.redeem('confirm', first)).toBeNull();
    const second = codes.issue('confirm', null).code;
    now += 120_000;
    expect(() => codes.redeem('confirm', second)).toThrow(/CODE_REFUSED/);
  });

  it('that pairs does not confirm', () => {
    const codes = new PairingCodes();
    const { code } = codes.issue('pair', 'coach');
    expect(() => codes.redeem('confirm', code)).toThrow(/CODE_REFUSED/);
  });

  it('comes with a link and a QR code when the network can reach the server', async () => {
    const access = new AccessService();
    access.place.addresses = ['https://192.168.7.2:7443'];
    const { code, links, qr_svg } = await access.issue('pair', 'coach');
    expect(links).toEqual([`https://192.168.7.2:7443/#/pair?code=${code}`]);
    expect(qr_svg).toContain('<svg');
    expect(await access.issueForTerminal('field')).toMatch(/pairing code \d{6}, role field/);
  });
});

describe('a device on the network', () => {
  it('is nobody until it is paired, keeps its token out of reach of pages, and can be revoked', async () => {
    expect((await asPhone('GET', '/athletes')).json().code).toBe('DEVICE_UNKNOWN');
    expect((await asPhone('GET', '/access/me')).json()).toMatchObject({ here: false, role: null });

    const { body } = await api.call<AccessCode>('POST', '/access/codes', { purpose: 'pair', role: 'coach' });
    const paired = await asPhone('POST', '/access/pair', '', { code: body.code, device_name: 'tablet' });
    const setCookie = String(paired.headers['set-cookie']);
    expect(setCookie).toMatch(/HttpOnly/);
    expect(setCookie).toMatch(/SameSite=Strict/);
    const cookie = setCookie.split(';')[0];
    // 256 bits in base64url are 43 characters; what is stored is a digest of 32 bytes that is not the token.
    const token = cookie.split('=')[1];
    expect(token).toHaveLength(43);
    const stored = api.store.prepare('SELECT token_sha256 FROM devices WHERE name = ?').get('tablet') as {
      token_sha256: Uint8Array;
    };
    expect(Buffer.from(stored.token_sha256)).toHaveLength(32);
    expect(Buffer.from(stored.token_sha256).toString('base64url')).not.toBe(token);

    expect((await asPhone('GET', '/athletes', cookie)).statusCode).toBe(200);
    const { device_id } = (paired.json() as AccessState).device!;
    expect((await api.call('GET', '/access/devices')).body.items[0]).toMatchObject({
      name: 'tablet',
      revoked_utc: null,
    });
    await api.call('DELETE', `/access/devices/${device_id}`);
    expect((await asPhone('GET', '/athletes', cookie)).json().code).toBe('DEVICE_UNKNOWN');
  });

  it('marks its cookie for https only where it came by https', async () => {
    const { body } = await api.call<AccessCode>('POST', '/access/codes', { purpose: 'pair' });
    const plain = await asPhone('POST', '/access/pair', '', { code: body.code, device_name: 'by http' });
    expect(String(plain.headers['set-cookie'])).not.toMatch(/Secure/);
  });

  it('erases, copies a person and changes consent only after a fresh code, for ten minutes, and that is noted', async () => {
    const { athlete_id } = await api.athleteAndSession();
    const coach = await pair('coach');
    const copy = `/coach/athletes/${athlete_id}/everything.zip`;
    expect((await asPhone('GET', copy, coach)).json().code).toBe('FRESH_CODE_NEEDED');
    const { body } = await api.call<AccessCode>('POST', '/access/codes', { purpose: 'confirm' });
    const confirmed = (await asPhone('POST', '/access/confirm', coach, { code: body.code })).json() as AccessState;
    const minutes = (Date.parse(confirmed.confirmed_until_utc!) - Date.now()) / 60_000;
    expect(minutes).toBeGreaterThan(9);
    expect(minutes).toBeLessThanOrEqual(10);
    expect((await asPhone('GET', copy, coach)).statusCode).toBe(200);
    const { items } = (await api.call('GET', '/access/audit')).body;
    expect(items[0]).toMatchObject({ action: 'exported', athlete_id, device: 'phone of a coach' });
    api.store.prepare('UPDATE devices SET confirmed_until_utc = ?').run('2026-01-01T00:00:00.000Z');
    expect((await asPhone('GET', copy, coach)).json().code).toBe('FRESH_CODE_NEEDED');
  });

  it("of the field works with the day's sessions only", async () => {
    const field = await pair('field');
    const today = localDate(new Date());
    const { body: now } = await api.call('POST', '/sessions', { session_date: today, title: 'today' });
    const { body: before } = await api.call('POST', '/sessions', { session_date: '2026-03-02', title: 'before' });
    expect((await asPhone('GET', `/sessions/${now.session_id}`, field)).statusCode).toBe(200);
    expect((await asPhone('GET', `/sessions/${before.session_id}`, field)).json().code).toBe('OTHER_DAY_REFUSED');
    const listed = (await asPhone('GET', '/sessions', field)).json().items as { session_date: string }[];
    expect(listed.map((session) => session.session_date)).toEqual([today]);
  });

  it('that displays gets first names and no notes, wherever a name stands', () => {
    const view = {
      athletes: [
        { name: 'Rosa Quill', sentence: 'Rosa Quill: as usual.', ratings: [{ note: 'tired' }] },
        { name: 'Rosa Quillon', sentence: 'Rosa Quillon: as usual.', ratings: [] },
      ],
    };
    const operation = 'GET /api/coach/sessions/:session_id/field';
    const seen = narrowAnswer(view, { role: 'display', operation, today: '2026-11-30', people: () => new Set() });
    expect(JSON.stringify(seen)).not.toMatch(/Quill|tired/);
    expect(seen).toMatchObject({ athletes: [{ name: 'Rosa', sentence: 'Rosa: as usual.' }, { name: 'Rosa' }] });
  });

  it('that asks too often is told when it may again', async () => {
    const answers = [];
    for (let n = 0; n < 12; n++) {
      answers.push(
        await api.app.inject({
          method: 'POST',
          url: '/api/access/pair',
          remoteAddress: '192.168.7.99',
          payload: { code: '1', device_name: 'guesser' },
        }),
      );
    }
    expect(answers.at(-1)!.json()).toMatchObject({ ok: false, code: 'TOO_MANY_REQUESTS' });
  });
});

describe('requests', () => {
  it.each(['0x1', '+1', '1e0', ' 1'])('with the identifier %j are refused', async (id) => {
    await api.athleteAndSession();
    const answer = await api.app.inject({ url: `/api/athletes/${encodeURIComponent(id)}` });
    expect(answer.statusCode).toBe(400);
    expect(answer.json().code).toBe('REQUEST_INVALID');
  });

  it('to an address that cannot be read get the one fault shape', async () => {
    const answer = await api.app.inject({ url: '/api/%zz' });
    expect(answer.statusCode).toBe(400);
    expect(answer.json()).toMatchObject({ ok: false, code: 'REQUEST_INVALID' });
  });

  it('that a browser says come from another site are refused, though a link may open the view', async () => {
    const site = (headers: Record<string, string>, url = '/api/health') => api.app.inject({ url, headers });
    expect((await site({ 'sec-fetch-site': 'cross-site' })).json().code).toBe('ORIGIN_REFUSED');
    expect((await site({ 'sec-fetch-site': 'same-site' })).json().code).toBe('ORIGIN_REFUSED');
    expect((await site({ 'sec-fetch-site': 'same-origin' })).statusCode).toBe(200);
    const link = { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate' };
    expect((await site(link, '/')).json?.().code ?? 'VIEW').not.toBe('ORIGIN_REFUSED');
    expect((await site(link)).json().code).toBe('ORIGIN_REFUSED');
  });
});

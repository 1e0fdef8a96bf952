import { told } from '../helpers/told.ts';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { encodeSamples } from '../../api/store/chunks.ts';
import { readRecording } from '../../api/store/read-samples.ts';
import { decodeSignal } from '../../shared/signal-wire.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi, sendForm, type TestApi } from '../helpers/test-api.ts';

let api: TestApi;
let place: { athlete_id: number; session_id: number };
beforeAll(async () => {
  api = await openTestApi();
  place = await api.athleteAndSession();
});
afterAll(() => api.close());

const form = () => ({ ...place, mounting: 'foot', effort_percent: 100, course: '30m' });
const count = (table: string) => (api.store.prepare(`SELECT count(*) AS n FROM ${table}`).get() as { n: number }).n;

describe('an import', () => {
  it('ends with the repetition, its contacts and its provenance', async () => {
    const { left, right, recording } = sprintFiles();
    const { body: done } = await api.import({ ...form(), time: '5.3s' }, { left, right });
    expect(done).toMatchObject({ state: 'done', progress: 1, fault: null, duplicate_of: null });
    expect(done.repetition_ids.length).toBe(1);
    const { body: repetition } = await api.call('GET', `/repetitions/${done.repetition_ids[0]}`);
    expect(repetition).toMatchObject({ state: 'analysed', course_distance_m: 30, course_time_s: 5.3, order_number: 1 });
    expect(repetition.recordings.map((one: { side: string }) => one.side)).toEqual(['left', 'right']);
    // Truth of the generator, not of the detector; how well contacts are found is checked elsewhere.
    const truth = recording.truth.contacts.length;
    expect(Math.abs(repetition.analysis.result.contacts.length - truth)).toBeLessThanOrEqual(3);
    expect(repetition.analysis.settings_sha256).toMatch(/^[0-9a-f]{64}$/);
    expect(repetition.analysis.raw_sha256).toEqual(
      repetition.recordings.map((one: { raw_sha256: string }) => one.raw_sha256),
    );
    expect(repetition.figures.contacts).toBe(repetition.analysis.result.contacts.length);
  });

  it('is refused where a number of its form is spelt otherwise than in plain digits', async () => {
    const before = count('raw_files');
    for (const athlete_id of ['0x1', '+1', '1e0', ' 1']) {
      const { status, body } = await api.import({ ...form(), athlete_id }, { left: 'a,b\n' });
      expect([status, (body as unknown as { code: string }).code], athlete_id).toEqual([400, 'REQUEST_INVALID']);
    }
    expect(count('raw_files')).toBe(before);
  });

  it('keeps the samples to the last bit', () => {
    const decoded = readRecording(api.store, 1).samples;
    const written = sprintFiles().left.trim().split('\n').slice(1);
    expect(decoded.time_s.length).toBe(written.length);
    for (const i of [0, 1, 1000, written.length - 1]) {
      const cells = written[i].split(',').map(Number);
      expect(decoded.acc_mps2.y[i]).toBe(cells[2] * STANDARD_GRAVITY_MPS2);
      expect(decoded.gyr_radps!.z[i]).toBe(cells[6] * RADIANS_PER_DEGREE);
    }
    expect(encodeSamples(decoded).length).toBe(count('recording_chunks') / 2);
  });

  it('of the same files is recognised by content and not doubled', async () => {
    const before = [count('raw_files'), count('recordings'), count('repetitions')];
    const { left, right } = sprintFiles();
    const { body } = await api.import(form(), { left, right });
    expect(body).toMatchObject({ state: 'done', duplicate_of: 1, repetition_ids: [1] });
    expect([count('raw_files'), count('recordings'), count('repetitions')]).toEqual(before);
  });

  it('of the same files twice at the same moment ends with one repetition', async () => {
    const { left, right } = sprintFiles(8);
    const ends = await Promise.all([1, 2, 3].map(() => api.import(form(), { left, right })));
    const ids = ends.map(({ body }) => body.repetition_ids);
    expect(new Set(ids.flat()).size).toBe(1);
    expect(ids.every((list) => list.length === 1)).toBe(true);
  });

  it.each([
    ['no recording at all', 'dear diary, today I ran\nand ran\n'.repeat(5)],
    ['an empty file', ''],
    ['random bytes', Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919 + 13 * ((i * i) % 251)) % 256)],
  ])('of %s fails with its reason, and keeps nothing but the raw file', async (_name, left) => {
    const before = ['recordings', 'recording_chunks', 'repetitions', 'analyses', 'contacts'].map(count);
    const { body } = await api.import(form(), { left });
    expect(body.state).toBe('failed');
    expect(told(body.fault).message.length).toBeGreaterThan(20);
    expect(['recordings', 'recording_chunks', 'repetitions', 'analyses', 'contacts'].map(count)).toEqual(before);
    const raw = await api.call('GET', `/imports/${body.import_id}/files/left`);
    expect(raw.status).toBe(200);
  });

  it('that failed can be started again with a correction, without sending the file anew', async () => {
    const rows = sprintFiles(9).left.trim().split('\n');
    const withoutTime = rows.map((row) => row.split(',').slice(1).join(',')).join('\n');
    const { body: failed } = await api.import(form(), { left: withoutTime });
    expect(failed.fault!.code).toBe('RATE_MISSING');
    const retry = await api.call('POST', `/imports/${failed.import_id}/retry`, { rate: '500hz' });
    expect(retry.status).toBe(202);
    await api.app.inject({ method: 'GET', url: `/api/imports/${failed.import_id}/events` });
    const { body: done } = await api.call('GET', `/imports/${failed.import_id}`);
    expect(done).toMatchObject({ state: 'done', fault: null });
  });

  it('can be cancelled, keeps its files, and can be started again', async () => {
    const { left, right } = sprintFiles(17);
    const before = ['recordings', 'repetitions', 'analyses'].map(count);
    const { body: accepted } = await sendForm(api.app, form(), { left, right });
    const { body: cancelled } = await api.call('POST', `/imports/${accepted.import_id}/cancel`);
    expect(cancelled).toMatchObject({ state: 'cancelled', fault: { code: 'TASK_CANCELLED' } });
    expect(['recordings', 'repetitions', 'analyses'].map(count)).toEqual(before);
    await api.call('POST', `/imports/${accepted.import_id}/retry`, {});
    await api.app.inject({ method: 'GET', url: `/api/imports/${accepted.import_id}/events` });
    expect((await api.call('GET', `/imports/${accepted.import_id}`)).body).toMatchObject({
      state: 'done',
      fault: null,
    });
  });

  it('is refused before anything is stored when its form does not fit', async () => {
    const before = [count('raw_files'), count('imports')];
    const { left } = sprintFiles();
    for (const [fields, field] of [
      [{ ...form(), mounting: 'wrist' }, 'mounting'],
      [{ ...form(), athlete_id: 4711 }, 'athlete_id'],
      [{ ...form(), course: 'forty' }, 'value'],
      [{ ...form(), colour: 'blue' }, 'colour'],
    ] as const) {
      const { status, body } = await sendForm(api.app, fields, { left: `${left}1` });
      expect(status).toBeGreaterThanOrEqual(400);
      expect(JSON.stringify(body)).toContain(field);
    }
    expect((await sendForm(api.app, form(), {})).body).toMatchObject({ code: 'REQUEST_INVALID' });
    expect([count('raw_files'), count('imports')]).toEqual(before);
  });

  it('fills a planned repetition, and never overwrites one that has a recording', async () => {
    const { body: planned } = await api.call('POST', '/repetitions', { ...place, effort_percent: 90 });
    const files = { left: sprintFiles(10).left };
    const { body: done } = await api.import({ ...form(), repetition_id: planned.repetition_id }, files);
    expect(done.repetition_ids).toEqual([planned.repetition_id]);
    const again = await sendForm(api.app, { ...form(), repetition_id: planned.repetition_id }, files);
    expect([again.status, (again.body as unknown as { code: string }).code]).toEqual([409, 'REPETITION_HAS_RECORDING']);
  });

  it('leaves the server free to answer while it works', async () => {
    const { left, right } = sprintFiles(11);
    const { body } = await sendForm(api.app, form(), { left, right });
    // In the server's own thread an import would be over by the answer after the first.
    let seen_at_work = 0;
    for (;;) {
      const { state } = (await api.call('GET', `/imports/${body.import_id}`)).body;
      if (state === 'done' || state === 'failed') break;
      seen_at_work++;
      await new Promise((resolve) => setTimeout(resolve, 2));
    }
    expect(seen_at_work).toBeGreaterThan(10);
  });
});

describe('a repetition with a result', () => {
  it('is analysed again when its time changes, and keeps the earlier analysis', async () => {
    const { body } = await api.call('PATCH', '/repetitions/1', { course_time_s: 5.0 });
    expect(body.analysis_id).toBeGreaterThan(1);
    const { body: list } = await api.call('GET', '/repetitions/1/analyses');
    expect(list.items.map((line: { current: boolean }) => line.current)).toEqual([true, false]);
    const { body: first } = await api.call('GET', '/analyses/1');
    expect(first.result.contacts.length).toBe(body.analysis.result.contacts.length);
    expect(first.settings_sha256).toBe(body.analysis.settings_sha256);
  });

  it('gives the same result when analysed again unchanged', async () => {
    const { body: one } = await api.call('POST', '/repetitions/1/analyses');
    const { body: two } = await api.call('POST', '/repetitions/1/analyses', {});
    expect(two.analysis_id).not.toBe(one.analysis_id);
    expect(two.result).toEqual(one.result);
  });

  it('says which setting is not known', async () => {
    const settings = { swing: { cutof_hz: 6 } };
    const answer = await api.call('POST', '/repetitions/1/analyses', { settings });
    expect([answer.status, answer.body.code, answer.body.where.field]).toEqual([
      422,
      'SETTINGS_UNREADABLE',
      'swing.cutof_hz',
    ]);
  });

  it('sends its signal window as described, on the clock of its contacts', async () => {
    const answer = await api.app.inject({
      method: 'GET',
      url: '/api/repetitions/1/signal?side=right&from_s=3&to_s=4&max_points=100000',
    });
    const bytes = new Uint8Array(answer.rawPayload).buffer;
    const { header, columns } = decodeSignal(bytes);
    // Both ends are included: 3.000 to 4.000 s at 500 Hz.
    expect(header.count).toBe(501);
    expect(header.thinned).toBe(false);
    expect(header.origin_s).toBeGreaterThanOrEqual(3);
    expect(columns.time_s!.at(-1)! + header.origin_s).toBeLessThan(4.001);
    const thin = await api.app.inject({ method: 'GET', url: '/api/repetitions/1/signal?side=right&max_points=200' });
    const thinned = decodeSignal(new Uint8Array(thin.rawPayload).buffer);
    expect(thinned.header).toMatchObject({ thinned: true, count: 200 });
    expect((await api.call('GET', '/repetitions/1/signal?side=unknown')).body.code).toBe('RECORDING_NOT_FOUND');
  });

  it('gives its steps as CSV with the columns that never change', async () => {
    const { body } = await api.call<string>('GET', '/repetitions/1/steps.csv');
    expect(body.split('\n')[0]).toMatch(/^repetition,step,side,touchdown_s,toe_off_s,contact_time_ms,/);
  });

  it('has a baseline from earlier sessions only, provisional below six repetitions', async () => {
    const { body: session } = await api.call('POST', '/sessions', { session_date: '2026-03-09' });
    const { left, right } = sprintFiles(12);
    const { body: done } = await api.import({ ...form(), session_id: session.session_id }, { left, right });
    const { body: profile } = await api.call('GET', `/repetitions/${done.repetition_ids[0]}/profile`);
    expect(profile.baseline.n).toBeGreaterThanOrEqual(3);
    expect(profile.baseline.provisional).toBe(profile.baseline.n < 6);
    const band = profile.baseline.quantities.contact_time_ms.by_step;
    expect(band.length).toBeGreaterThan(10);
    for (const point of band) expect(point.low).toBeLessThan(point.high);
    expect(profile.earlier_today).toEqual([]);
  });
});

describe('a saved layout', () => {
  it('is used for the next file of the same shape, and shown as what it rests on', async () => {
    const bare = (seed: number) =>
      sprintFiles(seed)
        .left.trim()
        .split('\n')
        .map((row) => row.split(',').slice(1).join(','))
        .join('\n');
    const { body: first } = await api.import({ ...form(), rate: '500hz' }, { left: bare(13) });
    const saved = await api.call('POST', `/imports/${first.import_id}/layout`, { name: 'club logger' });
    expect(saved.status).toBe(201);
    const { body: second } = await api.import(form(), { left: bare(14) });
    expect(second.state).toBe('done');
    const { body: repetition } = await api.call('GET', `/repetitions/${second.repetition_ids[0]}`);
    const { body: recording } = await api.call('GET', `/recordings/${repetition.recordings[0].recording_id}`);
    expect(recording.layout.name).toBe('club logger');
    expect(recording.sampling_rate_hz).toBeCloseTo(500, 6);
    await api.call('DELETE', `/layouts/${saved.body.layout_id}`);
    const { body: third } = await api.import(form(), { left: bare(15) });
    expect(third.fault!.code).toBe('RATE_MISSING');
  });

  it('goes out and comes in as JSON, and one that does not fit its schema is refused', async () => {
    const { body } = await api.call('GET', '/layouts?deleted=true');
    const { layout } = body.items[0];
    expect((await api.call('POST', '/layouts', { name: 'copy', layout })).body.layout).toEqual({
      ...layout,
      name: 'copy',
    });
    const broken = { ...layout, sensors: [] };
    expect((await api.call('POST', '/layouts', { name: 'copy', layout: broken })).status).toBe(400);
  });
});

describe('rows that cannot be read', () => {
  it('are counted and can be downloaded with line, column, found and expected', async () => {
    const rows = sprintFiles(16).left.trim().split('\n');
    rows[100] = rows[100].replace(/^([^,]*),[^,]*/, '$1,n/a?');
    const { body } = await api.import(form(), { left: rows.join('\n') });
    expect(body).toMatchObject({ state: 'done', rejected_count: 1 });
    const { body: csv } = await api.call<string>('GET', `/imports/${body.import_id}/rejected.csv`);
    expect(csv.split('\n')[0]).toBe('file,line,column,found,expected,text');
    expect(csv.split('\n')[1]).toContain('left.csv,101,acc_x_g,"""n/a?""",a number,');
  });
});

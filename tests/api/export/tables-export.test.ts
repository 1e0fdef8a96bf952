import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { parquetReadObjects } from 'hyparquet';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordExport } from '../../../api/export/export-records.ts';
import { folderSink } from '../../../api/export/sink.ts';
import { writeExport } from '../../../api/export/formats/write-export.ts';
import { outsideTool } from '../../helpers/outside-tools.ts';
import { pythonWithScipy } from '../../helpers/scipy.ts';
import { sprintFiles } from '../../helpers/sprint-files.ts';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';

const { Package } = createRequire(import.meta.url)('datapackage');

let api: TestApi;
let athlete_id: number;
let folder: string;
beforeAll(async () => {
  api = await openTestApi();
  const place = await api.athleteAndSession();
  athlete_id = place.athlete_id;
  await api.call('PATCH', `/athletes/${athlete_id}`, { birth_date: '2009-06-01', notes: 'knee taped' });
  const { left, right } = sprintFiles();
  await api.import({ ...place, mounting: 'foot', effort_percent: 100, course: '30m', time: '5.3s' }, { left, right });
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-export-'));
});
afterAll(async () => {
  await api.close();
  rmSync(folder, { recursive: true, force: true });
});

const agree = (status: string) =>
  api.call('PUT', `/athletes/${athlete_id}/research-consent`, { status, status_date: '2026-11-01' });

describe('an export of tables', () => {
  it('is refused without consent, says so, and records nothing', async () => {
    const { status, body } = await api.call('POST', '/exports', { kind: 'tables' });
    expect(status).toBeGreaterThanOrEqual(400);
    expect(body).toMatchObject({ ok: false, code: 'EXPORT_EMPTY', where: { athletes_without_consent: 1 } });
    expect((await api.call('GET', '/exports')).body.items).toEqual([]);
  });

  it('holds every contact and passes the standard tabular data package profile with its constraints and keys', async () => {
    await agree('given');
    const made = recordExport(api.store, { kind: 'tables' });
    await writeExport(api.store, made, folderSink(folder));
    expect(readdirSync(folder)).toContain('contacts.parquet');
    const description = JSON.parse(readFileSync(join(folder, 'datapackage.json'), 'utf8'));
    // Outside check: the reference JavaScript library of the Data Package standard, version 1 profiles, offline.
    const standard = await Package.load(description, { basePath: folder, strict: true });
    expect(standard.errors).toEqual([]);
    for (const resource of standard.resources) {
      const rows = await resource.read({ keyed: true, relations: true });
      expect(rows.length).toBeGreaterThan(0);
    }
    const contacts = await standard.getResource('contacts').read({ keyed: true });
    expect(contacts.length).toBe(made.contacts);
  });

  it('has the same values in CSV and Parquet, and equal sums in pandas', async (context) => {
    const bytes = readFileSync(join(folder, 'contacts.parquet'));
    const rows = (await parquetReadObjects({ file: new Uint8Array(bytes).buffer })) as Record<string, number | null>[];
    const sums = (name: string) => rows.reduce((total, row) => total + (row[name] ?? 0), 0);
    const columns = ['contact_time_ms', 'flight_time_ms', 'step_time_ms', 'touchdown_s', 'contact_time_ms_u'];
    const python = pythonWithScipy();
    const script =
      'import pandas, sys, json; t = pandas.read_csv(sys.argv[1]); print(json.dumps([t[c].sum() for c in sys.argv[2:]]))';
    const run = spawnSync(python ?? 'python3', ['-c', script, join(folder, 'contacts.csv'), ...columns], {
      encoding: 'utf8',
    });
    if (run.status !== 0) return context.skip('no Python with pandas: install python3-pandas');
    // Outside check: pandas reads the file without a word of explanation.
    (JSON.parse(run.stdout) as number[]).forEach((sum, k) => {
      expect(sum).toBeCloseTo(sums(columns[k]), 6);
    });
  });

  it('has equal sums in DuckDB, from CSV and from Parquet', async (context) => {
    const tool = outsideTool('@duckdb/node-api/lib/index.js');
    if (!tool) return context.skip('no $OUTSIDE_TOOLS: see tests/helpers/outside-tools.ts');
    const { DuckDBInstance } = createRequire(import.meta.url)(tool);
    const duckdb = await (await DuckDBInstance.create(':memory:')).connect();
    const sums = async (file: string) => {
      const read = await duckdb.runAndReadAll(
        `SELECT count(*), sum(contact_time_ms), sum(step_length_m), sum(touchdown_s_u) FROM '${join(folder, file)}'`,
      );
      return (read.getRows()[0] as unknown[]).map(Number);
    };
    const fromParquet = await sums('contacts.parquet');
    expect(fromParquet[0]).toBeGreaterThan(10);
    (await sums('contacts.csv')).forEach((sum, k) => {
      expect(sum).toBeCloseTo(fromParquet[k], 6);
    });
  });

  it('names no person: pseudonyms stay the same, birth dates become ages, notes stay home', async () => {
    const all = readdirSync(folder).map((name) => readFileSync(join(folder, name), 'latin1'));
    for (const text of all) {
      expect(text).not.toContain('Rosa Quill');
      expect(text).not.toContain('knee taped');
      expect(text).not.toContain('2009-06-01');
    }
    const [, row] = readFileSync(join(folder, 'athletes.csv'), 'utf8').split('\n');
    const again = mkdtempSync(join(tmpdir(), 'cinderlane-export-'));
    await writeExport(api.store, recordExport(api.store, { kind: 'tables', shift_dates: true }), folderSink(again));
    expect(readFileSync(join(again, 'athletes.csv'), 'utf8').split('\n')[1]).toBe(row);
    const day = (at: string) => readFileSync(join(at, 'sessions.csv'), 'utf8').split('\n')[1].split(',')[2];
    const moved = (Date.parse(day(folder)) - Date.parse(day(again))) / 86_400_000;
    expect(moved).toBeGreaterThanOrEqual(1);
    expect(moved).toBeLessThanOrEqual(365);
    rmSync(again, { recursive: true });
  });

  it('gives identifiers that are unique everywhere as far as its level allows', async () => {
    const { body } = await api.call('GET', '/repetitions');
    const [{ uuid }] = body.items;
    const named = async (order: object) => {
      const at = mkdtempSync(join(tmpdir(), 'cinderlane-export-'));
      await writeExport(api.store, recordExport(api.store, { kind: 'tables', ...order }), folderSink(at));
      const text = ['athletes', 'sessions', 'repetitions'].map((name) => readFileSync(join(at, `${name}.csv`), 'utf8'));
      rmSync(at, { recursive: true, force: true });
      return { headers: text.map((one) => one.split('\n')[0]), holds: text.join('').includes(uuid) };
    };
    const withNames = await named({ with_names: true });
    expect(withNames.headers.map((line) => /(athlete|session|repetition)_uuid/.exec(line)?.[0])).toEqual([
      'athlete_uuid',
      'session_uuid',
      'repetition_uuid',
    ]);
    const pseudonyms = await named({});
    expect(pseudonyms.headers.map((line) => line.includes('_uuid'))).toEqual([false, false, true]);
    expect([withNames.holds, pseudonyms.holds]).toEqual([true, true]);
    for (const order of [{ shift_dates: true }, { level: 'open' }]) {
      const { headers, holds } = await named(order);
      expect(headers.join().includes('_uuid')).toBe(false);
      expect(holds).toBe(false);
    }
  });

  it('comes as a zip over HTTP and is recorded with its counts', async () => {
    const { body: made } = await api.call('POST', '/exports', { kind: 'tables', quantities: ['contact_time_ms'] });
    const answer = await api.app.inject({ method: 'GET', url: `/api/exports/${made.export_id}/archive` });
    const files = unzipSync(new Uint8Array(answer.rawPayload));
    expect(Object.keys(files)).toContain('datapackage.json');
    const [header] = new TextDecoder().decode(files['contacts.csv']).split('\n');
    expect(header).toContain('contact_time_ms_u');
    expect(header).not.toContain('flight_time_ms');
    expect((await api.call('GET', '/exports')).body.items[0]).toMatchObject({ athletes: 1, left_out: 0 });
  });

  it('respects consent that is withdrawn after the export was ordered', async () => {
    const { body: made } = await api.call('POST', '/exports', { kind: 'tables' });
    await agree('withdrawn');
    const { status, body } = await api.call('GET', `/exports/${made.export_id}/archive`);
    expect(status).toBeGreaterThanOrEqual(400);
    expect(body.code).toBe('EXPORT_EMPTY');
  });
});

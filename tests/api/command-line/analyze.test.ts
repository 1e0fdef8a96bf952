import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { STEPS_CSV_COLUMNS } from '../../../shared/fields.ts';
import { sprintFiles } from '../../helpers/sprint-files.ts';
import { runCommand } from './run-command.ts';

let folder = '';
const path = (name: string) => join(folder, name);
const read = (name: string) => readFileSync(path(name), 'utf8');

/** steps.csv as numbers; an empty field is NaN. */
function steps(out: string): Record<string, number>[] {
  const { data } = Papa.parse<Record<string, string>>(read(`${out}/steps.csv`), { header: true, skipEmptyLines: true });
  return data.map((row) =>
    Object.fromEntries(Object.entries(row).map(([name, text]) => [name, text === '' ? Number.NaN : Number(text)])),
  );
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-analyze-'));
  const { left, right } = sprintFiles();
  writeFileSync(path('left.csv'), left);
  writeFileSync(path('right.csv'), right);
  const rows = left.trim().split('\n');
  writeFileSync(path('slow.csv'), rows.filter((_, i) => i === 0 || i % 20 === 1).join('\n'));
  const both = ['analyze', '--left', path('left.csv'), '--right', path('right.csv'), '--mount', 'foot'];
  await runCommand([...both, '--course', '30m', '--time', '5.3s', '--out', path('both')]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('analyze', () => {
  it('writes steps.csv with the columns of the contract, in time order over both feet', () => {
    expect(read('both/steps.csv').split('\n')[0]).toBe(STEPS_CSV_COLUMNS.join(','));
    const rows = steps('both');
    expect(rows.length).toBeGreaterThan(15);
    rows.forEach((row, i) => {
      expect(row.step).toBe(i + 1);
      if (i > 0) expect(row.touchdown_s).toBeGreaterThan(rows[i - 1].touchdown_s);
    });
  });

  it('writes values that fit together: contact + flight = step time, step rate = 1 / step time', () => {
    const measured = steps('both').filter((row) => row.contact_time_ms > 0 && row.flight_time_ms > 0);
    expect(measured.length).toBeGreaterThan(10);
    for (const row of measured) {
      expect(row.contact_time_ms + row.flight_time_ms).toBeCloseTo(row.step_time_ms, 2);
      expect((row.step_rate_hz * row.step_time_ms) / 1000).toBeCloseTo(1, 4);
      expect((row.toe_off_s - row.touchdown_s) * 1000).toBeCloseTo(row.contact_time_ms, 2);
    }
  });

  it('finds the contacts that the generator made', () => {
    const truth = sprintFiles().recording.truth.contacts;
    const found = steps('both');
    const hit = truth.filter((one) => found.some((row) => Math.abs(row.touchdown_s - one.touchdown_s) < 0.05));
    expect(hit.length / truth.length).toBeGreaterThan(0.9);
  });

  it('writes provenance that names version, settings and raw files by their hashes', () => {
    const provenance = JSON.parse(read('both/provenance.json'));
    expect(provenance.version).toMatch(/^\d+\.\d+\.\d+$/);
    expect(provenance.settings_sha256).toMatch(/^[0-9a-f]{64}$/);
    expect(provenance.raw_sha256.length).toBe(2);
    expect(provenance.settings.swing.cutoff_hz).toBeGreaterThan(0);
    expect(provenance.course.distance_m).toBe(30);
  });

  it('writes the same bytes again for the same input', async () => {
    const both = ['analyze', '--left', path('left.csv'), '--right', path('right.csv'), '--mount', 'foot'];
    await runCommand([...both, '--course', '30m', '--time', '5.3s', '--out', path('again')]);
    for (const name of ['steps.csv', 'repetitions.csv', 'quality.json', 'provenance.json']) {
      expect(read(`again/${name}`)).toBe(read(`both/${name}`));
    }
  });

  it('leaves contact times empty at 25 Hz and says so in quality.json', async () => {
    const { exit_code } = await runCommand([
      'analyze',
      '--left',
      path('slow.csv'),
      '--mount',
      'foot',
      '--out',
      path('slow'),
    ]);
    expect(exit_code).toBe(0);
    for (const row of steps('slow')) expect(row.contact_time_ms).toBeNaN();
    const { sensors } = JSON.parse(read('slow/quality.json'));
    expect(sensors[0].sampling_rate_hz).toBeCloseTo(25, 1);
    const verdict = sensors[0].verdicts.find((one: { quantity: string }) => one.quantity === 'contact_time_ms');
    expect(verdict.fitness).toBe('not measurable');
    expect(verdict.why.length).toBeGreaterThan(10);
  });

  it('runs as npx finds it in the checkout, without a download', () => {
    const root = fileURLToPath(new URL('../../..', import.meta.url));
    const end = spawnSync('npx', ['--offline', '--no-install', 'cinderlane', '--version'], {
      cwd: root,
      encoding: 'utf8',
    });
    expect(end.stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
    expect(end.status).toBe(0);
  });
});

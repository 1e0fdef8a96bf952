import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ResultSpool, spooledResults } from '../../api/measuring/result-spool.ts';
import { readImportFolder } from '../../api/command-line/import-folder.ts';
import { Jobs } from '../../api/measuring/jobs/jobs.ts';
import { createAthlete } from '../../api/store/athletes.ts';
import { createImport, getImport, markImport } from '../../api/store/imports.ts';
import { RawFileWriter } from '../../api/store/raw-files.ts';
import { createSession } from '../../api/store/sessions.ts';
import { Store } from '../../api/store/store.ts';
import type { RepetitionResult } from '../../shared/analysis.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-jobs-'));
let store: Store;
let place: { athlete_id: number; session_id: number };

beforeAll(() => {
  store = Store.open(join(folder, 'cinderlane.sqlite'));
  const { athlete_id } = createAthlete(store, { name: 'Ann' });
  const { session_id } = createSession(store, { session_date: '2026-03-02' });
  place = { athlete_id, session_id };
});
afterAll(() => {
  store.close();
  rmSync(folder, { recursive: true, force: true });
});

/** An import whose file is stored, as it stands before its work starts. */
async function importOf(rows: number): Promise<number> {
  const writer = new RawFileWriter(store, 'left.csv');
  await writer.append(Buffer.from(`${sprintFiles().left.split('\n').slice(0, rows).join('\n')}\n`));
  const { raw_file_id } = await writer.finish();
  return createImport(store, { ...place, mounting: 'foot' }, [{ side: 'left', raw_file_id, file_name: 'left.csv' }]);
}

const recordings = () => (store.prepare('SELECT count(*) AS n FROM recordings').get() as { n: number }).n;

describe('imports that a killed program left', () => {
  it('are done once, whether they were waiting or under way', { timeout: 60_000 }, async () => {
    const [waiting, working] = [await importOf(3000), await importOf(3001)];
    markImport(store, working, { state: 'working', step: 'reading the samples', progress: 0.4 });
    const jobs = new Jobs(store, 1);
    jobs.recover();
    // One thread, first come first served: what was started twice would be done before this one.
    await jobs.startImport(await importOf(3002));
    expect([waiting, working].map((id) => getImport(store, id).state)).toEqual(['done', 'done']);
    expect(recordings()).toBe(3);
    await jobs.close();
  });

  it('can be cancelled while they wait for a thread', { timeout: 60_000 }, async () => {
    const jobs = new Jobs(store, 1);
    const [first, second] = [await importOf(3003), await importOf(3004)];
    const running = jobs.startImport(first);
    void jobs.startImport(second);
    await jobs.cancelImport(second);
    expect(getImport(store, second).state).toBe('cancelled');
    expect(getImport(store, first).state).not.toBe('done');
    await running;
    expect(getImport(store, first).state).toBe('done');
    await jobs.close();
  });
});

describe('a spool of results', () => {
  it('gives them back in order, as often as asked, and leaves no file', () => {
    const spool = new ResultSpool(folder);
    const results = Array.from({ length: 50 }, (_, i) => ({ repetition: i + 1, note: 'ä'.repeat(i) }));
    for (const result of results) spool.add(result as unknown as RepetitionResult);
    spool.finish();
    for (let time = 0; time < 2; time++) expect([...spooledResults(spool.index)]).toEqual(results);
    spool.clear();
    expect(readdirSync(folder).filter((name) => name.startsWith('spool'))).toEqual([]);
  });
});

describe('a folder of recordings', () => {
  it('pairs files that differ by the side alone, in the order of their numbers', () => {
    const home = mkdtempSync(join(folder, 'recordings-'));
    const names = [
      'run10_left.csv',
      'run10_right.csv',
      'run2_R.csv.gz',
      'run2_L.csv.gz',
      'both feet.csv',
      'LeftShank 3.txt',
    ];
    for (const name of [...names, 'notes.pdf', '.hidden.csv']) writeFileSync(join(home, name), '');
    const lines = readImportFolder(home, { athlete: 'Ann', date: '2026-03-02', form: { mounting: 'foot' } });
    expect(lines.map(({ label }) => label).sort()).toEqual(
      ['LeftShank 3.txt', 'both feet.csv', 'run10_left.csv + run10_right.csv', 'run2_L.csv.gz + run2_R.csv.gz'].sort(),
    );
    expect(lines.findIndex(({ label }) => label.startsWith('run2'))).toBeLessThan(
      lines.findIndex(({ label }) => label.startsWith('run10')),
    );
    expect(lines.find(({ label }) => label === 'both feet.csv')!.files.file).toBe(join(home, 'both feet.csv'));
    expect(lines.find(({ label }) => label === 'LeftShank 3.txt')!.files.left).toBe(join(home, 'LeftShank 3.txt'));
  });

  it('that holds none is refused', () => {
    expect(() => readImportFolder(join(folder, 'nowhere'), { athlete: 'A', date: '', form: {} })).toThrow(
      'FILE_NOT_FOUND.folder',
    );
  });
});

/** Agreement studies and exports by workers of an archive: the same as one machine alone would say, and gone with whoever leaves. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { METHOD } from '../../../dsp/analyse.ts';
import { agreementStudy } from '../../../api/agreement/study.ts';
import { readReference } from '../../../api/agreement/read-reference.ts';
import { push } from '../../../api/archive/exchange/push.ts';
import { ARCHIVE_TABLES } from '../../../api/archive/research/archive-tables.ts';
import { collectExport } from '../../../api/archive/work/collect-export.ts';
import { collectStudy } from '../../../api/archive/work/collect-study.ts';
import { readReferences } from '../../../api/archive/work/read-references.ts';
import { failuresOf, findRun } from '../../../api/archive/work/run-report.ts';
import { acceptRun, dropRun, retryRun } from '../../../api/archive/work/runs.ts';
import { startAgreement, startExport, startRun } from '../../../api/archive/work/start-runs.ts';
import { work } from '../../../api/archive/work/worker.ts';
import { changeConsent } from '../../../api/export/consents.ts';
import { changedFiles } from '../../../api/export/checksums.ts';
import { folderSink } from '../../../api/export/sink.ts';
import { listContacts } from '../../../api/store/analyses.ts';
import { postgresPrograms } from '../../helpers/postgres.ts';
import { type ArchivedClub, makeArchivedClub, withStore } from './archived-club.ts';
import { type KeptArchive, keepArchive } from './kept-archive.ts';

const there = postgresPrograms() !== null;
const folder = mkdtempSync(join(tmpdir(), 'cinderlane-kinds-'));
let club: ArchivedClub;
let archive: KeptArchive;

beforeAll(async () => {
  if (!there) return;
  club = await makeArchivedClub();
  archive = await keepArchive(club.folder);
});
afterAll(async () => {
  await archive?.close();
  for (const one of [club?.folder, folder]) if (one) rmSync(one, { recursive: true, force: true });
});

const workAll = () =>
  work(archive.keeper, { until_done: true, signal: new AbortController().signal, tell: () => undefined });
let number = 0;
const emptyFolder = () => {
  number += 1;
  return join(folder, `out-${number}`);
};
const lines = (out: string, file: string) => readFileSync(join(out, file), 'utf8').trim().split('\n');

describe.skipIf(!there)('workers of an archive', () => {
  test('make the agreement study that one machine makes of the same contacts and references', async () => {
    const { uuid, contacts } = await withStore(club.folder, (store) => {
      const row = store
        .prepare('SELECT uuid, analysis_id FROM repetitions JOIN repetition_recordings USING (repetition_id) LIMIT 1')
        .get() as { uuid: string; analysis_id: number };
      return { uuid: row.uuid, contacts: listContacts(store, row.analysis_id) };
    });
    // A reference of ours, away from the contacts by known amounts: 3 and 5 ms by turns.
    const rows = contacts.map(
      ({ side, touchdown_s, toe_off_s }, i) =>
        `${side},${touchdown_s - 0.003 - 0.002 * (i % 2)},${toe_off_s === null ? '' : toe_off_s + 0.001}`,
    );
    const csv = `side,touchdown_s,toe_off_s\n${rows.join('\n')}\n`;
    const list = join(folder, 'list.csv');
    writeFileSync(join(folder, 'plate.csv'), csv);
    writeFileSync(list, `repetition,reference,recording\n${uuid},plate.csv,first\n`);
    const started = await startAgreement(archive.keeper, readReferences(list), { reference_clock: 'file' }, undefined);
    expect(started.total).toBe(1);
    expect(await workAll()).toEqual({ done: 1, failed: 0 });
    const study = await collectStudy(archive.keeper, started.run_id);
    const own = agreementStudy(
      [{ recording: 'first', athlete: 'x', contacts, reference: readReference(csv, 'plate.csv') }],
      'file',
      METHOD,
    );
    expect(study.quantities).toEqual(own.quantities);
    expect(study.recordings[0]).toMatchObject({ recording: 'first', matched: contacts.length, missed: 0, extra: 0 });
    // Of 3 and 5 ms by turns the mean is 4, or for an odd count 4 less a part of one.
    const { bias } = study.quantities.find(({ quantity }) => quantity === 'touchdown')!;
    expect(Math.abs(bias.value - 4)).toBeLessThan(1 / contacts.length + 1e-6);
    expect(study.recordings[0].athlete).toMatch(/^\w+.*, Harrow Lane$/);
    // Nothing of the repetition changed, and there is nothing to accept.
    const { rows: results } = await archive.keeper.query(
      'SELECT count(*)::int AS n FROM archive.analyses WHERE run_id = $1',
      [started.run_id],
    );
    expect(results).toEqual([{ n: 0 }]);
    await expect(acceptRun(archive.keeper, started.run_id, true)).rejects.toMatchObject({ code: 'RUN_KIND_DIFFERS' });
    await dropRun(archive.keeper, started.run_id);
    await expect(findRun(archive.keeper, started.run_id)).rejects.toMatchObject({ code: 'RUN_NOT_FOUND' });
  });

  test('are not given a list with a reference that cannot be read, or a repetition that nobody has', async () => {
    const list = join(folder, 'wrong.csv');
    const refused = async (text: string) => {
      writeFileSync(list, text);
      const start = async () =>
        startAgreement(archive.keeper, readReferences(list), { reference_clock: 'file' }, undefined);
      return start().then(
        () => 'taken',
        (error) => error.code as string,
      );
    };
    writeFileSync(join(folder, 'empty.csv'), 'side,touchdown_s\n');
    const unknown = '00000000-0000-7000-8000-000000000000';
    expect(await refused('repetition,reference\n')).toBe('LIST_UNREADABLE');
    expect(await refused('repetition,reference\n12,plate.csv\n')).toBe('LIST_UNREADABLE');
    expect(await refused(`repetition,reference\n${unknown},\n`)).toBe('LIST_UNREADABLE');
    expect(await refused(`repetition,reference\n${unknown},plate.csv\n${unknown},plate.csv\n`)).toBe('LIST_UNREADABLE');
    expect(await refused(`repetition,reference\n${unknown},none.csv\n`)).toBe('FILE_NOT_FOUND');
    expect(await refused(`repetition,reference\n${unknown},empty.csv\n`)).toBe('REFERENCE_UNREADABLE');
    expect(await refused(`repetition,reference\n${unknown},plate.csv\n`)).toBe('REPETITION_LEFT_ARCHIVE');
    await expect(startRun(archive.keeper, { club: 'Harow Lane' }, undefined)).rejects.toMatchObject({
      code: 'CLUB_NOT_FOUND',
    });
  });

  test('export everybody by ranges of people; put together, every repetition and contact is there once', async () => {
    const { run_id, total } = await startExport(archive.keeper, {}, { format: 'csv', people_a_job: 1 });
    expect(total).toBe(2);
    await expect(collectExport(archive.keeper, run_id, folderSink(emptyFolder()))).rejects.toMatchObject({
      code: 'RUN_NOT_ENDED',
    });
    expect(await workAll()).toEqual({ done: 2, failed: 0 });
    const out = emptyFolder();
    const rows = await collectExport(archive.keeper, run_id, folderSink(out));
    const { rows: counted } = await archive.keeper.query<{ repetitions: number; contacts: number }>(
      `SELECT count(DISTINCT r.repetition_id)::int AS repetitions, count(*)::int AS contacts
         FROM archive.repetitions r JOIN archive.contacts c USING (club_id, analysis_id)`,
    );
    expect(rows).toEqual(counted[0]);
    const contacts = lines(out, 'contacts.csv');
    expect(contacts).toHaveLength(counted[0].contacts + 1);
    expect(contacts[0].split(',')).toEqual(ARCHIVE_TABLES[1].columns.map(({ name }) => name));
    const keys = contacts.slice(1).map((line) => line.split(',').slice(0, 2).join());
    expect(new Set(keys).size).toBe(keys.length);
    expect(changedFiles(out)).toEqual([]);
    const described = JSON.parse(readFileSync(join(out, 'datapackage.json'), 'utf8')) as {
      resources: { name: string; schema: { fields: unknown[] } }[];
    };
    expect(described.resources.map(({ name }) => name)).toEqual(['repetitions', 'contacts']);
    expect(readFileSync(join(out, 'repetitions.csv'), 'utf8')).not.toMatch(/Oakenfold|Perpetua/);
  });

  test('are asked, work, and are collected from by the command line', () => {
    const out = emptyFolder();
    const told = (...words: string[]) => {
      const command = ['api/command-line/cinderlane.mjs', 'work', ...words, '--archive', archive.keeperAddress];
      const { status, stdout, stderr } = spawnSync(process.execPath, command, { encoding: 'utf8' });
      expect([stderr, status]).toEqual(['', 0]);
      return stdout;
    };
    const [, run] = /^([0-9a-f-]{36}): 1 parts\n$/.exec(told('start', '--kind', 'export', '--format', 'parquet'))!;
    expect(told('--until-done')).toMatch(/1 done, 0 failed\n$/);
    expect(told('status')).toContain(`${run}  export`);
    expect(told('collect', '--run', run, '--out', out)).toMatch(/^2 repetitions, \d+ contacts\n$/);
    expect(changedFiles(out)).toEqual([]);
    told('drop', '--run', run);
    expect(told('status')).not.toContain(run);
  });

  test('lose what they exported of whoever leaves, and do the rest again', async () => {
    const { run_id } = await startExport(archive.keeper, {}, { format: 'parquet', people_a_job: 2 });
    expect(await workAll()).toEqual({ done: 1, failed: 0 });
    await withStore(club.folder, (store) =>
      changeConsent(store, club.agreed[1], { status: 'withdrawn', status_date: '2026-03-05', guardian: 'a parent' }),
    );
    await archive.exchange(club.folder, push);
    const files = async () =>
      (await archive.keeper.query('SELECT name FROM archive.run_files WHERE run_id = $1 ORDER BY name', [run_id])).rows;
    expect(await files()).toEqual([]);
    expect(await findRun(archive.keeper, run_id)).toMatchObject({ failed: 1, done: 0 });
    expect(await failuresOf(archive.keeper, run_id)).toMatchObject([
      { n: 1, fault: { sentence: 'REPETITION_LEFT_ARCHIVE.export' } },
    ]);
    expect(await retryRun(archive.keeper, run_id)).toBe(1);
    expect(await workAll()).toEqual({ done: 1, failed: 0 });
    const out = emptyFolder();
    mkdirSync(out);
    expect((await collectExport(archive.keeper, run_id, folderSink(out))).repetitions).toBe(1);
    expect(readFileSync(join(out, 'contacts/part-0001.parquet')).subarray(0, 4).toString()).toBe('PAR1');
  });
});

/** Workers on a real queue, real processes, one of them killed at work: every job ends once, and says what the club's own machine would. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ArchiveClient } from '../../../api/archive/connect.ts';
import { pull } from '../../../api/archive/exchange/pull.ts';
import { changesOfRun, failuresOf, findRun, sharesOf } from '../../../api/archive/work/run-report.ts';
import { acceptRun, retryRun } from '../../../api/archive/work/runs.ts';
import { startRun } from '../../../api/archive/work/start-runs.ts';
import { Jobs } from '../../../api/measuring/jobs/jobs.ts';
import { postgresPrograms } from '../../helpers/postgres.ts';
import { type ArchivedClub, makeArchivedClub, withStore } from './archived-club.ts';
import { type KeptArchive, keepArchive } from './kept-archive.ts';

const COPIES = 7;
/** Any setting that changes results will do. */
const SETTINGS = { swing: { cutoff_hz: 9 } };

const there = postgresPrograms() !== null;
let archive: KeptArchive;
let club: ArchivedClub;
let keeper: ArchiveClient;
const empty = mkdtempSync(join(tmpdir(), 'cinderlane-club-'));
const exchange: KeptArchive['exchange'] = (folder, what) => archive.exchange(folder, what);

beforeAll(async () => {
  if (!there) return;
  club = await makeArchivedClub();
  await withStore(club.folder, multiply);
  archive = await keepArchive(club.folder);
  keeper = archive.keeper;
});
afterAll(async () => {
  await archive?.close();
  for (const folder of [club?.folder, empty]) if (folder) rmSync(folder, { recursive: true, force: true });
});

/** More repetitions on the same recordings, without results. */
function multiply(store: Parameters<Parameters<typeof withStore>[1]>[0]): void {
  const { repetition_id } = store
    .prepare('SELECT min(repetition_id) AS repetition_id FROM repetition_recordings')
    .get() as {
    repetition_id: number;
  };
  for (let i = 0; i < COPIES; i++) {
    const { lastInsertRowid } = store
      .prepare(
        `INSERT INTO repetitions (session_id, athlete_id, order_number, course_distance_m, course_time_s, state, number_in_recording, created_utc, updated_utc)
         SELECT session_id, athlete_id, ? + 10, course_distance_m, course_time_s, 'recorded', 1, created_utc, updated_utc FROM repetitions WHERE repetition_id = ?`,
      )
      .run(i, repetition_id);
    store
      .prepare(
        'INSERT INTO repetition_recordings SELECT ?, recording_id FROM repetition_recordings WHERE repetition_id = ?',
      )
      .run(lastInsertRowid, repetition_id);
  }
}

function worker(): ChildProcess {
  return spawn(
    process.execPath,
    ['api/command-line/cinderlane.mjs', 'work', '--until-done', '--archive', archive.keeperAddress],
    { stdio: ['ignore', 'pipe', 'inherit'] },
  );
}

const ended = (child: ChildProcess) =>
  child.exitCode !== null || child.signalCode !== null
    ? Promise.resolve(child.exitCode)
    : new Promise<number | null>((resolve) => child.once('exit', resolve));

async function until<Value>(look: () => Promise<Value | undefined>): Promise<Value> {
  const limit = performance.now() + 120_000;
  while (performance.now() < limit) {
    const found = await look();
    if (found !== undefined) return found;
  }
  throw new Error('waited two minutes');
}

describe.skipIf(!there)('a re-analysis in the archive', () => {
  let run_id: string;

  test('is done by workers of whom one is killed at work; every repetition once', async () => {
    const started = await startRun(keeper, {}, SETTINGS);
    run_id = started.run_id;
    expect(started.total).toBe(COPIES + 1);
    const first = worker();
    const killed = await until(async () => {
      const { rows } = await keeper.query<{ n: number }>(
        "SELECT worker_number AS n FROM archive.run_items WHERE state = 'working'",
      );
      return rows[0]?.n;
    });
    first.kill('SIGKILL');
    await ended(first);
    const others = [worker(), worker()];
    expect(await Promise.all(others.map(ended))).toEqual([0, 0]);
    expect(await findRun(keeper, run_id)).toMatchObject({ total: COPIES + 1, done: COPIES + 1, failed: 0, waiting: 0 });
    const { rows } = await keeper.query(
      'SELECT repetition_id, count(*)::int AS n FROM archive.analyses WHERE run_id = $1 GROUP BY 1',
      [run_id],
    );
    expect(rows.map((row) => row.n)).toEqual(new Array(COPIES + 1).fill(1));
    const shares = await sharesOf(keeper, run_id);
    expect(shares.reduce((sum, { done }) => sum + done, 0)).toBe(COPIES + 1);
    expect(shares.every(({ analysed_s, read_bytes }) => analysed_s > 0 && read_bytes > 10_000)).toBe(true);
    expect(killed).toBeGreaterThan(0);
    // The queue itself holds nothing that is not ended.
    const open = await keeper.query(
      "SELECT count(*)::int AS n FROM pgboss.job WHERE state < 'completed' AND name = 'reanalysis'",
    );
    expect(open.rows).toEqual([{ n: 0 }]);
  });

  test('has the same results, byte for byte, as the club has of the same settings', async () => {
    const own = await withStore(club.folder, async (store) => {
      const jobs = new Jobs(store, 1);
      const { repetition_id, uuid } = store
        .prepare('SELECT repetition_id, uuid FROM repetitions WHERE analysis_id IS NOT NULL ORDER BY repetition_id')
        .get() as { repetition_id: number; uuid: string };
      const id = await jobs.reanalyse(repetition_id, { settings: SETTINGS, keep_current: true });
      await jobs.close();
      const row = store
        .prepare(
          'SELECT result, summary, quality, filters, settings_sha256, raw_sha256 FROM analyses WHERE analysis_id = ?',
        )
        .get(id);
      const contacts = store
        .prepare(
          'SELECT step, touchdown_s, toe_off_s, contact_time_ms, contact_time_ms_u, speed_mps, reasons FROM contacts WHERE analysis_id = ? ORDER BY step',
        )
        .all(id);
      store.prepare('DELETE FROM analyses WHERE analysis_id = ?').run(id);
      return { uuid, row, contacts };
    });
    const { rows } = await keeper.query(
      'SELECT analysis_id, result, summary, quality, filters, settings_sha256, raw_sha256 FROM archive.analyses WHERE run_id = $1 AND repetition_id = $2',
      [run_id, own.uuid],
    );
    const { analysis_id, ...theirs } = rows[0];
    expect(theirs).toEqual(own.row);
    const contacts = await keeper.query(
      'SELECT step, touchdown_s, toe_off_s, contact_time_ms, contact_time_ms_u, speed_mps, reasons FROM archive.contacts WHERE analysis_id = $1 ORDER BY step',
      [analysis_id],
    );
    expect(contacts.rows).toEqual(own.contacts);
    expect(own.contacts.length).toBeGreaterThan(10);
  });

  test('stands beside the old results until it is accepted as a whole, comes to the clubs with it, and can be taken back', async () => {
    const changes = await changesOfRun(keeper, run_id);
    expect(changes.find(({ quantity }) => quantity === 'contacts')).toMatchObject({ n: 1 });
    await exchange(empty, pull);
    const shown = () =>
      withStore(empty, (store) =>
        store
          .prepare(
            'SELECT a.uuid FROM repetitions r JOIN analyses a USING (analysis_id) JOIN repetition_recordings USING (repetition_id) GROUP BY r.uuid ORDER BY r.uuid',
          )
          .all()
          .map((row) => (row as { uuid: string }).uuid),
      );
    const before = await shown();
    expect(await acceptRun(keeper, run_id, true)).toBe(COPIES + 1);
    await exchange(empty, pull);
    const { rows } = await keeper.query<{ uuid: string }>(
      'SELECT after_analysis_id AS uuid FROM archive.run_items WHERE run_id = $1 ORDER BY repetition_id',
      [run_id],
    );
    expect(await shown()).toEqual(rows.map(({ uuid }) => uuid));
    expect(before).toHaveLength(1);
    // Those without an earlier result keep the new one.
    expect(await acceptRun(keeper, run_id, false)).toBe(1);
    await exchange(empty, pull);
    expect(await shown()).toContain(before[0]);
  });

  test('that fails says why, by cause, and is done again when asked', async () => {
    await keeper.query('SELECT 1');
    const { owner } = archive;
    await owner.query('CREATE TABLE aside AS SELECT * FROM archive.recordings');
    await owner.query('CREATE TABLE chunks_aside AS SELECT * FROM archive.recording_chunks');
    const second = await startRun(keeper, { club: 'Harrow Lane' }, undefined);
    await owner.query('DELETE FROM archive.recordings');
    expect(await ended(worker())).toBe(0);
    expect(await findRun(keeper, second.run_id)).toMatchObject({ failed: COPIES + 1, done: 0 });
    expect(await failuresOf(keeper, second.run_id)).toMatchObject([
      { n: COPIES + 1, fault: { code: 'REPETITION_LEFT_ARCHIVE' } },
    ]);
    await owner.query('INSERT INTO archive.recordings SELECT * FROM aside');
    await owner.query('INSERT INTO archive.recording_chunks SELECT * FROM chunks_aside');
    expect(await retryRun(keeper, second.run_id)).toBe(COPIES + 1);
    expect(await ended(worker())).toBe(0);
    expect(await findRun(keeper, second.run_id)).toMatchObject({ failed: 0, done: COPIES + 1 });
  });
});

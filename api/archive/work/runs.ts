import { FaultError, fault } from '../../../shared/fault.ts';
import type { RunKind } from '../../../shared/schemas/archive.ts';
import { uuid7 } from '../../store/uuid.ts';
import { VERSION } from '../../version.ts';
import { mergeSettings } from '../../measuring/read-settings.ts';
import { type ArchiveClient, inTransaction } from '../connect.ts';
import { nextChange } from '../exchange/exchange.ts';
import { addJobs, type NumberedJob, openQueue } from '../queue.ts';
import type { Run } from './job.ts';

/** A run that workers take from here, and how many jobs it has. */
export interface StartedRun {
  run_id: string;
  total: number;
}

/**
 * Starts a run: its items and their jobs come into sight together, or not at all.
 * @param sql inserts the items of the run ($1), each with a job_id, and returns run_id, club_id, repetition_id, job_id
 * @param values from $2 on
 * @throws FaultError SETTINGS_UNREADABLE
 */
export async function insertRun(
  client: ArchiveClient,
  { kind, settings, wanted }: Run,
  sql: string,
  values: unknown[],
): Promise<StartedRun> {
  if (settings !== null) mergeSettings(settings, 'settings');
  const run_id = uuid7();
  const boss = await openQueue(client);
  return inTransaction(client, async () => {
    await client.query(
      'INSERT INTO archive.runs (run_id, kind, settings, wanted, version) VALUES ($1, $2, $3, $4, $5)',
      [run_id, kind, settings === null ? null : JSON.stringify(settings), JSON.stringify(wanted), VERSION],
    );
    const { rows } = await client.query<NumberedJob>(sql, [run_id, ...values]);
    await addJobs(boss, kind, rows);
    return { run_id, total: rows.length };
  });
}

/** Has those that failed done again. @returns how many */
export async function retryRun(client: ArchiveClient, run_id: string): Promise<number> {
  const boss = await openQueue(client);
  return inTransaction(client, async () => {
    // Of a part of an export of whom nobody is left there is nothing to do again.
    await client.query("DELETE FROM archive.run_items WHERE run_id = $1 AND state = 'failed' AND people = '{}'", [
      run_id,
    ]);
    const { rows } = await client.query<NumberedJob & { kind: RunKind }>(
      `UPDATE archive.run_items i SET state = 'waiting', fault = NULL, worker_number = NULL, finished_utc = NULL, job_id = gen_random_uuid()
         FROM archive.runs r WHERE r.run_id = $1 AND i.run_id = r.run_id AND i.state = 'failed'
         RETURNING i.run_id, i.club_id, i.repetition_id, i.job_id, r.kind`,
      [run_id],
    );
    if (rows.length > 0)
      await addJobs(
        boss,
        rows[0].kind,
        rows.map(({ kind: _, ...job }) => job),
      );
    return rows.length;
  });
}

/**
 * Takes a study or an export out of the archive, with what its workers made.
 * @throws FaultError RUN_KIND_DIFFERS for a re-analysis, whose results stay beside the others
 */
export async function dropRun(client: ArchiveClient, run_id: string): Promise<void> {
  const { rowCount } = await client.query("DELETE FROM archive.runs WHERE run_id = $1 AND kind <> 'reanalysis'", [
    run_id,
  ]);
  if (rowCount === 0) throw new FaultError(fault('RUN_KIND_DIFFERS', { run: run_id }, { run: run_id }));
}

/**
 * Shows the new results of a run from now on, or the old ones again; the other ones stay beside them. A repetition that shows another
 * result by now is left alone. Clubs get it as a change like any other.
 * @throws FaultError RUN_KIND_DIFFERS for a run that makes no results of repetitions
 * @returns how many repetitions changed
 */
export async function acceptRun(client: ArchiveClient, run_id: string, accept: boolean): Promise<number> {
  const { rows: runs } = await client.query<{ kind: RunKind }>('SELECT kind FROM archive.runs WHERE run_id = $1', [
    run_id,
  ]);
  if (runs[0]?.kind !== 'reanalysis') throw new FaultError(fault('RUN_KIND_DIFFERS', { run: run_id }, { run: run_id }));
  const [from, to] = accept ? ['before', 'after'] : ['after', 'before'];
  const { rows: clubs } = await client.query<{ club_id: string }>(
    'SELECT DISTINCT club_id FROM archive.run_items WHERE run_id = $1 ORDER BY club_id',
    [run_id],
  );
  return inTransaction(client, async () => {
    let changed = 0;
    for (const { club_id } of clubs) {
      const { rowCount } = await client.query(
        `UPDATE archive.records r SET
           fields = r.fields || jsonb_build_object('analysis_id', i.${to}_analysis_id),
           stamps = r.stamps || jsonb_build_object('analysis_id', to_char(clock_timestamp() AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')),
           machine_id = $1, change_number = $3
         FROM archive.run_items i
         WHERE i.run_id = $1 AND i.club_id = $2 AND i.state = 'done' AND r.club_id = $2 AND r.kind = 'repetitions'
           AND r.record_id = i.repetition_id AND (r.fields->>'analysis_id')::uuid IS NOT DISTINCT FROM i.${from}_analysis_id
           AND i.${to}_analysis_id IS NOT NULL`,
        [run_id, club_id, await nextChange(client, club_id)],
      );
      changed += rowCount ?? 0;
    }
    await client.query('UPDATE archive.runs SET accepted_utc = $2 WHERE run_id = $1', [
      run_id,
      accept ? new Date() : null,
    ]);
    return changed;
  });
}

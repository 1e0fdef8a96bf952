import { uuid7 } from '../../store/uuid.ts';
import { VERSION } from '../../version.ts';
import { mergeSettings } from '../../measuring/read-settings.ts';
import { type ArchiveClient, inTransaction } from '../connect.ts';
import { nextChange } from '../exchange/exchange.ts';
import { addJobs, type NumberedJob, openQueue } from '../queue.ts';

/** Which repetitions of the archive; all that have a recording without it. */
export interface RunSelection {
  club?: string;
  from?: string;
  to?: string;
}

/**
 * Asks for a selection to be analysed again; workers take it from here.
 * @param settings that differ from the defaults
 * @throws FaultError SETTINGS_UNREADABLE
 */
export async function startRun(
  client: ArchiveClient,
  selection: RunSelection,
  settings: unknown,
): Promise<{ run_id: string; total: number }> {
  if (settings !== undefined) mergeSettings(settings, 'settings');
  const run_id = uuid7();
  const boss = await openQueue(client);
  return inTransaction(client, async () => {
    await client.query('INSERT INTO archive.runs (run_id, settings, version) VALUES ($1, $2, $3)', [
      run_id,
      settings === undefined ? null : JSON.stringify(settings),
      VERSION,
    ]);
    const { rows } = await client.query<NumberedJob>(
      `INSERT INTO archive.run_items (run_id, club_id, repetition_id, before_analysis_id, job_id)
       SELECT $1, r.club_id, r.repetition_id, r.analysis_id, gen_random_uuid()
         FROM archive.repetitions r JOIN archive.sessions s USING (club_id, session_id) JOIN archive.clubs c USING (club_id)
         WHERE r.deleted_utc IS NULL AND s.deleted_utc IS NULL AND ($2::text IS NULL OR c.name = $2)
           AND ($3::date IS NULL OR s.session_date >= $3) AND ($4::date IS NULL OR s.session_date <= $4)
           AND EXISTS (SELECT FROM archive.records d WHERE d.club_id = r.club_id AND d.kind = 'repetitions'
                         AND d.record_id = r.repetition_id AND jsonb_array_length(d.fields->'recordings') > 0)
         ORDER BY r.club_id, r.repetition_id
       RETURNING run_id, club_id, repetition_id, job_id`,
      [run_id, selection.club ?? null, selection.from ?? null, selection.to ?? null],
    );
    await addJobs(boss, rows);
    return { run_id, total: rows.length };
  });
}

/** Has those that failed done again. @returns how many */
export async function retryRun(client: ArchiveClient, run_id: string): Promise<number> {
  const boss = await openQueue(client);
  return inTransaction(client, async () => {
    const { rows } = await client.query<NumberedJob>(
      `UPDATE archive.run_items SET state = 'waiting', fault = NULL, worker_number = NULL, finished_utc = NULL, job_id = gen_random_uuid()
         WHERE run_id = $1 AND state = 'failed' RETURNING run_id, club_id, repetition_id, job_id`,
      [run_id],
    );
    await addJobs(boss, rows);
    return rows.length;
  });
}

/**
 * Shows the new results of a run from now on, or the old ones again; the other ones stay beside them. A repetition that shows another
 * result by now is left alone. Clubs get it as a change like any other.
 * @returns how many repetitions changed
 */
export async function acceptRun(client: ArchiveClient, run_id: string, accept: boolean): Promise<number> {
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

import { FaultError, fault } from '../../../shared/fault.ts';
import type { Fault } from '../../../shared/fault-shape.ts';
import type { ArchiveRun, WorkerShare } from '../../../shared/schemas/archive.ts';
import type { FigureChange } from '../../../shared/schemas/reanalysis.ts';
import { changesIn, COMPARED, type ComparedRow } from '../../store/figure-changes.ts';
import type { ArchiveClient } from '../connect.ts';

/** Runs of the archive, newest first. @param beginning of their identifiers; all without it */
export async function listRuns(client: ArchiveClient, beginning = ''): Promise<ArchiveRun[]> {
  const { rows } = await client.query<ArchiveRun>(
    `SELECT run_id, kind, created_utc, accepted_utc, version, settings::json AS settings, count(i.*)::int AS total,
       (count(*) FILTER (WHERE state = 'waiting'))::int AS waiting, (count(*) FILTER (WHERE state = 'working'))::int AS working,
       (count(*) FILTER (WHERE state = 'done'))::int AS done, (count(*) FILTER (WHERE state = 'failed'))::int AS failed
     FROM archive.runs LEFT JOIN archive.run_items i USING (run_id) WHERE starts_with(run_id::text, $1)
     GROUP BY run_id ORDER BY created_utc DESC, run_id DESC`,
    [beginning],
  );
  return rows;
}

/** The run that a word names: an identifier, or its first signs; the newest without a word. @throws FaultError RUN_NOT_FOUND */
export async function findRun(client: ArchiveClient, word: string | undefined): Promise<ArchiveRun> {
  const found = await listRuns(client, word);
  if (found.length === 1 || (found.length > 1 && word === undefined)) return found[0];
  throw new FaultError(fault('RUN_NOT_FOUND', { run: word ?? '' }, { run: word ?? '' }));
}

/** Why repetitions of a run failed: one example of each cause, and how many. */
export async function failuresOf(client: ArchiveClient, run_id: string): Promise<{ n: number; fault: Fault }[]> {
  const { rows } = await client.query<{ n: number; fault: Fault | null }>(
    `SELECT count(*)::int AS n, (array_agg(fault))[1] AS fault FROM archive.run_items
       WHERE run_id = $1 AND state = 'failed' GROUP BY fault->>'sentence' ORDER BY 1 DESC`,
    [run_id],
  );
  // What an erasure took out of an export has no fault of its own.
  return rows.map(({ n, fault: known }) => ({ n, fault: known ?? fault('REPETITION_LEFT_ARCHIVE.export', {}) }));
}

/** What each worker did of a run. */
export async function sharesOf(client: ArchiveClient, run_id: string): Promise<WorkerShare[]> {
  const { rows } = await client.query<WorkerShare>(
    `SELECT worker_number, machine, count(*)::int AS done, extract(epoch FROM max(finished_utc) - min(begun_utc))::float8 AS span_s,
       sum(read_s) AS read_s, sum(analysed_s) AS analysed_s, sum(stored_s) AS stored_s, sum(read_bytes)::float8 AS read_bytes
     FROM archive.run_items JOIN archive.workers USING (worker_number)
     WHERE run_id = $1 AND state = 'done' GROUP BY 1, 2 ORDER BY 1`,
    [run_id],
  );
  return rows;
}

/** How each figure changed from the results of before to those of a run, over all its repetitions. */
export async function changesOfRun(client: ArchiveClient, run_id: string): Promise<FigureChange[]> {
  const { rows } = await client.query<{ before: Record<string, number | null>; after: Record<string, number | null> }>(
    `SELECT old.figures AS before, new.figures AS after FROM archive.run_items i
       JOIN archive.analyses old ON old.club_id = i.club_id AND old.analysis_id = i.before_analysis_id
       JOIN archive.analyses new ON new.club_id = i.club_id AND new.analysis_id = i.after_analysis_id
     WHERE i.run_id = $1 ORDER BY i.club_id, i.repetition_id`,
    [run_id],
  );
  const compared = rows.map(({ before, after }, i) => ({
    ...Object.fromEntries(
      COMPARED.flatMap((name) => [
        [`before_${name}`, before[name] ?? null],
        [`after_${name}`, after[name] ?? null],
      ]),
    ),
    repetition_id: i + 1,
  }));
  return changesIn(compared as ComparedRow[]);
}

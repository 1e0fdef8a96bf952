import { readReference } from '../../agreement/read-reference.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { ArchiveClient } from '../connect.ts';
import type { GivenReference, WantedAgreement } from './do-agreement.ts';
import type { WantedExport } from './do-export.ts';
import { insertRun, type StartedRun } from './runs.ts';

/** Which repetitions of the archive; all without it. */
export interface RunSelection {
  club?: string;
  from?: string;
  to?: string;
}

/**
 * Asks for a selection to be analysed again: every repetition that has a recording.
 * @param settings that differ from the defaults
 * @throws FaultError SETTINGS_UNREADABLE, CLUB_NOT_FOUND
 */
export async function startRun(client: ArchiveClient, selection: RunSelection, settings: unknown): Promise<StartedRun> {
  await checkClub(client, selection.club);
  return insertRun(
    client,
    { kind: 'reanalysis', settings: settings ?? null, wanted: {} },
    `INSERT INTO archive.run_items (run_id, club_id, repetition_id, before_analysis_id, job_id)
       SELECT $1, r.club_id, r.repetition_id, r.analysis_id, gen_random_uuid()
         FROM archive.repetitions r JOIN archive.sessions s USING (club_id, session_id) JOIN archive.clubs c USING (club_id)
         WHERE r.deleted_utc IS NULL AND s.deleted_utc IS NULL AND ($2::text IS NULL OR c.name = $2)
           AND ($3::date IS NULL OR s.session_date >= $3) AND ($4::date IS NULL OR s.session_date <= $4)
           AND EXISTS (SELECT FROM archive.records d WHERE d.club_id = r.club_id AND d.kind = 'repetitions'
                         AND d.record_id = r.repetition_id AND jsonb_array_length(d.fields->'recordings') > 0)
         ORDER BY r.club_id, r.repetition_id
       RETURNING run_id, club_id, repetition_id, job_id`,
    [selection.club ?? null, selection.from ?? null, selection.to ?? null],
  );
}

/**
 * Asks for an agreement study: each repetition is analysed anew from its samples and held against its reference.
 * @param references by the repetition's identifier
 * @throws FaultError SETTINGS_UNREADABLE, REFERENCE_UNREADABLE, REPETITION_LEFT_ARCHIVE for one that the archive does not have
 */
export async function startAgreement(
  client: ArchiveClient,
  references: Map<string, GivenReference>,
  wanted: WantedAgreement,
  settings: unknown,
): Promise<StartedRun> {
  // Here, where the list is at hand, and not in the middle of the night.
  for (const { reference_csv, file } of references.values()) readReference(reference_csv, file);
  const ids = [...references.keys()];
  const { rows } = await client.query<{ id: string }>(
    `SELECT id FROM unnest($1::uuid[]) AS id WHERE NOT EXISTS
       (SELECT FROM archive.records r WHERE r.kind = 'repetitions' AND r.record_id = id AND NOT r.gone)`,
    [ids],
  );
  if (rows.length > 0) {
    const repetition_id = rows[0].id;
    throw new FaultError(
      fault('REPETITION_LEFT_ARCHIVE.unknown', { repetition_id, n: rows.length }, { repetition_id }),
    );
  }
  return insertRun(
    client,
    { kind: 'agreement', settings: settings ?? null, wanted: { ...wanted } },
    `INSERT INTO archive.run_items (run_id, club_id, repetition_id, given, job_id)
       SELECT $1, r.club_id, r.record_id, g.given, gen_random_uuid()
         FROM jsonb_to_recordset($2::jsonb) AS g (id uuid, given jsonb)
           JOIN archive.records r ON r.kind = 'repetitions' AND r.record_id = g.id AND NOT r.gone
         ORDER BY r.club_id, r.record_id
       RETURNING run_id, club_id, repetition_id, job_id`,
    [JSON.stringify([...references].map(([id, given]) => ({ id, given })))],
  );
}

/**
 * Asks for an export of everybody in a selection, some people a job.
 * @throws FaultError CLUB_NOT_FOUND
 */
export async function startExport(
  client: ArchiveClient,
  selection: RunSelection,
  { format, people_a_job }: Pick<WantedExport, 'format'> & { people_a_job: number },
): Promise<StartedRun> {
  await checkClub(client, selection.club);
  const wanted: WantedExport = { format, from: selection.from ?? null, to: selection.to ?? null };
  return insertRun(
    client,
    { kind: 'export', settings: null, wanted: { ...wanted } },
    `INSERT INTO archive.run_items (run_id, club_id, repetition_id, people, job_id)
       SELECT $1, club_id, (array_agg(person_id ORDER BY person_id))[1], array_agg(person_id ORDER BY person_id), gen_random_uuid()
         FROM (SELECT p.club_id, p.person_id, (row_number() OVER (PARTITION BY p.club_id ORDER BY p.person_id) - 1) / $3::int AS part
                 FROM archive.people p JOIN archive.clubs c USING (club_id)
                 WHERE p.deleted_utc IS NULL AND ($2::text IS NULL OR c.name = $2)) people
         GROUP BY club_id, part ORDER BY club_id, part
       RETURNING run_id, club_id, repetition_id, job_id`,
    [selection.club ?? null, people_a_job],
  );
}

/** A name that was mistyped must not look like a club without anything. */
async function checkClub(client: ArchiveClient, name: string | undefined): Promise<void> {
  if (name === undefined) return;
  const { rows } = await client.query<{ name: string }>('SELECT name FROM archive.clubs ORDER BY name');
  if (rows.some((club) => club.name === name)) return;
  throw new FaultError(fault('CLUB_NOT_FOUND', { name, known: rows.map((club) => club.name) }, { name }));
}

import { provenanceOf } from '../../measuring/provenance.ts';
import { figuresOf } from '../../store/analysis-rows.ts';
import { repetitionValues } from '../../store/repetition-values.ts';
import { nowUtc } from '../../store/store.ts';
import { uuid7 } from '../../store/uuid.ts';
import type { ArchiveClient } from '../connect.ts';
import { insertContacts } from '../exchange/push-measured.ts';
import { type ArchivedAnalysis, analyseArchived } from './analyse-archived.ts';
import { type DoJob, type JobItem, nothingToStore, type Run, settingsOf } from './job.ts';

/** Analyses one repetition of the archive with a run's settings; its result is stored beside those that are there. */
export const reanalyseArchived: DoJob = async (client, item, run) => {
  const { found, ...outcome } = await analyseArchived(client, item, run);
  if (found === null) return { ...outcome, store: nothingToStore };
  return { ...outcome, store: async (to) => ({ analysis_id: await storeResult(to, item, run, found) }) };
};

/**
 * Stores a result beside those that are there, once: a second one of the same run and repetition counts for nothing.
 * @returns its identifier; null where another worker was first
 */
async function storeResult(
  client: ArchiveClient,
  item: JobItem,
  run: Run,
  { loaded, analysis, repetition }: NonNullable<ArchivedAnalysis['found']>,
): Promise<string | null> {
  const { person_id, session_date, raw_sha256 } = loaded;
  const { contacts, summary, ...rest } = repetition;
  const provenance = provenanceOf(analysis, settingsOf(run), raw_sha256);
  const analysis_id = uuid7();
  await client.query('SELECT archive.make_partition($1)', [Number(session_date.slice(0, 4))]);
  const { rowCount } = await client.query(
    `INSERT INTO archive.analyses (club_id, analysis_id, repetition_id, person_id, run_id, day, created_utc, version, method, settings,
       settings_sha256, raw_sha256, filters, result, summary, quality, faults, figures, "values")
     VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19)
     ON CONFLICT (club_id, repetition_id, run_id) DO NOTHING`,
    [
      ...[item.club_id, analysis_id, item.repetition_id, person_id, item.run_id, session_date, nowUtc()],
      ...[provenance.version, provenance.method, JSON.stringify(provenance.settings), provenance.settings_sha256],
      ...[JSON.stringify(provenance.raw_sha256), JSON.stringify(provenance.filters), JSON.stringify(rest)],
      ...[JSON.stringify(summary), JSON.stringify(analysis.quality), JSON.stringify(analysis.faults)],
      ...[JSON.stringify(figuresOf(summary)), JSON.stringify(repetitionValues(repetition))],
    ],
  );
  if (rowCount === 0) return null;
  const rows = contacts.map((contact) => ({
    ...contact,
    analysis_id,
    reasons: JSON.stringify(contact.reasons),
    assumes_symmetry: contact.assumes_symmetry ? 1 : 0,
    other_fields: '{}',
  }));
  await insertContacts({ client, club_id: item.club_id }, rows, session_date);
  return analysis_id;
}

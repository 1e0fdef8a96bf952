import { provenanceOf } from '../../measuring/provenance.ts';
import { analysisColumns, contactColumns, figuresOf } from '../../store/analysis-rows.ts';
import { repetitionValues } from '../../store/repetition-values.ts';
import { nowUtc } from '../../store/store.ts';
import { uuid7 } from '../../store/uuid.ts';
import type { ArchiveClient } from '../connect.ts';
import { insertContacts, insertMeasured } from '../exchange/push-measured.ts';
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
  const { contacts, summary } = repetition;
  const { quality, faults } = analysis;
  const provenance = provenanceOf(analysis, settingsOf(run), raw_sha256);
  const analysis_id = uuid7();
  const to = { client, club_id: item.club_id };
  await client.query('SELECT archive.make_partition($1)', [Number(session_date.slice(0, 4))]);
  const first = await insertMeasured(to, 'analyses', {
    analysis_id,
    repetition_id: item.repetition_id,
    person_id,
    run_id: item.run_id,
    day: session_date,
    created_utc: nowUtc(),
    ...analysisColumns({ result: repetition, quality, faults, provenance }),
    figures: JSON.stringify(figuresOf(summary)),
    values: JSON.stringify(repetitionValues(repetition)),
  });
  if (!first) return null;
  const rows = contacts.map((contact) => ({ ...contactColumns(contact, {}), analysis_id }));
  await insertContacts(to, rows, session_date);
  return analysis_id;
}

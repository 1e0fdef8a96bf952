import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import type { Analysis, RepetitionResult } from '../../../shared/analysis.ts';
import { type Fault, FaultError, fault } from '../../../shared/fault.ts';
import { analyseSources } from '../../measuring/analyse-sources.ts';
import { sameRun } from '../../measuring/jobs/reanalyse.ts';
import { noRunningFound } from '../../measuring/jobs/store-import.ts';
import { provenanceOf } from '../../measuring/provenance.ts';
import { mergeSettings } from '../../measuring/read-settings.ts';
import { figuresOf } from '../../store/analyses.ts';
import { repetitionValues } from '../../store/repetition-values.ts';
import { nowUtc } from '../../store/store.ts';
import { uuid7 } from '../../store/uuid.ts';
import type { ArchiveClient } from '../connect.ts';
import { insertContacts } from '../exchange/push-measured.ts';
import { type LoadedRepetition, loadRepetition } from './load-repetition.ts';
import type { ReanalysisJob } from '../queue.ts';

/** What became of a job: a result to be stored, or why there is none. */
export interface JobOutcome {
  loaded: LoadedRepetition | null;
  result: { analysis: Analysis; repetition: RepetitionResult } | null;
  fault: Fault | null;
  read_s: number;
  analysed_s: number;
}

/** Analyses one repetition of the archive with a run's settings. Nothing is stored yet. */
export async function doJob(client: ArchiveClient, job: ReanalysisJob, settings: unknown): Promise<JobOutcome> {
  const started = performance.now();
  const loaded = await loadRepetition(client, job);
  const read_s = (performance.now() - started) / 1000;
  const none = { loaded, result: null, read_s, analysed_s: 0 };
  if (loaded === null)
    return { ...none, fault: fault('REPETITION_LEFT_ARCHIVE', {}, { repetition_id: job.repetition_id }) };
  const begun = performance.now();
  try {
    const { sources, course, conditions, earlier, number_in_recording } = loaded;
    const analysis = analyseSources(sources, course, conditions, settingsOf(settings));
    const analysed_s = (performance.now() - begun) / 1000;
    const repetition = sameRun(analysis.repetitions, earlier, number_in_recording);
    if (!repetition) return { ...none, fault: noRunningFound(analysis.quality), analysed_s };
    return { loaded, result: { analysis, repetition }, fault: null, read_s, analysed_s };
  } catch (error) {
    if (error instanceof FaultError) return { ...none, fault: error.toFault() };
    throw error;
  }
}

/**
 * Stores a result beside those that are there, once: a second one of the same run and repetition counts for nothing. To be called in a
 * transaction.
 * @returns its identifier; null where another worker was first
 */
export async function storeResult(
  client: ArchiveClient,
  job: ReanalysisJob,
  { loaded, result }: JobOutcome,
  settings: unknown,
): Promise<string | null> {
  const { analysis, repetition } = result!;
  const { person_id, session_date, raw_sha256 } = loaded!;
  const { contacts, summary, ...rest } = repetition;
  const provenance = provenanceOf(analysis, settingsOf(settings), raw_sha256);
  const analysis_id = uuid7();
  await client.query('SELECT archive.make_partition($1)', [Number(session_date.slice(0, 4))]);
  const { rowCount } = await client.query(
    `INSERT INTO archive.analyses (club_id, analysis_id, repetition_id, person_id, run_id, day, created_utc, version, method, settings,
       settings_sha256, raw_sha256, filters, result, summary, quality, faults, figures, "values")
     VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19)
     ON CONFLICT (club_id, repetition_id, run_id) DO NOTHING`,
    [
      ...[job.club_id, analysis_id, job.repetition_id, person_id, job.run_id, session_date, nowUtc()],
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
  await insertContacts({ client, club_id: job.club_id }, rows, session_date);
  return analysis_id;
}

function settingsOf(settings: unknown) {
  return settings === null ? DEFAULT_SETTINGS : mergeSettings(settings, 'settings');
}

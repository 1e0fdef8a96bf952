import type { Contact } from '../../shared/analysis.ts';
import { FIGURE_COLUMNS, type RepetitionFigures } from '../../shared/schemas/figures.ts';
import type { AnalysisAnswer, AnalysisLine } from '../../shared/schemas/repetition.ts';
import { analysisRowsOf, insertAnalysisRows, type NewAnalysis } from './analysis-rows.ts';
import { notFound } from './not-found.ts';
import type { Store } from './store.ts';

/**
 * Stores an analysis and makes it the repetition's current one unless told otherwise; earlier ones stay. Call it inside a transaction.
 * @returns its identifier
 */
export function insertAnalysis(store: Store, analysis: NewAnalysis): number {
  return insertAnalysisRows(store, analysis, analysisRowsOf(store, analysis));
}

/** An analysis with all its contacts. @throws FaultError ANALYSIS_NOT_FOUND */
export function getAnalysis(store: Store, analysisId: number): AnalysisAnswer {
  const row = store.first(store.query.selectFrom('analyses').selectAll().where('analysis_id', '=', analysisId));
  if (!row) throw notFound('analysis', analysisId);
  return {
    analysis_id: row.analysis_id,
    uuid: row.uuid,
    repetition_id: row.repetition_id,
    created_utc: row.created_utc,
    version: row.version,
    method: row.method,
    settings_sha256: row.settings_sha256,
    raw_sha256: JSON.parse(row.raw_sha256),
    filters: JSON.parse(row.filters),
    result: {
      ...JSON.parse(row.result),
      contacts: listContacts(store, analysisId),
      summary: JSON.parse(row.summary),
    },
    quality: JSON.parse(row.quality),
    faults: JSON.parse(row.faults),
  };
}

/** Every analysis of a repetition, newest first. */
export function listAnalyses(store: Store, repetitionId: number): AnalysisLine[] {
  const rows = store.all(
    store.query
      .selectFrom('analyses')
      .innerJoin('repetitions', 'repetitions.repetition_id', 'analyses.repetition_id')
      .select(['analyses.analysis_id', 'analyses.created_utc', 'version', 'method', 'settings_sha256'])
      .select('repetitions.analysis_id as current_id')
      .select(FIGURE_COLUMNS.map((column) => `analyses.${column}` as const))
      .where('analyses.repetition_id', '=', repetitionId)
      .orderBy('analyses.analysis_id', 'desc'),
  );
  return rows.map(({ analysis_id, created_utc, version, method, settings_sha256, current_id, ...figures }) => ({
    analysis_id,
    created_utc,
    version,
    method,
    settings_sha256,
    current: analysis_id === current_id,
    figures: figures as unknown as RepetitionFigures,
  }));
}

/** Contacts of one analysis in time order. */
export function listContacts(store: Store, analysisId: number): Contact[] {
  const rows = store.prepare('SELECT * FROM contacts WHERE analysis_id = ? ORDER BY step').all(analysisId);
  return (rows as Record<string, unknown>[]).map(toContact);
}

function toContact({
  analysis_id: _,
  other_fields,
  reasons,
  assumes_symmetry,
  ...fields
}: Record<string, unknown>): Contact {
  return {
    ...fields,
    ...JSON.parse(other_fields as string),
    assumes_symmetry: assumes_symmetry === 1,
    reasons: JSON.parse(reasons as string),
  } as Contact;
}

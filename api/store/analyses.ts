import { meansOfRepetition } from '../../shared/at-speed.ts';
import type { Analysis, Contact, Provenance, RepetitionResult, RepetitionSummary } from '../../shared/analysis.ts';
import {
  FIGURE_QUANTITIES,
  type FigureQuantity,
  UNCERTAIN_FIGURES,
  type UncertainFigure,
} from '../../shared/fields.ts';
import { FIGURE_COLUMNS, type RepetitionFigures } from '../../shared/schemas/figures.ts';
import type { AnalysisAnswer, AnalysisLine } from '../../shared/schemas/repetition.ts';
import { columnNames } from './column-names.ts';
import { freshId } from './fresh-id.ts';
import { storeRepetitionValues } from './repetition-values.ts';
import { notFound } from './not-found.ts';
import { nowUtc, type Store } from './store.ts';

/** One repetition's part of an analysis, ready to be stored. */
export interface NewAnalysis {
  repetition_id: number;
  result: RepetitionResult;
  quality: Analysis['quality'];
  faults: Analysis['faults'];
  provenance: Provenance;
  /** The new analysis stands beside the current one instead of taking its place. */
  keep_current?: boolean;
}

/**
 * Stores an analysis and makes it the repetition's current one unless told otherwise; earlier ones stay. Call it inside a transaction.
 * @returns its identifier
 */
export function insertAnalysis(store: Store, analysis: NewAnalysis): number {
  const { contacts, summary, ...result } = analysis.result;
  const { provenance } = analysis;
  const now = nowUtc();
  const { id } = store.run(
    store.query.insertInto('analyses').values({
      analysis_id: freshId(store, 'analyses'),
      repetition_id: analysis.repetition_id,
      created_utc: now,
      version: provenance.version,
      method: provenance.method,
      settings: JSON.stringify(provenance.settings),
      settings_sha256: provenance.settings_sha256,
      raw_sha256: JSON.stringify(provenance.raw_sha256),
      filters: JSON.stringify(provenance.filters),
      result: JSON.stringify(result),
      summary: JSON.stringify(summary),
      quality: JSON.stringify(analysis.quality),
      faults: JSON.stringify(analysis.faults),
      ...figuresOf(summary),
    }),
  );
  insertContacts(store, id, contacts);
  if (analysis.keep_current) return id;
  storeRepetitionValues(store, id, analysis.result);
  store.run(
    store.query
      .updateTable('repetitions')
      .set({ analysis_id: id, state: 'analysed', fault: null, updated_utc: now })
      .where('repetition_id', '=', analysis.repetition_id),
  );
  return id;
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

function insertContacts(store: Store, analysisId: number, contacts: Contact[]): void {
  const columns = columnNames(store, 'contacts');
  const insert = store.prepare(
    `INSERT INTO contacts (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`,
  );
  for (const contact of contacts) {
    const other: Record<string, unknown> = {};
    for (const [name, value] of Object.entries(contact)) if (!columns.includes(name)) other[name] = value;
    const row: Record<string, unknown> = {
      ...contact,
      analysis_id: analysisId,
      reasons: JSON.stringify(contact.reasons),
      assumes_symmetry: contact.assumes_symmetry ? 1 : 0,
      other_fields: JSON.stringify(other),
    };
    insert.run(...columns.map((name) => row[name] ?? null));
  }
}

/** The figures that lists show: means at speed, or over all contacts where none is known to be at speed. */
export function figuresOf(summary: RepetitionSummary): RepetitionFigures {
  const { means, over } = meansOfRepetition(summary);
  const values = FIGURE_QUANTITIES.map((name) => [name, means[name]?.mean ?? null]);
  const uncertainties = UNCERTAIN_FIGURES.map((name) => [`${name}_u`, means[name]?.mean_u ?? null]);
  return {
    contacts: summary.contacts,
    figures_over: over,
    speed_max_mps: summary.speed_max_mps,
    speed_max_mps_u: summary.speed_max_mps_u,
    ...(Object.fromEntries([...values, ...uncertainties]) as MeanFigures),
    contact_time_left_ms: summary.left.contact_time_ms?.mean ?? null,
    contact_time_right_ms: summary.right.contact_time_ms?.mean ?? null,
    distance_m: summary.distance_m,
    time_s: summary.time_s,
  };
}

type MeanFigures = Pick<RepetitionFigures, FigureQuantity | `${UncertainFigure}_u`>;

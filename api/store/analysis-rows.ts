import type { Insertable } from 'kysely';
import type { Analysis, Contact, Provenance, RepetitionResult, RepetitionSummary } from '../../shared/analysis.ts';
import { meansOfRepetition } from '../../shared/at-speed.ts';
import {
  FIGURE_QUANTITIES,
  type FigureQuantity,
  UNCERTAIN_FIGURES,
  type UncertainFigure,
} from '../../shared/fields.ts';
import type { RepetitionFigures } from '../../shared/schemas/figures.ts';
import { columnNames } from './column-names.ts';
import { freshId } from './fresh-id.ts';
import { insertRepetitionValues, type RepetitionValue, repetitionValues } from './repetition-values.ts';
import { nowUtc, type Store } from './store.ts';
import type { AnalysesTable } from './tables.ts';

/** One repetition's part of an analysis. */
export interface AnalysisContent {
  result: RepetitionResult;
  quality: Analysis['quality'];
  faults: Analysis['faults'];
  provenance: Provenance;
}

/** The same, ready to be stored. */
export interface NewAnalysis extends AnalysisContent {
  repetition_id: number;
  /** The new analysis stands beside the current one instead of taking its place. */
  keep_current?: boolean;
}

type AnalysisRow = Omit<Insertable<AnalysesTable>, 'analysis_id' | 'uuid' | 'repetition_id' | 'created_utc'>;

/**
 * An analysis as the rows that it becomes. Making them takes longer than writing them, so a thread that reads makes them, and the one
 * that writes only writes.
 */
export interface AnalysisRows {
  analysis: AnalysisRow;
  contacts: {
    columns: string[];
    /** A row a contact, its values in the order of the columns. */
    rows: (string | number | null)[][];
  };
  values: RepetitionValue[];
}

/**
 * Makes the rows of one repetition's part of an analysis.
 * @param store read alone, for the columns that it has
 */
export function analysisRowsOf(store: Store, analysis: AnalysisContent): AnalysisRows {
  const { result } = analysis;
  return {
    analysis: { ...analysisColumns(analysis), ...figuresOf(result.summary) },
    contacts: contactRows(store, result.contacts),
    values: repetitionValues(result),
  };
}

/** How an analysis was made and what it found, in columns as a club and an archive keep them; contacts and figures have others. */
export function analysisColumns({ result: whole, quality, faults, provenance }: AnalysisContent) {
  const { contacts: _, summary, ...result } = whole;
  return {
    version: provenance.version,
    method: provenance.method,
    settings: JSON.stringify(provenance.settings),
    settings_sha256: provenance.settings_sha256,
    raw_sha256: JSON.stringify(provenance.raw_sha256),
    filters: JSON.stringify(provenance.filters),
    result: JSON.stringify(result),
    summary: JSON.stringify(summary),
    quality: JSON.stringify(quality),
    faults: JSON.stringify(faults),
  };
}

/** A contact as its columns hold it. @param other fields that have no column of their own */
export function contactColumns(contact: Contact, other: Record<string, unknown>): Record<string, unknown> {
  return {
    ...contact,
    reasons: JSON.stringify(contact.reasons),
    assumes_symmetry: contact.assumes_symmetry ? 1 : 0,
    other_fields: JSON.stringify(other),
  };
}

/** To whom an analysis belongs, and whether it takes the place of the one before. */
export type AnalysisPlace = Pick<NewAnalysis, 'repetition_id' | 'keep_current'>;

/** Writes what `analysisRowsOf` made, as `insertAnalysis` does. Call it inside a transaction. @returns its identifier */
export function insertAnalysisRows(
  store: Store,
  { repetition_id, keep_current }: AnalysisPlace,
  { analysis, contacts, values }: AnalysisRows,
): number {
  const now = nowUtc();
  const analysis_id = freshId(store, 'analyses');
  insertRow(store, 'analyses', { analysis_id, repetition_id, created_utc: now, ...analysis });
  const insert = store.prepare(insertSql('contacts', ['analysis_id', ...contacts.columns]));
  for (const row of contacts.rows) insert.run(analysis_id, ...row);
  if (keep_current) return analysis_id;
  insertRepetitionValues(store, analysis_id, values);
  store
    .prepare(
      "UPDATE repetitions SET analysis_id = ?, state = 'analysed', fault = NULL, updated_utc = ? WHERE repetition_id = ?",
    )
    .run(analysis_id, now, repetition_id);
  return analysis_id;
}

function insertRow(store: Store, table: string, row: Record<string, unknown>): void {
  store.prepare(insertSql(table, Object.keys(row))).run(...Object.values(row));
}

function insertSql(table: string, columns: readonly string[]): string {
  return `INSERT INTO ${table} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`;
}

/** Fields that the table has no column for go into one of theirs together. */
function contactRows(store: Store, contacts: readonly Contact[]): AnalysisRows['contacts'] {
  const columns = columnNames(store, 'contacts').filter((name) => name !== 'analysis_id');
  const known = new Set(columns);
  const rows = contacts.map((contact) => {
    const other: Record<string, unknown> = {};
    for (const [name, value] of Object.entries(contact)) if (!known.has(name)) other[name] = value;
    const row = contactColumns(contact, other);
    return columns.map((name) => (row[name] ?? null) as string | number | null);
  });
  return { columns, rows };
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

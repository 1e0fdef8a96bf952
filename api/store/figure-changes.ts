import { FIGURE_COLUMNS } from '../../shared/schemas/figures.ts';
import type { FigureChange } from '../../shared/schemas/reanalysis.ts';
import type { Store } from './store.ts';

/** Figures that are numbers with a meaning of their own; uncertainties and words are left out. */
export const COMPARED = FIGURE_COLUMNS.filter((column) => column !== 'figures_over' && !column.endsWith('_u'));

/** A repetition with a figure before and after, each named by it. */
export type ComparedRow = { repetition_id: number } & Record<string, number | null>;

/** How each figure changed from the old analyses of a re-analysis to the new ones. */
export function changesOf(store: Store, reanalysisId: number): FigureChange[] {
  const columns = COMPARED.flatMap((name) => [`old.${name} AS before_${name}`, `new.${name} AS after_${name}`]);
  const rows = store
    .prepare(
      `SELECT items.repetition_id, ${columns.join(', ')} FROM reanalysis_items AS items
       JOIN analyses AS old ON old.analysis_id = before_analysis_id
       JOIN analyses AS new ON new.analysis_id = after_analysis_id
       WHERE items.reanalysis_id = ?`,
    )
    .all(reanalysisId) as ComparedRow[];
  return changesIn(rows);
}

/** The same of rows from elsewhere: `before_` and `after_` each figure. */
export function changesIn(rows: ComparedRow[]): FigureChange[] {
  return COMPARED.flatMap((quantity) => changeOf(rows, quantity) ?? []);
}

function changeOf(rows: ComparedRow[], quantity: string): FigureChange | null {
  let lost = 0;
  let gained = 0;
  const changes: { change: number; repetition_id: number }[] = [];
  for (const row of rows) {
    const [before, after] = [row[`before_${quantity}`], row[`after_${quantity}`]];
    if (before !== null && after !== null) changes.push({ change: after - before, repetition_id: row.repetition_id });
    else if (before !== null) lost++;
    else if (after !== null) gained++;
  }
  const n = changes.length;
  if (n === 0) return null;
  const mean = changes.reduce((sum, { change }) => sum + change, 0) / n;
  const squares = changes.reduce((sum, { change }) => sum + (change - mean) ** 2, 0);
  const largest = changes.reduce((most, one) => (Math.abs(one.change) > Math.abs(most.change) ? one : most));
  return {
    quantity,
    n,
    unchanged: changes.filter(({ change }) => change === 0).length,
    mean_change: mean,
    sd_change: n > 1 ? Math.sqrt(squares / (n - 1)) : null,
    largest_change: largest.change,
    largest_repetition_id: largest.repetition_id,
    lost,
    gained,
  };
}

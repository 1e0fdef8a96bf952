import type { FigureChange } from '../../shared/schemas/reanalysis.ts';

/** How each figure changed over all repetitions: new minus old. */
export function changeTable(changes: FigureChange[]): string {
  const number = (value: number | null) => (value === null ? '-' : Number(value.toPrecision(4)).toString());
  const rows = [
    ['figure', 'n', 'unchanged', 'mean change', 'sd', 'largest', 'in repetition', 'lost', 'gained'],
    ...changes.map((change) => [
      change.quantity,
      String(change.n),
      String(change.unchanged),
      number(change.mean_change),
      number(change.sd_change),
      number(change.largest_change),
      String(change.largest_repetition_id),
      String(change.lost),
      String(change.gained),
    ]),
  ];
  const widths = rows[0].map((_, i) => Math.max(...rows.map((row) => row[i].length)));
  return rows
    .map((row) => `${row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]) : cell.padStart(widths[i]))).join('  ')}\n`)
    .join('');
}

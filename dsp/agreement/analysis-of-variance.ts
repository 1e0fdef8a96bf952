import { mean, sum } from '../numeric/statistics.ts';

/** One-way analysis of variance. */
export interface OneWayAnova {
  groups: number;
  values: number;
  between: MeanSquare;
  within: MeanSquare;
  f: number;
}

export interface MeanSquare {
  df: number;
  sum_of_squares: number;
  mean_square: number;
}

/**
 * One-way analysis of variance of groups of any size.
 * @param groups values a group; at least two groups and one more value than groups
 */
export function oneWayAnova(groups: readonly (readonly number[])[]): OneWayAnova {
  const all = groups.flat();
  const grand = mean(all);
  const means = groups.map((g) => mean(g));
  const between = sum(groups.map((g, i) => g.length * (means[i] - grand) ** 2));
  const within = sum(groups.flatMap((g, i) => g.map((v) => (v - means[i]) ** 2)));
  const b = square(between, groups.length - 1);
  const w = square(within, all.length - groups.length);
  return { groups: groups.length, values: all.length, between: b, within: w, f: b.mean_square / w.mean_square };
}

/** Two-way analysis of variance without repetition: rows (targets) by columns (raters, trials, methods). */
export interface TwoWayAnova {
  rows: MeanSquare;
  columns: MeanSquare;
  error: MeanSquare;
  /** Within rows: columns and error together. */
  within: MeanSquare;
  n: number;
  k: number;
}

/** @param table n rows of k values each, complete */
export function twoWayAnova(table: readonly (readonly number[])[]): TwoWayAnova {
  const n = table.length;
  const k = table[0]?.length ?? 0;
  const grand = mean(table.flat());
  const rowMeans = table.map((row) => mean(row));
  const columnMeans = Array.from({ length: k }, (_, j) => mean(table.map((row) => row[j])));
  const rows = k * sum(rowMeans.map((m) => (m - grand) ** 2));
  const columns = n * sum(columnMeans.map((m) => (m - grand) ** 2));
  const error = sum(table.flatMap((row, i) => row.map((v, j) => (v - rowMeans[i] - columnMeans[j] + grand) ** 2)));
  return {
    rows: square(rows, n - 1),
    columns: square(columns, k - 1),
    error: square(error, (n - 1) * (k - 1)),
    within: square(columns + error, n * (k - 1)),
    n,
    k,
  };
}

function square(sum_of_squares: number, df: number): MeanSquare {
  return { df, sum_of_squares, mean_square: sum_of_squares / df };
}

/** A column by its name and its place, counted from 1. */
export type Column = { name: string; n: number };

export const quoted = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(', ');

/** Columns as the file names them, or by their number. */
export const named = (columns: readonly Column[]): string =>
  columns.map(({ name, n }) => `"${name || `column ${n}`}"`).join(', ');

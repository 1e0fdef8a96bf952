import type { ColumnName } from './name-column.ts';

type Placed = Pick<ColumnName, 'name' | 'index'>;

/** A column as messages tell it: by its name, or by its place, counted from 1. */
export const toldColumn = ({ name, index }: Placed) => ({ name, n: index + 1 });

export const toldColumns = (columns: readonly Placed[]) => columns.map(toldColumn);

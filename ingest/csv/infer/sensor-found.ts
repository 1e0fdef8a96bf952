import type { Side } from '../../../shared/words.ts';
import type { ColumnName } from '../columns/name-column.ts';

export type Triple = [ColumnName, ColumnName, ColumnName];

/** The columns of one sensor, before their units are known. */
export interface SensorFound {
  side: Side;
  acc: Triple;
  gyr: Triple | null;
  /** Columns of gravity, where it was taken off the acceleration. */
  plus?: Triple;
}

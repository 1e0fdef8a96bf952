import type { ExportOrder } from '../../../shared/schemas/export.ts';
import { levelOf } from '../privacy/levels.ts';
import type { ExportColumn } from './column.ts';
import { UUID_COLUMNS } from './other-columns.ts';

/**
 * Columns with unique identifiers that a table may have at an order's level. They tell when a row was made and link sets: those of athletes
 * and sessions stand only beside names, those of repetitions also under pseudonyms, unless dates are moved; none in a set for publishing.
 */
export function uuidColumns(of: keyof typeof UUID_COLUMNS, order: ExportOrder): ExportColumn[] {
  const level = levelOf(order);
  if (level === 'named') return [UUID_COLUMNS[of]];
  return of === 'repetition' && level === 'pseudonyms' && !order.shift_dates ? [UUID_COLUMNS[of]] : [];
}

import type { DATE_ORDERS, Layout } from '../../../shared/schemas/layout.ts';
import type { Side } from '../../../shared/words.ts';
import type { Role } from './column-roles.ts';
import type { ScaleDraft } from './scales.ts';

/** What one column is taken for. */
export interface ColumnDraft {
  role: Role;
  /** Which sensor an axis belongs to, where the file holds two side by side. */
  sensor: 0 | 1;
  /** An axis whose sign is turned. */
  turned: boolean;
}

/** One sensor; two in columns of their own; or two by turns, told apart by a column. */
export type Arrangement = 'one' | 'columns' | 'rows';

/** How time is written, as a person says it. */
export interface TimeDraft {
  /** A unit of a number, or a way of writing it. */
  unit: string;
  ticks_per_s: string;
  /** Samples a second, where there is no column of time. */
  rate_hz: string;
  /** Empty where day and month cannot be told apart: then the date is left out. */
  date_order: (typeof DATE_ORDERS)[number] | '';
  /** Kept from what was found: the column's zero. */
  epoch_s: number | null;
  /** True where a row holds the time since the row before. */
  since_last: boolean;
}

/** A layout as a person edits it: by column. */
export interface LayoutDraft {
  columns: ColumnDraft[];
  arrangement: Arrangement;
  sides: [Side, Side];
  /** What the side column holds for each sensor. */
  side_values: [string, string];
  acc: ScaleDraft;
  gyr: ScaleDraft;
  time: TimeDraft;
  /** What the draft was made from. As long as no role is changed, all of it that a person cannot say by column is kept. */
  base: Layout | null;
}

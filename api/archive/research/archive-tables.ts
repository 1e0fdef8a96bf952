import type { Cell, ExportColumn } from '../../export/tables/column.ts';
import { ARCHIVE_CONTACT_COLUMNS, ARCHIVE_REPETITION_COLUMNS } from './archive-columns.ts';
import { contactRow, contactsSql, repetitionRow, repetitionsSql } from './archive-rows.ts';

/** A table as an archive gives it away: its columns, what reads it, and a row of it. */
export interface ArchiveTable {
  name: 'repetitions' | 'contacts';
  title: string;
  columns: ExportColumn[];
  primary_key: string[];
  /** @param condition on repetitions r of a club ($1), their session s and athlete p; its own values from $2 on */
  sql(condition: string): string;
  row(found: Record<string, unknown>): Record<string, Cell>;
}

export const ARCHIVE_TABLES: readonly ArchiveTable[] = [
  {
    name: 'repetitions',
    title: 'Repetitions with their results, athletes and days',
    columns: ARCHIVE_REPETITION_COLUMNS,
    primary_key: ['repetition_uuid'],
    sql: repetitionsSql,
    row: repetitionRow,
  },
  {
    name: 'contacts',
    title: 'Ground contacts',
    columns: ARCHIVE_CONTACT_COLUMNS,
    primary_key: ['repetition_uuid', 'step'],
    sql: contactsSql,
    row: contactRow,
  },
];

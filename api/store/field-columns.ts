import type Database from 'better-sqlite3';
import { CONTACT_COLUMNS } from '../../shared/fields.ts';
import { FIGURE_COLUMNS } from '../../shared/schemas/figures.ts';
import { columnNames } from './column-names.ts';

/**
 * Gives `contacts` and `analyses` a column for every field of shared/fields.ts that they lack: one added since the
 * database was made. What was stored before stays empty there.
 */
export function addFieldColumns(database: Database.Database): void {
  addMissing(database, 'contacts', CONTACT_COLUMNS);
  addMissing(database, 'analyses', FIGURE_COLUMNS);
}

/** Whether nothing is to be added. */
export function hasAllFieldColumns(database: Database.Database): boolean {
  return (
    missing(database, 'contacts', CONTACT_COLUMNS).length + missing(database, 'analyses', FIGURE_COLUMNS).length === 0
  );
}

function addMissing(database: Database.Database, table: string, wanted: readonly string[]): void {
  for (const name of missing(database, table, wanted)) database.exec(`ALTER TABLE ${table} ADD COLUMN ${name} REAL`);
}

function missing(database: Database.Database, table: string, wanted: readonly string[]): string[] {
  const there = new Set(columnNames(database, table));
  return wanted.filter((name) => !there.has(name));
}

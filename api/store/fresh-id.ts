import type { Store } from './store.ts';

/** Tables whose rows are named outside of the database, or by pseudonyms, and the column of their identifier. */
export const IDENTIFIERS = {
  athletes: 'athlete_id',
  groups: 'group_id',
  sessions: 'session_id',
  repetitions: 'repetition_id',
  recordings: 'recording_id',
  analyses: 'analysis_id',
  imports: 'import_id',
  raw_files: 'raw_file_id',
} as const;

export type NumberedTable = keyof typeof IDENTIFIERS;

export function isNumbered(table: string): table is NumberedTable {
  return table in IDENTIFIERS;
}

/**
 * An identifier that no row of the table has or ever had. To be called in the transaction that inserts the row.
 * Weighed: AUTOINCREMENT, which would have every table and its references written anew.
 */
export function freshId(store: Store, table: NumberedTable): number {
  const highest = `(SELECT coalesce(max(${IDENTIFIERS[table]}), 0) FROM ${table})`;
  const { last_id } = store
    .prepare(
      `INSERT INTO last_ids (table_name, last_id) VALUES (?, ${highest} + 1)
         ON CONFLICT DO UPDATE SET last_id = max(last_id, ${highest}) + 1 RETURNING last_id`,
    )
    .get(table) as { last_id: number };
  return last_id;
}

/** Before rows of these tables are deleted for good: remembers the highest identifiers of all. */
export function rememberIds(store: Store): void {
  for (const [table, column] of Object.entries(IDENTIFIERS)) {
    store
      .prepare(
        `INSERT INTO last_ids (table_name, last_id) SELECT ?, coalesce(max(${column}), 0) FROM ${table} WHERE true
           ON CONFLICT DO UPDATE SET last_id = max(last_id, excluded.last_id)`,
      )
      .run(table);
  }
}

import type Database from 'better-sqlite3';

/** Names of a table's columns, in their order. @param store the store, or its database */
export function columnNames(
  store: { prepare(sql: string): Database.Statement<unknown[], unknown> },
  table: string,
): string[] {
  const rows = store.prepare('SELECT name FROM pragma_table_info(?)').all(table) as { name: string }[];
  return rows.map(({ name }) => name);
}

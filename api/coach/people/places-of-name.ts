import type { EraseReceipt } from '../../../shared/schemas/coach/erase-receipt.ts';
import type { Store } from '../../store/store.ts';

/** Where a name stands in any text of the database, by table and column, with the number of rows. */
export function placesOfName(store: Store, name: string): EraseReceipt['still_named_in'] {
  const columns = store
    .prepare(
      `SELECT m.name AS "table", c.name AS "column" FROM sqlite_schema m, pragma_table_info(m.name) c
        WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite_%' AND c.type = 'TEXT' ORDER BY m.name, c.cid`,
    )
    .all() as { table: string; column: string }[];
  return columns.flatMap(({ table, column }) => {
    const { rows } = store
      .prepare(`SELECT count(*) AS rows FROM "${table}" WHERE instr(lower("${column}"), lower(?)) > 0`)
      .get(name) as { rows: number };
    return rows > 0 ? [{ table, column, rows }] : [];
  });
}

import { nowUtc, type Store } from '../../store/store.ts';
import { columnsOf, KINDS, type Kind } from './kinds.ts';
import { localKeySql } from './read-rows.ts';

/**
 * Lets the database note when a field was changed, so that of two machines the later one is known field by field. Made at the first
 * exchange: a club without an archive has no triggers. Called at each exchange, since fields may be added.
 */
export function watchChanges(store: Store): void {
  store.transaction(() => {
    for (const kind of KINDS) {
      for (const [name, sql] of triggersOf(kind)) {
        const there = store.prepare("SELECT sql FROM sqlite_master WHERE type = 'trigger' AND name = ?").get(name);
        if ((there as { sql: string } | undefined)?.sql === sql) continue;
        store.database.exec(`DROP TRIGGER IF EXISTS ${name}; ${sql};`);
      }
    }
  });
}

/** When a field was last written on this machine; the whole row's moment, or now, where that was not noted. */
export function stampsOf(
  store: Store,
  kind: Kind,
  local_key: string,
  row_utc: string | null,
): (field: string) => string {
  const rows = store
    .prepare('SELECT field, at_utc FROM archive_stamps WHERE kind = ? AND local_key = ?')
    .all(kind.table, local_key) as { field: string; at_utc: string }[];
  const noted = new Map(rows.map(({ field, at_utc }) => [field, at_utc]));
  const otherwise = row_utc ?? nowUtc();
  return (field) => noted.get(field) ?? otherwise;
}

/** What was noted of a row is told, or was written from the archive. */
export function forgetStamps(store: Store, kind: Kind, local_key: string): void {
  store.prepare('DELETE FROM archive_stamps WHERE kind = ? AND local_key = ?').run(kind.table, local_key);
}

const NOW = "strftime('%Y-%m-%dT%H:%M:%fZ', 'now')";

/**
 * A row that its key columns name has no moment of its own, so its making is noted as well. ON CONFLICT, since a trigger's OR REPLACE would
 * give way to how the statement that set it off treats conflicts.
 */
function triggersOf(kind: Kind): [string, string][] {
  const { table } = kind;
  const fields = columnsOf(kind).filter((column) => !kind.key.includes(column));
  const note = (condition: (field: string) => string) =>
    `INSERT INTO archive_stamps (kind, local_key, field, at_utc) SELECT '${table}', ${localKeySql(kind, 'NEW')}, field, ${NOW} FROM (${fields
      .map((field) => `SELECT '${field}' AS field WHERE ${condition(field)}`)
      .join(' UNION ALL ')}) WHERE true ON CONFLICT DO UPDATE SET at_utc = excluded.at_utc`;
  const changed: [string, string] = [
    `archive_${table}_changed`,
    `CREATE TRIGGER archive_${table}_changed AFTER UPDATE ON ${table} BEGIN ${note((field) => `OLD.${field} IS NOT NEW.${field}`)}; END`,
  ];
  if (kind.id !== null) return [changed];
  const made = `CREATE TRIGGER archive_${table}_made AFTER INSERT ON ${table} BEGIN ${note(() => 'true')}; END`;
  return [changed, [`archive_${table}_made`, made]];
}

import { freshId, isNumbered } from '../../store/fresh-id.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { Identities } from './identities.ts';
import { columnsOf, type Kind } from './kinds.ts';
import type { Fields } from './marks.ts';
import { FORM_REFS } from './read-rows.ts';

/** Changed as a whole with every field. */
const UPDATED = new Set(['athletes', 'groups', 'sessions', 'repetitions', 'layouts']);

/**
 * Writes fields that the archive has into a row of this machine. What names a row that this machine lacks stays as it was.
 * @param local_key how this machine finds the row
 */
export function changeRow(store: Store, kind: Kind, local_key: string, fields: Fields): void {
  const values = localValues(store, kind, fields, 'change');
  if (values === null || Object.keys(values).length === 0) return;
  if (UPDATED.has(kind.table)) values.updated_utc = nowUtc();
  const columns = Object.keys(values);
  const keys = kind.id === null ? kind.key : [kind.id];
  const parts = kind.id === null ? splitKey(kind, local_key) : [local_key];
  store
    .prepare(
      `UPDATE ${kind.table} SET ${columns.map((name) => `${name} = ?`).join(', ')}
         WHERE ${keys.map((name) => `CAST(${name} AS TEXT) = ?`).join(' AND ')}`,
    )
    .run(...columns.map((name) => values[name]), ...parts);
}

/**
 * Adds a row that the archive has and this machine lacks.
 * @returns its local key; null where it cannot stand here: what it belongs to is not here, or the club's key was not given
 */
export function addRow(store: Store, kind: Kind, uuid: string, fields: Fields): string | null {
  const values = localValues(store, kind, named(kind, fields), 'add');
  if (values === null || lacksNeeded(store, kind, values)) return null;
  if (kind.id !== null) values.uuid = uuid;
  if (kind.id !== null && isNumbered(kind.table)) values[kind.id] = freshId(store, kind.table);
  if (UPDATED.has(kind.table)) values.updated_utc = values.created_utc ?? nowUtc();
  const columns = Object.keys(values);
  const { changes, lastInsertRowid } = store
    .prepare(
      `INSERT OR IGNORE INTO ${kind.table} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`,
    )
    .run(...columns.map((name) => values[name]));
  if (changes === 0) return null;
  return kind.id === null ? kind.key.map((name) => String(values[name])).join('|') : String(lastInsertRowid);
}

/** Takes a row away that was taken away on another machine. Only rows that their key columns name are ever taken away like this. */
export function removeRow(store: Store, kind: Kind, local_key: string): void {
  const parts = splitKey(kind, local_key);
  store
    .prepare(`DELETE FROM ${kind.table} WHERE ${kind.key.map((name) => `CAST(${name} AS TEXT) = ?`).join(' AND ')}`)
    .run(...parts);
}

/** The last key column may hold the sign itself. */
function splitKey(kind: Kind, local_key: string): string[] {
  const parts = local_key.split('|');
  return [...parts.slice(0, kind.key.length - 1), parts.slice(kind.key.length - 1).join('|')];
}

type Values = Record<string, unknown>;

/** @returns null where a row that has to be named is not on this machine */
function localValues(store: Store, kind: Kind, fields: Fields, why: 'add' | 'change'): Values | null {
  const ids = new Identities(store);
  const values: Values = {};
  for (const column of columnsOf(kind)) {
    if (!(column in fields)) continue;
    const value = fields[column];
    if (!(column in kind.refs)) {
      values[column] = kind.table === 'imports' && column === 'fields' ? formFields(value, ids) : stored(value);
      continue;
    }
    const number = ids.numberOf(kind.refs[column], value);
    // A repetition is given its analysis once that has come.
    if (column === 'analysis_id') continue;
    if (value !== null && number === null) {
      if (why === 'change') continue;
      if (kind.key.includes(column) || needs(store, kind, column)) return null;
    }
    values[column] = number;
  }
  return values;
}

/** Who may not read names sees pseudonyms and years. */
function named(kind: Kind, fields: Fields): Fields {
  if (kind.table === 'athletes' && fields.name == null)
    return { ...fields, name: fields.pseudonym ?? '?', birth_date: fields.birth_year ?? null };
  if (kind.table === 'groups' && fields.name == null) return { ...fields, name: '?' };
  return fields;
}

/** Whether a value that must be given is not; what is empty and has a default is left to it. */
function lacksNeeded(store: Store, kind: Kind, values: Values): boolean {
  const columns = columnInfo(store, kind);
  for (const column of columns) if (values[column.name] === null && isNeeded(column)) delete values[column.name];
  const travelling = columnsOf(kind);
  return columns.some(
    ({ name, notnull, dflt_value }) =>
      notnull === 1 && dflt_value === null && travelling.includes(name) && values[name] == null,
  );
}

function needs(store: Store, kind: Kind, column: string): boolean {
  return columnInfo(store, kind).some((one) => one.name === column && isNeeded(one));
}

function isNeeded({ notnull, pk }: { notnull: number; pk: number }): boolean {
  return notnull === 1 || pk > 0;
}

function columnInfo(store: Store, { table }: Kind) {
  return store.prepare('SELECT name, "notnull", dflt_value, pk FROM pragma_table_info(?)').all(table) as {
    name: string;
    notnull: number;
    dflt_value: string | null;
    pk: number;
  }[];
}

function stored(value: unknown): unknown {
  if (typeof value === 'object' && value !== null && 'base64' in value)
    return Buffer.from(String(value.base64), 'base64');
  return value ?? null;
}

function formFields(text: unknown, ids: Identities): string {
  const fields = JSON.parse(String(text)) as Values;
  for (const [name, table] of Object.entries(FORM_REFS)) {
    if (!(name in fields)) continue;
    const number = ids.numberOf(table, fields[name]);
    if (number === null) delete fields[name];
    else fields[name] = number;
  }
  return JSON.stringify(fields);
}

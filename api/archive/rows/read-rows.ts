import { nameUuid } from '../../store/uuid.ts';
import type { Store } from '../../store/store.ts';
import { Identities } from './identities.ts';
import { columnsOf, DERIVED, type Kind } from './kinds.ts';
import type { Fields } from './marks.ts';

/** One row of this machine as it may travel. */
export interface LocalRow {
  uuid: string;
  /** How this machine finds it: its number, or its key columns joined by '|'. */
  local_key: string;
  /** Whose it is; null for what is the club's. */
  athlete_id: number | null;
  open: Fields;
  hidden: Fields;
  /** When it was last written as a whole, where the row says so. */
  row_utc: string | null;
}

type Row = Record<string, unknown>;

/** Rows of a kind. @param only the row with this local key */
export function* readRows(store: Store, kind: Kind, club_uuid: string, only?: string): Generator<LocalRow> {
  const ids = new Identities(store);
  const key = localKeySql(kind);
  const conditions = [kind.where, only === undefined ? undefined : `${key} = ?`].filter(Boolean);
  const derived = DERIVED[kind.table] ?? { open: [], hidden: [] };
  const through = kind.whose === 'through repetitions';
  const rows = store
    .prepare(
      `SELECT t.*, ${key} AS local_key${through ? ', r.athlete_id' : ''} FROM ${kind.table} t
         ${through ? 'JOIN repetitions r ON r.repetition_id = t.repetition_id' : ''}
         ${conditions.length > 0 ? `WHERE ${conditions.join(' AND ')}` : ''} ORDER BY 1`,
    )
    .all(...(only === undefined ? [] : [only])) as Row[];
  for (const row of rows) {
    const uuid = kind.id === null ? naturalUuid(kind, row, club_uuid, ids) : (row.uuid as string);
    const travelling = withIdentities(store, kind, row, ids);
    yield {
      uuid,
      local_key: String(row.local_key),
      athlete_id: kind.whose === null ? null : (row.athlete_id as number),
      open: pick(travelling, [...Object.keys(kind.refs), ...kind.key, ...kind.open, ...derived.open]),
      hidden: pick(travelling, [...kind.hidden, ...derived.hidden]),
      row_utc: (row.updated_utc ?? row.created_utc ?? null) as string | null,
    };
  }
}

/** SQL of what a row is found by on this machine; its table is called t. */
export function localKeySql(kind: Kind, table = 't'): string {
  return kind.id === null
    ? kind.key.map((column) => `${table}.${column}`).join(" || '|' || ")
    : `CAST(${table}.${kind.id} AS TEXT)`;
}

/** The same for the same row on every machine of the club: made of what names it. */
function naturalUuid(kind: Kind, row: Row, club_uuid: string, ids: Identities): string {
  const parts = kind.key.map((column) =>
    column in kind.refs ? ids.uuidOf(kind.refs[column], row[column]) : String(row[column]),
  );
  return nameUuid(club_uuid, [kind.table, ...parts].join('\n'));
}

function withIdentities(store: Store, kind: Kind, row: Row, ids: Identities): Row {
  const made: Row = {};
  for (const column of columnsOf(kind)) {
    const value = row[column];
    made[column] = column in kind.refs ? ids.uuidOf(kind.refs[column], value) : plain(value);
  }
  if (kind.table === 'athletes') {
    made.birth_year = typeof row.birth_date === 'string' ? row.birth_date.slice(0, 4) : null;
    const name = store.prepare('SELECT pseudonym FROM athlete_pseudonyms WHERE athlete_id = ?').get(row.athlete_id);
    made.pseudonym = (name as { pseudonym: string } | undefined)?.pseudonym ?? null;
  }
  if (kind.table === 'repetitions') made.recordings = recordingsOf(store, row.repetition_id as number);
  if (kind.table === 'imports') {
    const files = filesOf(store, row.import_id as number);
    made.files = files.map(({ side, raw_sha256 }) => ({ side, raw_sha256 }));
    made.file_names = Object.fromEntries(files.map(({ side, file_name }) => [side, file_name]));
    made.fields = importFields(row.fields as string, ids);
  }
  return made;
}

function recordingsOf(store: Store, repetition_id: number): string[] {
  const rows = store
    .prepare(
      'SELECT uuid FROM recordings JOIN repetition_recordings USING (recording_id) WHERE repetition_id = ? ORDER BY uuid',
    )
    .all(repetition_id) as { uuid: string }[];
  return rows.map(({ uuid }) => uuid);
}

function filesOf(store: Store, import_id: number): { side: string; raw_sha256: string; file_name: string }[] {
  return store
    .prepare(
      `SELECT side, raw_sha256, import_files.file_name FROM import_files JOIN raw_files USING (raw_file_id)
         WHERE import_id = ? AND raw_sha256 IS NOT NULL ORDER BY side`,
    )
    .all(import_id) as { side: string; raw_sha256: string; file_name: string }[];
}

/** The fields of an import's form name rows by their numbers: those become identifiers. */
function importFields(text: string, ids: Identities): string {
  const fields = JSON.parse(text) as Row;
  for (const [name, table] of Object.entries(FORM_REFS))
    if (name in fields) fields[name] = ids.uuidOf(table, fields[name]);
  return JSON.stringify(fields);
}

/** Fields of an import's form that hold numbers of rows. */
export const FORM_REFS: Record<string, string> = {
  athlete_id: 'athletes',
  session_id: 'sessions',
  repetition_id: 'repetitions',
};

function pick(row: Row, names: readonly string[]): Fields {
  return Object.fromEntries([...new Set(names)].map((name) => [name, row[name] ?? null]));
}

/** JSON knows no bytes, and PostgreSQL's none of the character 0. */
function plain(value: unknown): unknown {
  if (value instanceof Uint8Array) return { base64: Buffer.from(value).toString('base64') };
  return typeof value === 'string' ? value.replaceAll('\u0000', '\uFFFD') : value;
}

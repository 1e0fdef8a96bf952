import { isHidden, type Kind } from '../rows/kinds.ts';
import { type Fields, markOf } from '../rows/marks.ts';
import type { FieldConflict } from '../rows/merge.ts';
import { nameUuid } from '../../store/uuid.ts';
import type { Exchange } from './exchange.ts';

/** A row as the archive has it, its hidden fields read where this machine can. */
export interface ArchiveRecord {
  kind: string;
  record_id: string;
  person_id: string | null;
  fields: Fields;
  stamps: Record<string, string>;
  gone: boolean;
  change_number: number;
}

type StoredRecord = ArchiveRecord & { hidden: Buffer | null };

const COLUMNS = 'kind, record_id, person_id, fields, hidden, stamps, gone, change_number';

/** Where hidden fields of a record belong: they open nowhere else. */
function placeOf(x: Exchange, kind: string, record_id: string): string {
  return `${x.club_id}/${kind}/${record_id}`;
}

function readable(x: Exchange, { hidden, ...record }: StoredRecord): ArchiveRecord {
  const own = x.hidden.readable ? x.hidden.open(hidden, placeOf(x, record.kind, record.record_id)) : {};
  return { ...record, fields: { ...record.fields, ...own } };
}

/** Records of a kind by identifier. Inside a transaction of the club nobody else changes them. */
export async function fetchRecords(x: Exchange, kind: Kind, ids: string[]): Promise<Map<string, ArchiveRecord>> {
  if (ids.length === 0) return new Map();
  const { rows } = await x.client.query<StoredRecord>(
    `SELECT ${COLUMNS} FROM archive.records WHERE club_id = $1 AND kind = $2 AND record_id = ANY($3::uuid[])`,
    [x.club_id, kind.table, ids],
  );
  return new Map(rows.map((row) => [row.record_id, readable(x, row)]));
}

/** What the archive's count of changes says of every record of a kind: cheap to compare with what was agreed. */
export async function changesOfKind(x: Exchange, kind: Kind): Promise<Map<string, { change: number; gone: boolean }>> {
  const { rows } = await x.client.query<{ record_id: string; change_number: number; gone: boolean }>({
    text: 'SELECT record_id, change_number, gone FROM archive.records WHERE club_id = $1 AND kind = $2',
    values: [x.club_id, kind.table],
  });
  return new Map(rows.map(({ record_id, change_number, gone }) => [record_id, { change: change_number, gone }]));
}

export interface NewRecord {
  record_id: string;
  person_id: string | null;
  open: Fields;
  hidden: Fields;
  stamps: Record<string, string>;
  gone: boolean;
}

/** Writes records of one kind; hidden fields that this machine cannot read stay as they are. */
export async function writeRecords(x: Exchange, kind: Kind, records: NewRecord[], change: number): Promise<void> {
  if (records.length === 0) return;
  const rows = records.map(({ open, hidden, ...record }) => ({
    ...record,
    fields: open,
    hidden: x.hidden.pack(hidden, placeOf(x, kind.table, record.record_id))?.toString('base64') ?? null,
  }));
  await x.client.query(
    `INSERT INTO archive.records (club_id, kind, record_id, person_id, fields, hidden, stamps, gone, machine_id, change_number)
     SELECT $1, $2, r.record_id, r.person_id, r.fields, decode(r.hidden, 'base64'), r.stamps, r.gone, $3, $4
       FROM json_to_recordset($5::json) AS r(record_id uuid, person_id uuid, fields jsonb, hidden text, stamps jsonb, gone boolean)
     ON CONFLICT (club_id, kind, record_id) DO UPDATE SET person_id = excluded.person_id, fields = excluded.fields,
       hidden = CASE WHEN $6 THEN excluded.hidden ELSE archive.records.hidden END, stamps = excluded.stamps, gone = excluded.gone,
       machine_id = excluded.machine_id, change_number = excluded.change_number`,
    [x.club_id, kind.table, x.machine_id, change, JSON.stringify(rows), x.hidden.readable],
  );
}

/** The same for the same two values of a field: a conflict that is met again is the same one. */
export function conflictId(record_id: string, { field, kept, other }: FieldConflict): string {
  return nameUuid(record_id, [field, markOf(kept), markOf(other)].join('\n'));
}

/** Keeps both values of fields that two machines changed. */
export async function writeConflicts(
  x: Exchange,
  kind: Kind,
  record_id: string,
  person_id: string | null,
  conflicts: FieldConflict[],
): Promise<void> {
  for (const conflict of conflicts) {
    const conflict_id = conflictId(record_id, conflict);
    const { field, kept, other, kept_utc, other_utc } = conflict;
    const hides = isHidden(kind, field);
    const place = placeOf(x, kind.table, conflict_id);
    const values = hides ? x.hidden.pack({ kept, other }, place) : Buffer.from(JSON.stringify({ kept, other }));
    await x.client.query(
      `INSERT INTO archive.conflicts (club_id, conflict_id, kind, record_id, person_id, field, kept_utc, other_utc, "values")
       VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT DO NOTHING`,
      [x.club_id, conflict_id, kind.table, record_id, person_id, field, kept_utc, other_utc, values],
    );
  }
}

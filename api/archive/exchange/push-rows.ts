import { nowUtc } from '../../store/store.ts';
import { Identities } from '../rows/identities.ts';
import { DERIVED, isHidden, type Kind } from '../rows/kinds.ts';
import { type Fields, type Marks, marksOf } from '../rows/marks.ts';
import { type FieldConflict, mergeRows } from '../rows/merge.ts';
import { type LocalRow, readRows } from '../rows/read-rows.ts';
import { forgetStamps, stampsOf } from '../rows/watch-changes.ts';
import { changeRow } from '../rows/write-rows.ts';
import { type Agreed, agreedRows, forgetAgreed, setAgreed } from './agreed-rows.ts';
import {
  type ArchiveRecord,
  changesOfKind,
  conflictId,
  fetchRecords,
  type NewRecord,
  writeConflicts,
  writeRecords,
} from './archive-records.ts';
import { archiveTransaction, type Exchange } from './exchange.ts';
import { mayLeave } from './may-leave.ts';

const ROWS_AT_ONCE = 500;

/** A row that was taken away here, and the archive's count of changes when both last agreed on it. */
interface GoneRow {
  uuid: string;
  change: number;
}

/** A row that is to be sent, with what was agreed on it before. */
export interface WaitingRow {
  row: LocalRow;
  agreed: Agreed | null;
}

/** Fields of a row as far as this machine exchanges them. */
export function exchanged(x: Exchange, kind: Kind, row: LocalRow): Fields {
  const open = kind.table === 'sessions' ? withoutStranger(x, row.open) : row.open;
  return x.hidden.readable ? { ...open, ...row.hidden } : open;
}

/** A session was held for somebody who did not agree: for whom stays here. */
function withoutStranger(x: Exchange, fields: Fields): Fields {
  const athlete_id = new Identities(x.store).numberOf('athletes', fields.athlete_id);
  return athlete_id === null || x.allowed.has(athlete_id) ? fields : { ...fields, athlete_id: null };
}

/** Rows of a kind that the archive lacks or has otherwise, of people who agreed. */
export async function waitingRows(x: Exchange, kind: Kind): Promise<{ changed: WaitingRow[]; gone: GoneRow[] }> {
  const agreed = agreedRows(x.store, kind);
  const there = await changesOfKind(x, kind);
  const changed: WaitingRow[] = [];
  const leaves = mayLeave(x, kind);
  for (const row of readRows(x.store, kind, x.club_id)) {
    const before = agreed.get(row.uuid) ?? null;
    agreed.delete(row.uuid);
    if (!leaves(row)) continue;
    const marks = marksOf(exchanged(x, kind, row));
    const known = before !== null && there.get(row.uuid)?.change === before.change;
    if (!known || !sameMarks(marks, before.marks)) changed.push({ row, agreed: before });
  }
  // What is left was here once.
  const gone = [...agreed].filter(([uuid, { change }]) => {
    const archived = there.get(uuid);
    return archived !== undefined && !archived.gone && archived.change === change && !isHere(x, kind, uuid);
  });
  return { changed, gone: gone.map(([uuid, { change }]) => ({ uuid, change })) };
}

/** Sends everything of a kind, some hundred rows a transaction. @returns how many rows */
export async function pushKind(x: Exchange, kind: Kind): Promise<number> {
  const { changed, gone } = await waitingRows(x, kind);
  await pushInParts(x, kind, changed);
  if (gone.length > 0) await pushGone(x, kind, gone);
  return changed.length + gone.length;
}

/** Sends rows of a kind, some hundred a transaction. */
export async function pushInParts(x: Exchange, kind: Kind, waiting: WaitingRow[]): Promise<void> {
  for (let from = 0; from < waiting.length; from += ROWS_AT_ONCE)
    await pushRows(x, kind, waiting.slice(from, from + ROWS_AT_ONCE));
}

/**
 * Sends rows of a kind in one transaction, put together with what another machine changed meanwhile.
 * @param more what else belongs to the same transaction
 */
export async function pushRows(
  x: Exchange,
  kind: Kind,
  waiting: WaitingRow[],
  more: () => Promise<void> = async () => {},
): Promise<void> {
  const ids = new Identities(x.store);
  const settled = await archiveTransaction(x, async (change) => {
    const archived = await fetchRecords(
      x,
      kind,
      waiting.map(({ row }) => row.uuid),
    );
    const records: NewRecord[] = [];
    const settled = waiting.map(({ row, agreed }) => {
      const person_id = row.athlete_id === null ? null : ids.uuidOf('athletes', row.athlete_id);
      const result = settle(x, kind, row, agreed, archived.get(row.uuid) ?? null);
      records.push({
        record_id: row.uuid,
        person_id,
        gone: false,
        ...split(kind, result.fields),
        stamps: result.stamps,
      });
      return { row, agreed, change, person_id, ...result };
    });
    await writeRecords(x, kind, records, change);
    for (const { row, person_id, conflicts } of settled) await writeConflicts(x, kind, row.uuid, person_id, conflicts);
    await more();
    return settled;
  });
  x.store.transaction(() => {
    for (const { row, fields, to_local, conflicts, change } of settled) {
      if (Object.keys(to_local).length > 0) changeRow(x.store, kind, row.local_key, to_local);
      settleHere(x, kind, row, fields, { change, conflicts });
    }
  });
}

/** Notes on this machine what both now agree on. A field that could not be taken over stays open for the next exchange. */
export function settleHere(
  x: Exchange,
  kind: Kind,
  row: Pick<LocalRow, 'uuid' | 'local_key' | 'athlete_id'>,
  archived: Fields,
  { change, conflicts, pending = {} }: { change: number; conflicts: FieldConflict[]; pending?: Marks },
): void {
  const [now] = readRows(x.store, kind, x.club_id, row.local_key);
  if (!now) return;
  const theirs = marksOf(archived);
  const marks = Object.fromEntries(
    Object.entries(marksOf(exchanged(x, kind, now))).flatMap(([field, mine]) => {
      if (mine === theirs[field]) return [[field, mine]];
      // An athlete comes before the pseudonym that is worked into the row.
      if (kind.table === 'athletes' && DERIVED.athletes.open.includes(field)) return [[field, theirs[field] ?? mine]];
      if (field in pending) return pending[field] === '' ? [] : [[field, pending[field]]];
      return [[field, mine]];
    }),
  );
  setAgreed(x.store, kind, row.uuid, row.athlete_id, { marks, change });
  forgetStampsBut(x, kind, row.local_key, Object.keys(pending));
  keepConflicts(x, kind, row, conflicts);
}

/** Stamps of fields that are still to be sent stay. */
function forgetStampsBut(x: Exchange, kind: Kind, local_key: string, pending: string[]): void {
  if (pending.length === 0) forgetStamps(x.store, kind, local_key);
}

function keepConflicts(
  x: Exchange,
  kind: Kind,
  row: Pick<LocalRow, 'uuid' | 'athlete_id'>,
  conflicts: FieldConflict[],
): void {
  const insert = x.store.prepare(
    `INSERT OR IGNORE INTO archive_conflicts (conflict_uuid, kind, row_uuid, athlete_id, field, kept, kept_utc, other, other_utc, found_utc)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  for (const conflict of conflicts) {
    const { field, kept, kept_utc, other, other_utc } = conflict;
    const values = [JSON.stringify(kept), kept_utc, JSON.stringify(other), other_utc];
    insert.run(conflictId(row.uuid, conflict), kind.table, row.uuid, row.athlete_id, field, ...values, nowUtc());
  }
}

function settle(x: Exchange, kind: Kind, row: LocalRow, agreed: Agreed | null, archived: ArchiveRecord | null) {
  const stamp = stampsOf(x.store, kind, row.local_key, row.row_utc);
  const fields = exchanged(x, kind, row);
  if (archived === null || archived.gone) {
    const stamps = Object.fromEntries(Object.keys(fields).map((field) => [field, stamp(field)]));
    return { fields, stamps, to_local: {}, conflicts: [] };
  }
  const merged = mergeRows(
    agreed?.marks ?? null,
    { fields, stamp },
    { fields: archived.fields, stamp: (field) => archived.stamps[field] ?? '' },
  );
  const written = Object.keys(merged.to_archive).map((field) => [field, stamp(field)]);
  return {
    fields: { ...archived.fields, ...merged.to_archive },
    stamps: { ...archived.stamps, ...Object.fromEntries(written) },
    to_local: merged.to_local,
    conflicts: merged.conflicts,
  };
}

/** Rows that were taken away here; those that another machine changed since then stay. */
async function pushGone(x: Exchange, kind: Kind, rows: GoneRow[]): Promise<void> {
  const uuids = rows.map(({ uuid }) => uuid);
  const changes = rows.map(({ change }) => change);
  await archiveTransaction(x, async (change) => {
    await x.client.query(
      `UPDATE archive.records r SET gone = true, machine_id = $5, change_number = $6
         FROM unnest($3::uuid[], $4::bigint[]) AS known(record_id, change_number)
         WHERE r.club_id = $1 AND r.kind = $2 AND r.record_id = known.record_id AND r.change_number = known.change_number`,
      [x.club_id, kind.table, uuids, changes, x.machine_id, change],
    );
  });
  x.store.transaction(() => {
    for (const uuid of uuids) forgetAgreed(x.store, kind, uuid);
  });
}

function isHere(x: Exchange, kind: Kind, uuid: string): boolean {
  if (kind.id === null) return false;
  return x.store.prepare(`SELECT 1 FROM ${kind.table} WHERE uuid = ?`).get(uuid) !== undefined;
}

function split(kind: Kind, fields: Fields): { open: Fields; hidden: Fields } {
  const open = Object.entries(fields).filter(([name]) => !isHidden(kind, name));
  const hidden = Object.entries(fields).filter(([name]) => isHidden(kind, name));
  return { open: Object.fromEntries(open), hidden: Object.fromEntries(hidden) };
}

function sameMarks(now: Marks, agreed: Marks): boolean {
  return Object.keys(now).every((field) => now[field] === agreed[field]);
}

import { Identities } from '../rows/identities.ts';
import type { Kind } from '../rows/kinds.ts';
import { type Marks, marksOf } from '../rows/marks.ts';
import { mergeRows } from '../rows/merge.ts';
import { type LocalRow, readRows } from '../rows/read-rows.ts';
import { stampsOf } from '../rows/watch-changes.ts';
import { addRow, changeRow, removeRow } from '../rows/write-rows.ts';
import { type Agreed, agreedRows, forgetAgreed } from './agreed-rows.ts';
import { type ArchiveRecord, changesOfKind, fetchRecords, writeConflicts } from './archive-records.ts';
import type { Exchange } from './exchange.ts';
import { exchanged, settleHere } from './push-rows.ts';

const ROWS_AT_ONCE = 500;

/** Records of a kind that changed in the archive since this machine last agreed, in batches. */
export async function* newRecords(x: Exchange, kind: Kind): AsyncGenerator<ArchiveRecord[]> {
  const agreed = agreedRows(x.store, kind);
  const there = await changesOfKind(x, kind);
  const ids = [...there].filter(([uuid, { change }]) => agreed.get(uuid)?.change !== change).map(([uuid]) => uuid);
  for (let from = 0; from < ids.length; from += ROWS_AT_ONCE) {
    const records = await fetchRecords(x, kind, ids.slice(from, from + ROWS_AT_ONCE));
    yield [...records.values()];
  }
}

/** What came of records that were taken over. */
export interface Taken {
  rows: number;
  /** Rows that cannot stand here: what they belong to is not here, or they are sealed. */
  left_out: number;
}

/** Takes over what changed of a kind, a batch a transaction. */
export async function pullKind(x: Exchange, kind: Kind): Promise<Taken> {
  const taken: Taken = { rows: 0, left_out: 0 };
  const agreed = agreedRows(x.store, kind);
  const local = localRows(x, kind);
  for await (const records of newRecords(x, kind)) {
    const settled = x.store.transaction(() =>
      records.map((record) =>
        takeRecord(x, kind, record, agreed.get(record.record_id) ?? null, local.get(record.record_id)),
      ),
    );
    for (const one of settled) {
      if (one === null) taken.left_out += 1;
      else taken.rows += 1;
      await one?.tellConflicts();
    }
  }
  return taken;
}

function localRows(x: Exchange, kind: Kind): Map<string, LocalRow> {
  return new Map([...readRows(x.store, kind, x.club_id)].map((row) => [row.uuid, row]));
}

/** What was done with one record, and what is still to be told to the archive of it. */
export interface TakenRecord {
  local_key: string | null;
  /** Fields that this machine changed and is still to send, with what was agreed on them. */
  pending: Marks;
  tellConflicts: () => Promise<void>;
}

/**
 * Takes over one record. To be called inside a transaction of this machine's store.
 * @returns null where it cannot stand here
 */
export function takeRecord(
  x: Exchange,
  kind: Kind,
  record: ArchiveRecord,
  agreed: Agreed | null,
  local: LocalRow | undefined,
): TakenRecord | null {
  const nothing = async () => {};
  const { record_id, fields, change_number: change } = record;
  if (record.gone) {
    if (local && agreed && unchanged(x, kind, local, agreed) && kind.id === null)
      removeRow(x.store, kind, local.local_key);
    if (!local || kind.id === null) forgetAgreed(x.store, kind, record_id);
    return { local_key: null, pending: {}, tellConflicts: nothing };
  }
  const athlete_id = new Identities(x.store).numberOf('athletes', record.person_id);
  if (!local) {
    const local_key = addRow(x.store, kind, record_id, fields);
    if (local_key === null) return null;
    const whose = kind.table === 'athletes' ? Number(local_key) : athlete_id;
    settleHere(x, kind, { uuid: record_id, local_key, athlete_id: whose }, fields, { change, conflicts: [] });
    return { local_key, pending: {}, tellConflicts: nothing };
  }
  const merged = mergeRows(
    agreed?.marks ?? null,
    { fields: exchanged(x, kind, local), stamp: stampsOf(x.store, kind, local.local_key, local.row_utc) },
    { fields, stamp: (field) => record.stamps[field] ?? '' },
  );
  changeRow(x.store, kind, local.local_key, merged.to_local);
  const pending = Object.fromEntries(
    Object.keys(merged.to_archive).map((field) => [field, agreed?.marks[field] ?? '']),
  );
  settleHere(x, kind, local, fields, { change, conflicts: merged.conflicts, pending });
  return {
    local_key: local.local_key,
    pending,
    tellConflicts: () => writeConflicts(x, kind, record_id, record.person_id, merged.conflicts),
  };
}

function unchanged(x: Exchange, kind: Kind, local: LocalRow, agreed: Agreed): boolean {
  return Object.entries(marksOf(exchanged(x, kind, local))).every(([field, mark]) => agreed.marks[field] === mark);
}

import type { Store } from '../../store/store.ts';
import type { Kind } from '../rows/kinds.ts';
import type { Marks } from '../rows/marks.ts';

/** A row as this machine and the archive last agreed on it. */
export interface Agreed {
  marks: Marks;
  change: number;
}

interface Row {
  row_uuid: string;
  marks: string;
  change: number;
}

/** All of a kind by identifier. */
export function agreedRows(store: Store, kind: Kind): Map<string, Agreed> {
  const rows = store.prepare('SELECT row_uuid, marks, change FROM archive_rows WHERE kind = ?').all(kind.table);
  return new Map((rows as Row[]).map((row) => [row.row_uuid, agreedOf(row)]));
}

/** One row of a kind; null where both never agreed on it. */
export function agreedRow(store: Store, kind: Kind, uuid: string): Agreed | null {
  const sql = 'SELECT row_uuid, marks, change FROM archive_rows WHERE kind = ? AND row_uuid = ?';
  const row = store.prepare(sql).get(kind.table, uuid) as Row | undefined;
  return row ? agreedOf(row) : null;
}

function agreedOf({ marks, change }: Row): Agreed {
  return { marks: JSON.parse(marks) as Marks, change };
}

export function setAgreed(store: Store, kind: Kind, uuid: string, athlete_id: number | null, agreed: Agreed): void {
  store
    .prepare(
      `INSERT INTO archive_rows (kind, row_uuid, athlete_id, marks, change) VALUES (?, ?, ?, ?, ?)
         ON CONFLICT DO UPDATE SET athlete_id = excluded.athlete_id, marks = excluded.marks, change = excluded.change`,
    )
    .run(kind.table, uuid, athlete_id, JSON.stringify(agreed.marks), agreed.change);
}

export function forgetAgreed(store: Store, kind: Kind, uuid: string): void {
  store.prepare('DELETE FROM archive_rows WHERE kind = ? AND row_uuid = ?').run(kind.table, uuid);
}

/** Nothing of this person is in the archive any longer. */
export function forgetPerson(store: Store, athlete_id: number): void {
  store.prepare('DELETE FROM archive_rows WHERE athlete_id = ?').run(athlete_id);
  store.prepare('DELETE FROM archive_conflicts WHERE athlete_id = ?').run(athlete_id);
}

import type { Store } from '../../store/store.ts';

/** Tables whose rows have an identifier of their own, and the column of their local number. */
const NUMBERED: Record<string, string> = {
  athletes: 'athlete_id',
  groups: 'group_id',
  sessions: 'session_id',
  repetitions: 'repetition_id',
  imports: 'import_id',
  recordings: 'recording_id',
  analyses: 'analysis_id',
};

/** Local numbers and unique identifiers of rows, both ways. */
export class Identities {
  readonly #store: Store;

  constructor(store: Store) {
    this.#store = store;
  }

  /** @returns null for no number, and for a row that is gone */
  uuidOf(table: string, number: unknown): string | null {
    if (typeof number !== 'number') return null;
    const row = this.#store.prepare(`SELECT uuid FROM ${table} WHERE ${NUMBERED[table]} = ?`).get(number);
    return (row as { uuid: string } | undefined)?.uuid ?? null;
  }

  /** @returns null for no identifier, and for a row that this machine does not have */
  numberOf(table: string, uuid: unknown): number | null {
    if (typeof uuid !== 'string') return null;
    const row = this.#store.prepare(`SELECT ${NUMBERED[table]} AS number FROM ${table} WHERE uuid = ?`).get(uuid);
    return (row as { number: number } | undefined)?.number ?? null;
  }
}

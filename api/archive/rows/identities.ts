import { IDENTIFIERS } from '../../store/fresh-id.ts';
import type { Store } from '../../store/store.ts';

/** Column of a table's local numbers. */
const NUMBERED: Record<string, string> = IDENTIFIERS;

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

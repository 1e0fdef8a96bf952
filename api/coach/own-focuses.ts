import type { JudgementWords } from '../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../shared/messages/en/judgement.ts';
import type { Selectable } from 'kysely';
import { quantityDefinition } from '../../shared/coach-quantities.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import type { CoachFocusChange, Focus, FocusQuantity, NewCoachFocus } from '../../shared/schemas/coach/focus.ts';
import type { Store } from '../store/store.ts';
import { type CoachTables, coachQuery } from '../store/coach-tables.ts';
import { recordNotFound } from './soft-deletion.ts';
import { FOCUSES, publishedFocuses } from './focuses.ts';

type Row = Selectable<CoachTables['coach_focuses']>;

/** Every focus that can be chosen: the coach's own first, then the list. */
export function listAllFocuses(store: Store, words: JudgementWords = JUDGEMENT_EN): Focus[] {
  const own = store.prepare('SELECT * FROM coach_focuses WHERE deleted_utc IS NULL ORDER BY name').all() as Row[];
  return [...own.map(toFocus), ...publishedFocuses(words)];
}

/** The focus of that key, or null; one of the coach's own that was deleted still has its name where it was used. */
export function findFocus(store: Store, key: string): Focus | null {
  const row = store.prepare('SELECT * FROM coach_focuses WHERE key = ?').get(key) as Row | undefined;
  return row ? toFocus(row) : (FOCUSES.find((focus) => focus.key === key) ?? null);
}

/** @throws FaultError FOCUS_QUANTITY_UNKNOWN */
export function addCoachFocus(store: Store, body: NewCoachFocus): Focus {
  checkQuantities(body.quantities);
  const { next } = store.prepare('SELECT COALESCE(MAX(coach_focus_id), 0) + 1 AS next FROM coach_focuses').get() as {
    next: number;
  };
  const { quantities, ...words } = body;
  const { id } = store.run(
    coachQuery(store)
      .insertInto('coach_focuses')
      .values({ ...words, key: `own_${next}`, quantities: JSON.stringify(quantities) }),
  );
  return getCoachFocus(store, id);
}

/** @throws FaultError COACH_RECORD_NOT_FOUND, FOCUS_QUANTITY_UNKNOWN */
export function changeCoachFocus(store: Store, coach_focus_id: number, change: CoachFocusChange): Focus {
  getCoachFocus(store, coach_focus_id);
  const { quantities, ...words } = change;
  if (quantities) checkQuantities(quantities);
  const values = { ...words, ...(quantities ? { quantities: JSON.stringify(quantities) } : {}) };
  if (Object.keys(values).length > 0) {
    store.run(coachQuery(store).updateTable('coach_focuses').set(values).where('coach_focus_id', '=', coach_focus_id));
  }
  return getCoachFocus(store, coach_focus_id);
}

function getCoachFocus(store: Store, coach_focus_id: number): Focus {
  const row = store.prepare('SELECT * FROM coach_focuses WHERE coach_focus_id = ?').get(coach_focus_id) as
    | Row
    | undefined;
  if (!row) throw recordNotFound('coach_focuses', coach_focus_id);
  return toFocus(row);
}

function checkQuantities(quantities: readonly FocusQuantity[]): void {
  const unknown = quantities.find(({ quantity }) => quantityDefinition(quantity) === null);
  if (!unknown) return;
  throw new FaultError(
    fault('FOCUS_QUANTITY_UNKNOWN', { quantity: unknown.quantity }, { field: 'quantities', value: unknown.quantity }),
  );
}

function toFocus(row: Row): Focus {
  return {
    key: row.key,
    name: row.name,
    meaning: row.meaning,
    cue: row.cue,
    quantities: JSON.parse(row.quantities) as FocusQuantity[],
    sensor_cannot_see: '',
    source: '',
    coach_focus_id: row.coach_focus_id,
  };
}

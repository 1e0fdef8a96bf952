import { FaultError } from '../../shared/fault.ts';
import { nowUtc, type Store } from '../store/store.ts';

/** The coach's own records that can be deleted and taken back: table, identifier, word for people. */
const RECORDS = {
  athlete_measures: { id: 'athlete_measure_id', word: 'measure' },
  athlete_focuses: { id: 'athlete_focus_id', word: 'focus of an athlete' },
  coach_focuses: { id: 'coach_focus_id', word: 'focus of your own' },
  sprint_tests: { id: 'sprint_test_id', word: 'sprint test' },
  strength_records: { id: 'strength_record_id', word: 'strength record' },
} as const;
export type CoachRecord = keyof typeof RECORDS;

/** The fault of a coach's record that is not there. */
export function recordNotFound(table: CoachRecord, id: number): FaultError {
  const { id: column, word } = RECORDS[table];
  return new FaultError({
    code: 'COACH_RECORD_NOT_FOUND',
    message: `There is no ${word} ${id}.`,
    where: { [column]: id },
    hint: 'It may have been deleted; a deletion can be undone.',
  });
}

/**
 * Marks a record as deleted, or takes the mark away.
 * @throws FaultError COACH_RECORD_NOT_FOUND
 */
export function markDeleted(store: Store, table: CoachRecord, id: number, deleted: boolean): void {
  const { id: column } = RECORDS[table];
  const change = store.prepare(`UPDATE ${table} SET deleted_utc = ? WHERE ${column} = ?`);
  if (change.run(deleted ? nowUtc() : null, id).changes === 0) throw recordNotFound(table, id);
}

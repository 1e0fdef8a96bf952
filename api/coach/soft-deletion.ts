import { FaultError, fault } from '../../shared/fault.ts';
import { nowUtc, type Store } from '../store/store.ts';

/** The coach's own records that can be deleted and taken back: table and identifier. */
const RECORDS = {
  athlete_measures: { id: 'athlete_measure_id' },
  athlete_focuses: { id: 'athlete_focus_id' },
  coach_focuses: { id: 'coach_focus_id' },
  sprint_tests: { id: 'sprint_test_id' },
  strength_records: { id: 'strength_record_id' },
} as const;
export type CoachRecord = keyof typeof RECORDS;

/** The fault of a coach's record that is not there. */
export function recordNotFound(table: CoachRecord, id: number): FaultError {
  return new FaultError(fault(`COACH_RECORD_NOT_FOUND.${table}`, { id }, { [RECORDS[table].id]: id }));
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

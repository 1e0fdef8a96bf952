import type { Fault } from '../../shared/fault.ts';
import { nowUtc, type Store } from './store.ts';

export interface RecordedRepetition {
  recording_ids: readonly number[];
  /** UTC start of the recordings; null when unknown. */
  recorded_utc: string | null;
  /** Number of the repetition within the recordings, from 1. */
  number_in_recording: number;
  /** Why there is nothing to analyse; null where an analysis follows. */
  fault: Fault | null;
}

/**
 * Rests a repetition on these recordings, whatever they came by (files, radio): it is 'recorded' from here on, and has no
 * analysis until one is inserted. Call it inside a transaction.
 */
export function recordRepetition(
  store: Store,
  repetitionId: number,
  { recording_ids, recorded_utc, number_in_recording, fault }: RecordedRepetition,
): void {
  store.run(store.query.deleteFrom('repetition_recordings').where('repetition_id', '=', repetitionId));
  for (const recording_id of recording_ids) {
    store.run(store.query.insertInto('repetition_recordings').values({ repetition_id: repetitionId, recording_id }));
  }
  store.run(
    store.query
      .updateTable('repetitions')
      .set({
        state: 'recorded',
        recorded_utc,
        number_in_recording,
        analysis_id: null,
        fault: fault === null ? null : JSON.stringify(fault),
        updated_utc: nowUtc(),
      })
      .where('repetition_id', '=', repetitionId),
  );
}

/** The earliest of the starts that are known. */
export function earliestStart(starts: readonly (string | null)[]): string | null {
  return starts.filter((start) => start !== null).sort()[0] ?? null;
}

import type { Fault } from '../../shared/fault.ts';
import type { ImportFields } from '../../shared/schemas/import.ts';
import type { RepetitionChange } from '../../shared/schemas/repetition.ts';
import { repetitionFieldsOf } from '../analysis/repetition-fields.ts';
import { insertAnalysis } from '../store/analyses.ts';
import { findDuplicateImport, listImportFiles, markImport, repetitionIdsOfImport } from '../store/imports.ts';
import { insertRecording } from '../store/recordings.ts';
import { changeRepetition, createRepetition, nextOrderNumber } from '../store/repetitions.ts';
import { nowUtc, type Store } from '../store/store.ts';
import type { TaskOutcome } from './tasks.ts';

/**
 * Stores what an import brought, all or nothing: its recordings, one repetition for each that was found in them (the planned
 * one first, where one was named), and their analyses.
 * @returns identifiers of the repetitions
 */
export function storeImport(store: Store, importId: number, form: ImportFields, outcome: TaskOutcome): number[] {
  return store.transaction(() => {
    // The same files may have been sent twice at the same time: whoever comes second finds the first one's result.
    const duplicateOf = findDuplicateImport(store, importId);
    if (duplicateOf !== null) {
      markImport(store, importId, { state: 'done', step: 'known', progress: 1, duplicate_of: duplicateOf });
      return repetitionIdsOfImport(store, duplicateOf);
    }
    const files = listImportFiles(store, importId);
    const recordingIds = outcome.recordings.map((prepared) =>
      insertRecording(
        store,
        {
          athlete_id: form.athlete_id,
          import_id: importId,
          raw_file_id: files[prepared.file_index].raw_file_id,
          source: 'file',
          file_name: files[prepared.file_index].file_name,
          layout: prepared.layout,
          evidence: prepared.evidence,
        },
        prepared.description,
        prepared.chunks,
      ),
    );
    const recordedUtc = earliestStart(outcome);
    const found = outcome.analysis.repetitions;
    const fields = repetitionFieldsOf(form);
    if (outcome.course_time_dropped) {
      delete fields.course_time_s;
      delete fields.splits;
    }
    const ids: number[] = [];
    for (let k = 0; k < Math.max(1, found.length); k++) {
      const id = repetitionFor(store, form, fields, k);
      linkRecordings(store, id, recordingIds, recordedUtc, k + 1);
      if (found[k]) {
        insertAnalysis(store, {
          repetition_id: id,
          result: found[k],
          quality: outcome.analysis.quality,
          faults: outcome.analysis.faults,
          provenance: outcome.provenance,
        });
      } else noteFault(store, id, noRunningFound());
      ids.push(id);
    }
    markImport(store, importId, {
      state: 'done',
      step: 'done',
      progress: 1,
      fault: null,
      rejected: outcome.rejected,
      faults: [...outcome.faults, ...outcome.analysis.faults, ...(found.length === 0 ? [noRunningFound()] : [])],
    });
    return ids;
  });
}

function repetitionFor(store: Store, form: ImportFields, fields: RepetitionChange, index: number): number {
  if (index === 0 && form.repetition_id !== undefined) {
    return changeRepetition(store, form.repetition_id, fields).repetition_id;
  }
  const order =
    fields.order_number === undefined ? nextOrderNumber(store, form.session_id) : fields.order_number + index;
  return createRepetition(store, {
    ...fields,
    session_id: form.session_id,
    athlete_id: form.athlete_id,
    order_number: order,
  }).repetition_id;
}

function linkRecordings(
  store: Store,
  repetitionId: number,
  recordingIds: number[],
  recordedUtc: string | null,
  numberInRecording: number,
): void {
  store.run(store.query.deleteFrom('repetition_recordings').where('repetition_id', '=', repetitionId));
  for (const recordingId of recordingIds) {
    store.run(
      store.query
        .insertInto('repetition_recordings')
        .values({ repetition_id: repetitionId, recording_id: recordingId }),
    );
  }
  store.run(
    store.query
      .updateTable('repetitions')
      .set({
        state: 'recorded',
        recorded_utc: recordedUtc,
        number_in_recording: numberInRecording,
        analysis_id: null,
        fault: null,
        updated_utc: nowUtc(),
      })
      .where('repetition_id', '=', repetitionId),
  );
}

function noteFault(store: Store, repetitionId: number, fault: Fault): void {
  store.run(
    store.query
      .updateTable('repetitions')
      .set({ fault: JSON.stringify(fault) })
      .where('repetition_id', '=', repetitionId),
  );
}

function earliestStart(outcome: TaskOutcome): string | null {
  const starts = outcome.recordings.map(({ description }) => description.start_utc).filter((start) => start !== null);
  return starts.sort()[0] ?? null;
}

/** Said where a recording holds no running: it is kept, and nothing is made up. */
export function noRunningFound(): Fault {
  return {
    code: 'NO_RUNNING_FOUND',
    message: 'No running was found in the recording: standing and walking do not count. The recording is kept.',
    where: {},
    hint: 'Check that the files belong to this repetition, the mounting (foot or shank) and the sampling rate.',
  };
}

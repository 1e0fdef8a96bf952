import { rmSync } from 'node:fs';
import type { Fault } from '../../../shared/fault.ts';
import type { ImportFields } from '../../../shared/schemas/import.ts';
import type { RepetitionChange } from '../../../shared/schemas/repetition.ts';
import { noRunningFound } from '../no-running-found.ts';
import { repetitionFieldsOf } from '../repetition-fields.ts';
import { spooledResults } from '../result-spool.ts';
import { readSpool } from '../sample-spool.ts';
import { freeMemory } from '../../free-memory.ts';
import { type AnalysisRows, analysisRowsOf, insertAnalysisRows } from '../../store/analysis-rows.ts';
import { findDuplicateImport } from '../../store/find-duplicate-import.ts';
import { listImportFiles, markImport, repetitionIdsOfImport } from '../../store/imports.ts';
import { insertChunks, insertRecording } from '../../store/recordings.ts';
import { changeRepetition, createRepetition, nextOrderNumber } from '../../store/repetitions.ts';
import { earliestStart, recordRepetition } from '../../store/record-repetition.ts';
import type { Store } from '../../store/store.ts';
import type { PreparedRecording, ReadOutcome } from './tasks.ts';
import { cancelled } from './worker-pool.ts';

/** Chunks of a long recording stored at a time; other requests come in between. */
const CHUNKS_AT_ONCE = 70;

/** Repetitions stored between two collections of what their rows left: some 7 MB. */
const COLLECT_EVERY = 200;

/**
 * Stores what an import brought, all or nothing: its recordings, one repetition for each that was found in them (the planned
 * one first, where one was named), and their analyses.
 * @param signal stops the storing of a long recording half-way, nothing of it is left then
 * @returns identifiers of the repetitions
 * @throws FaultError TASK_CANCELLED
 */
export async function storeImport(
  store: Store,
  importId: number,
  form: ImportFields,
  outcome: ReadOutcome,
  signal?: AbortSignal,
): Promise<number[]> {
  const long = new Map<number, number>();
  try {
    await storeLongRecordings(store, importId, form, outcome, long, signal);
    return store.transaction(() => storeOutcome(store, importId, form, outcome, long));
  } catch (error) {
    for (const id of long.values()) deleteRecording(store, id);
    throw error;
  } finally {
    for (const { spool } of outcome.recordings) if (spool) rmSync(spool.file, { force: true });
    if (outcome.results) rmSync(outcome.results.file, { force: true });
  }
}

/**
 * A recording that is too long for one transaction goes in first, piece by piece; until a repetition rests on it, it counts
 * for nothing, and the next start of the program takes it away.
 * @param ids filled with identifiers by position among the recordings
 */
async function storeLongRecordings(
  store: Store,
  importId: number,
  form: ImportFields,
  outcome: ReadOutcome,
  ids: Map<number, number>,
  signal?: AbortSignal,
): Promise<void> {
  for (const [i, prepared] of outcome.recordings.entries()) {
    if (!prepared.spool) continue;
    const id = insertPrepared(store, importId, form, prepared);
    ids.set(i, id);
    for (const chunks of readSpool(prepared.spool, CHUNKS_AT_ONCE)) {
      store.transaction(() => insertChunks(store, id, chunks));
      await new Promise((resolve) => setImmediate(resolve));
      if (signal?.aborted) throw cancelled();
    }
  }
}

function insertPrepared(store: Store, importId: number, form: ImportFields, prepared: PreparedRecording): number {
  const { raw_file_id, file_name } = listImportFiles(store, importId)[prepared.file_index];
  const { layout, evidence } = prepared;
  const origin = { athlete_id: form.athlete_id, import_id: importId, raw_file_id, source: 'file' as const };
  return insertRecording(store, { ...origin, file_name, layout, evidence }, prepared.description, prepared.chunks);
}

function deleteRecording(store: Store, recordingId: number): void {
  store.run(store.query.deleteFrom('recordings').where('recording_id', '=', recordingId));
}

function storeOutcome(
  store: Store,
  importId: number,
  form: ImportFields,
  outcome: ReadOutcome,
  long: Map<number, number>,
): number[] {
  // The same files may have been sent twice at the same time: whoever comes second finds the first one's result.
  const duplicateOf = findDuplicateImport(store, importId);
  if (duplicateOf !== null) {
    for (const id of long.values()) deleteRecording(store, id);
    markImport(store, importId, { state: 'done', step: 'known', progress: 1, duplicate_of: duplicateOf });
    return repetitionIdsOfImport(store, duplicateOf);
  }
  const recording_ids = outcome.recordings.map(
    (prepared, i) => long.get(i) ?? insertPrepared(store, importId, form, prepared),
  );
  const recorded_utc = earliestStart(outcome.recordings.map(({ description }) => description.start_utc));
  const fields = repetitionFieldsOf(form);
  if (outcome.course_time_dropped) {
    delete fields.course_time_s;
    delete fields.splits;
  }
  const ids: number[] = [];
  const addRepetition = (fault: Fault | null): number => {
    const id = repetitionFor(store, form, fields, ids.length);
    ids.push(id);
    const number_in_recording = ids.length;
    recordRepetition(store, id, { recording_ids, recorded_utc, number_in_recording, fault });
    return id;
  };
  const { quality, faults } = outcome.analysis;
  for (const rows of rowsOf(store, outcome)) {
    insertAnalysisRows(store, { repetition_id: addRepetition(null) }, rows);
    if (ids.length % COLLECT_EVERY === 0) freeMemory();
  }
  const nothing = ids.length === 0 ? [noRunningFound(quality)] : [];
  if (nothing.length > 0) addRepetition(nothing[0]);
  markImport(store, importId, {
    state: 'done',
    step: 'done',
    progress: 1,
    fault: null,
    rejected: outcome.rejected,
    faults: [...outcome.faults, ...faults, ...nothing],
  });
  return ids;
}

/** The repetitions that were found, as rows, one after the other where they are many. */
function* rowsOf(store: Store, { rows, results, analysis, provenance }: ReadOutcome): Generator<AnalysisRows> {
  yield* rows;
  for (const result of results ? spooledResults(results) : [])
    yield analysisRowsOf(store, { result, ...analysis, provenance });
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

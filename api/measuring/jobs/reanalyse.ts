import type { RepetitionResult } from '../../../shared/analysis.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import { conditionsOf, courseOf } from '../course-and-conditions.ts';
import { insertAnalysis, type NewAnalysis } from '../../store/analyses.ts';
import { listRecordings } from '../../store/recordings.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';
import { noRunningFound } from './store-import.ts';
import type { WorkerPool } from './worker-pool.ts';

export interface ReanalysisOptions {
  /** Part of the settings that differs from the defaults. */
  settings?: unknown;
  signal?: AbortSignal;
  /** The new analysis stands beside the current one instead of taking its place. */
  keep_current?: boolean;
}

/**
 * Analyses a repetition again from its stored recordings with its present course and conditions. The result becomes the
 * current one, the earlier one stays.
 * @returns identifier of the new analysis
 * @throws FaultError as `analyseAgain`
 */
export async function reanalyse(
  store: Store,
  pool: WorkerPool,
  repetitionId: number,
  options: ReanalysisOptions,
): Promise<number> {
  const analysis = await analyseAgain(store, pool, repetitionId, options);
  return store.transaction(() => insertAnalysis(store, analysis));
}

/**
 * The analysis of a repetition's stored recordings with its present course and conditions, not yet stored.
 * @throws FaultError REPETITION_NOT_RECORDED, SETTINGS_UNREADABLE, NO_RUNNING_FOUND
 */
export async function analyseAgain(
  store: Store,
  pool: WorkerPool,
  repetitionId: number,
  { settings, signal, keep_current }: ReanalysisOptions,
): Promise<NewAnalysis> {
  const repetition = getRepetitionLine(store, repetitionId);
  const recordings = listRecordings(store, repetitionId);
  if (recordings.length === 0) {
    throw new FaultError(
      fault('REPETITION_NOT_RECORDED', { repetition_id: repetitionId }, { repetition_id: repetitionId }),
    );
  }
  const outcome = await pool.run(
    {
      kind: 'analyse',
      recording_ids: recordings.map((recording) => recording.recording_id),
      raw_sha256: recordings.map((recording) => recording.raw_sha256),
      course: courseOf(repetition),
      conditions: conditionsOf(store, repetition),
      settings: settings ?? null,
    },
    undefined,
    signal,
  );
  const result = sameRepetition(store, repetitionId, repetition.number_in_recording ?? 1, outcome.analysis.repetitions);
  if (!result) throw new FaultError(noRunningFound(outcome.analysis.quality));
  return {
    repetition_id: repetitionId,
    result,
    quality: outcome.analysis.quality,
    faults: outcome.analysis.faults,
    provenance: outcome.provenance,
    keep_current,
  };
}

/** The repetition of a recording that overlaps most with the earlier result; by its number where there was none. */
function sameRepetition(
  store: Store,
  repetitionId: number,
  numberInRecording: number,
  found: RepetitionResult[],
): RepetitionResult | undefined {
  const earlier = store.first(
    store.query
      .selectFrom('analyses')
      .innerJoin('repetitions', 'repetitions.analysis_id', 'analyses.analysis_id')
      .select('result')
      .where('repetitions.repetition_id', '=', repetitionId),
  );
  return sameRun(found, earlier ? (JSON.parse(earlier.result) as RepetitionResult) : null, numberInRecording);
}

/** Of what an analysis found, the repetition that overlaps most with an earlier result; by its number where there was none. */
export function sameRun(
  found: RepetitionResult[],
  earlier: Pick<RepetitionResult, 'start_s' | 'end_s'> | null,
  numberInRecording: number,
): RepetitionResult | undefined {
  if (!earlier) return found.find((result) => result.repetition === numberInRecording) ?? found[0];
  const { start_s, end_s } = earlier;
  const overlap = (result: RepetitionResult) => Math.min(result.end_s, end_s) - Math.max(result.start_s, start_s);
  return found.filter((result) => overlap(result) > 0).sort((a, b) => overlap(b) - overlap(a))[0];
}

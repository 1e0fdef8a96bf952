import { type AnalysisRows, insertAnalysisRows } from '../../store/analysis-rows.ts';
import type { Store } from '../../store/store.ts';
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
 * @throws FaultError as `analyseStored`
 */
export async function reanalyse(
  store: Store,
  pool: WorkerPool,
  repetition_id: number,
  { settings, signal, keep_current }: ReanalysisOptions,
): Promise<number> {
  const rows = await analyseAgain(pool, repetition_id, settings, signal);
  return store.transaction(() => insertAnalysisRows(store, { repetition_id, keep_current }, rows));
}

/** `analyseStored` in a thread: nothing is stored yet. */
export function analyseAgain(
  pool: WorkerPool,
  repetition_id: number,
  settings: unknown,
  signal?: AbortSignal,
): Promise<AnalysisRows> {
  return pool.run({ kind: 'analyse', repetition_id, settings: settings ?? null }, undefined, signal);
}

import { FaultError, fault as makeFault } from '../../../shared/fault.ts';
import {
  createReanalysis,
  getReanalysis,
  listReanalyses,
  markItem,
  markReanalysis,
  waitingRepetitions,
} from '../../store/reanalyses.ts';
import type { Store } from '../../store/store.ts';
import { type AnalysisRows, insertAnalysisRows } from '../../store/analysis-rows.ts';
import { WriteBatch } from '../../store/write-batch.ts';
import { analyseAgain } from './reanalyse.ts';
import type { WorkerPool } from './worker-pool.ts';

/** Repetitions under way at a time: more than the threads, so that none waits for the next one. */
const IN_FLIGHT = 8;

/**
 * Analyses a whole selection again, over all threads, each repetition noted in the store with its result: a stopped or killed
 * program goes on where it was. The new analyses stand beside the old ones and are shown once they are accepted.
 */
export class ReanalysisRuns {
  readonly #store: Store;
  readonly #pool: WorkerPool;
  readonly #running = new Map<number, { abort: AbortController; done: Promise<void> }>();

  constructor(store: Store, pool: WorkerPool) {
    this.#store = store;
    this.#pool = pool;
  }

  /** Starts one. @returns its identifier */
  start(repetitionIds: number[], settings: unknown): number {
    const id = createReanalysis(this.#store, repetitionIds, settings);
    this.#run(id);
    return id;
  }

  /** Goes on with those that a stop or a crash interrupted. */
  recover(): void {
    for (const { reanalysis_id, state } of listReanalyses(this.#store)) {
      if (state === 'working') this.#run(reanalysis_id);
    }
  }

  /** Stops one; what is done stays. */
  async cancel(reanalysisId: number): Promise<void> {
    const running = this.#running.get(reanalysisId);
    if (!running) return;
    running.abort.abort();
    await running.done;
    markReanalysis(this.#store, reanalysisId, 'cancelled');
  }

  /** Resolves when it has ended; at once when it is not running. */
  async ended(reanalysisId: number): Promise<void> {
    await this.#running.get(reanalysisId)?.done;
  }

  /** Stops all without marking them, so that the next start goes on. */
  async close(): Promise<void> {
    for (const { abort } of this.#running.values()) abort.abort();
    await Promise.all([...this.#running.values()].map(({ done }) => done));
  }

  #run(id: number): void {
    const abort = new AbortController();
    const settings = getReanalysis(this.#store, id).settings ?? undefined;
    const waiting = waitingRepetitions(this.#store, id)[Symbol.iterator]();
    const writes = new WriteBatch(this.#store);
    const written: Promise<void>[] = [];
    const lane = async () => {
      for (const repetitionId of waiting) {
        if (abort.signal.aborted) return;
        // The thread that is free now does not wait until the result is on the disk.
        const { stored } = await this.#one(id, repetitionId, settings, abort.signal, writes);
        // What cannot even be noted (a full disk) ends the run, and the next start goes on with it.
        written.push(stored.catch(() => abort.abort()));
      }
    };
    const done = Promise.all(Array.from({ length: IN_FLIGHT }, lane))
      .then(() => writes.flush())
      .then(() => Promise.all(written))
      .then(() => {
        this.#running.delete(id);
        if (!abort.signal.aborted) markReanalysis(this.#store, id, 'done');
      });
    this.#running.set(id, { abort, done });
  }

  /** @returns resolves with the analysis; what that holds resolves once it is stored */
  async #one(
    id: number,
    repetitionId: number,
    settings: unknown,
    signal: AbortSignal,
    writes: WriteBatch,
  ): Promise<{ stored: Promise<void> }> {
    const store = this.#store;
    const noteFault = (error: unknown) => {
      const fault =
        error instanceof FaultError
          ? error.toFault()
          : makeFault('INTERNAL.reanalysis', { why: String(error) }, { repetition_id: repetitionId });
      markItem(store, id, repetitionId, { fault });
    };
    let rows: AnalysisRows;
    try {
      rows = await analyseAgain(this.#pool, repetitionId, settings, signal);
    } catch (error) {
      return { stored: signal.aborted ? Promise.resolve() : writes.add(() => noteFault(error)) };
    }
    const stored = writes.add(() => {
      const analysis_id = insertAnalysisRows(store, { repetition_id: repetitionId, keep_current: true }, rows);
      markItem(store, id, repetitionId, { analysis_id });
    });
    return { stored: stored.catch(noteFault) };
  }
}

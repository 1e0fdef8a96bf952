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
import { reanalyse } from './reanalyse.ts';
import type { WorkerPool } from './worker-pool.ts';

/** Repetitions under way at a time: more than the threads, so that none waits for the next one. */
const IN_FLIGHT = 8;

/**
 * Analyses a whole selection again, over all threads, one repetition after the other noted in the store: a stopped or killed
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
    const lane = async () => {
      for (const repetitionId of waiting) {
        if (abort.signal.aborted) return;
        await this.#one(id, repetitionId, settings, abort.signal);
      }
    };
    const done = Promise.all(Array.from({ length: IN_FLIGHT }, lane)).then(() => {
      this.#running.delete(id);
      if (!abort.signal.aborted) markReanalysis(this.#store, id, 'done');
    });
    this.#running.set(id, { abort, done });
  }

  async #one(id: number, repetitionId: number, settings: unknown, signal: AbortSignal): Promise<void> {
    try {
      const store = this.#store;
      await reanalyse(store, this.#pool, repetitionId, {
        settings,
        signal,
        keep_current: true,
        onStored: (analysis_id) => markItem(store, id, repetitionId, { analysis_id }),
      });
    } catch (error) {
      if (signal.aborted) return;
      const fault =
        error instanceof FaultError
          ? error.toFault()
          : makeFault('INTERNAL.reanalysis', { why: String(error) }, { repetition_id: repetitionId });
      markItem(this.#store, id, repetitionId, { fault });
    }
  }
}

import { availableParallelism } from 'node:os';
import { dirname } from 'node:path';
import { type Fault, FaultError, fault } from '../../../shared/fault.ts';
import { parseRate } from '../../../shared/quantity-text.ts';
import type { Import } from '../../../shared/schemas/import.ts';
import type { LayoutPreview } from '../../../shared/schemas/layout-preview.ts';
import type { PreviewRequest } from '../preview-layout.ts';
import { conditionsOf, courseOf } from '../course-and-conditions.ts';
import { readLayoutField } from '../read-layout-field.ts';
import { repetitionFieldsOf } from '../repetition-fields.ts';
import { removeSpools } from '../sample-spool.ts';
import { findDuplicateImport } from '../../store/find-duplicate-import.ts';
import {
  getImport,
  type ImportMark,
  importFields,
  listImportFiles,
  listImports,
  markImport,
  triesOf,
} from '../../store/imports.ts';
import { removeIncompleteRawFiles } from '../../store/raw-files.ts';
import { removeIncompleteRecordings } from '../../store/recordings.ts';
import type { Store } from '../../store/store.ts';
import { storeFault } from '../../store/store-fault.ts';
import { type ReanalysisOptions, reanalyse } from './reanalyse.ts';
import { ReanalysisRuns } from './reanalysis-run.ts';
import { storeImport } from './store-import.ts';
import type { ReadTask } from './tasks.ts';
import { WorkerPool } from './worker-pool.ts';

const MOST_PREVIEWS_WAITING = 20;
/** An import during which the program ended this often is not begun again by itself: it may be what ended it. */
const MOST_TRIES = 2;

export type ImportListener = (state: Import) => void;

/** Work that takes longer than an answer may: imports and analyses, in worker threads. Only this thread writes the store. */
export class Jobs {
  readonly store: Store;
  readonly pool: WorkerPool;
  readonly reanalyses: ReanalysisRuns;
  /** A thread of its own: somebody waits for a preview, and an import may take minutes. */
  readonly #previews: WorkerPool;
  readonly #listeners = new Map<number, Set<ImportListener>>();
  readonly #running = new Map<number, { abort: AbortController; done: Promise<void> }>();
  #closing = false;

  /** @param threads most worker threads at a time; as many as there are processors without it */
  constructor(store: Store, threads = availableParallelism()) {
    this.store = store;
    this.pool = new WorkerPool(store.file, threads);
    this.#previews = new WorkerPool(store.file, 1, { most_waiting: MOST_PREVIEWS_WAITING });
    this.reanalyses = new ReanalysisRuns(store, this.pool);
  }

  /** Takes up what a crash or a stop left: files that never arrived whole go, imports that were not done start again. */
  recover(): void {
    removeIncompleteRawFiles(this.store);
    removeIncompleteRecordings(this.store);
    removeSpools(dirname(this.store.file));
    // All are listed before the first is started: a started one is queued again.
    const left = (['working', 'queued'] as const).flatMap((state) =>
      listImports(this.store, { state, limit: 1_000_000 }).reverse(),
    );
    for (const { import_id } of left) {
      const tries = triesOf(this.store, import_id);
      if (tries < MOST_TRIES) this.#start(import_id);
      else markImport(this.store, import_id, { state: 'failed', step: 'failed', fault: givenUp(tries) });
    }
    this.reanalyses.recover();
  }

  /** Starts an import whose files are stored, unless it runs already. Its end is in the store and told to the listeners. */
  startImport(importId: number): Promise<void> {
    const running = this.#running.get(importId);
    if (running) return running.done;
    return this.#start(importId, { tries: 0 });
  }

  #start(importId: number, mark: ImportMark = {}): Promise<void> {
    const abort = new AbortController();
    this.#note(importId, { ...mark, state: 'queued', step: 'waiting', progress: 0, fault: null });
    const done = this.#import(importId, abort.signal)
      .catch((error: unknown) => this.#fail(importId, error))
      .finally(() => {
        this.#running.delete(importId);
        if (!this.#closing) this.#tell(importId);
        this.#listeners.delete(importId);
      });
    this.#running.set(importId, { abort, done });
    return done;
  }

  /** Stops an import; its raw files stay. Nothing happens when it has ended. */
  async cancelImport(importId: number): Promise<void> {
    const running = this.#running.get(importId);
    running?.abort.abort();
    await running?.done;
  }

  /** Stops every import of one athlete's files that has not ended. */
  async cancelImportsOf(athlete_id: number): Promise<void> {
    const open = this.store
      .prepare("SELECT import_id FROM imports WHERE athlete_id = ? AND state NOT IN ('done', 'failed', 'cancelled')")
      .all(athlete_id) as { import_id: number }[];
    await Promise.all(open.map(({ import_id }) => this.cancelImport(import_id)));
  }

  /** Calls the listener at every step of an import until it ends. @returns stops the calls */
  follow(importId: number, listener: ImportListener): () => void {
    const listeners = this.#listeners.get(importId) ?? new Set();
    this.#listeners.set(importId, listeners.add(listener));
    return () => listeners.delete(listener);
  }

  /** Analyses a repetition again; the earlier analysis stays beside the new one. @returns the new analysis */
  reanalyse(repetitionId: number, options: ReanalysisOptions = {}): Promise<number> {
    return reanalyse(this.store, this.pool, repetitionId, options);
  }

  /**
   * Shows what the beginning of a file is taken for.
   * @param signal ends it when nobody waits for the answer any more
   * @throws FaultError for what is no text; SERVER_BUSY, TASK_TOO_LONG, TASK_CANCELLED
   */
  preview(request: PreviewRequest, signal?: AbortSignal): Promise<LayoutPreview> {
    return this.#previews.run({ kind: 'preview', ...request }, undefined, signal);
  }

  async close(): Promise<void> {
    this.#closing = true;
    await Promise.all([this.reanalyses.close(), this.pool.close(), this.#previews.close()]);
    await Promise.all([...this.#running.values()].map(({ done }) => done));
  }

  async #import(importId: number, signal: AbortSignal): Promise<void> {
    const duplicateOf = findDuplicateImport(this.store, importId);
    if (duplicateOf !== null) {
      markImport(this.store, importId, { state: 'done', step: 'known', progress: 1, duplicate_of: duplicateOf });
      return;
    }
    const task = this.#readTask(importId);
    const outcome = await this.pool.run(
      task,
      ({ step, progress }) => {
        this.#note(importId, { state: 'working', step, progress });
        this.#tell(importId);
      },
      signal,
      // Counted before the work begins, so that a program that ends at it finds the count.
      () => this.#note(importId, { tries: triesOf(this.store, importId) + 1 }),
    );
    await storeImport(this.store, importId, importFields(this.store, importId), outcome, signal);
  }

  /** Where an import stands on its way: the files and its end are what must never be lost. */
  #note(importId: number, mark: ImportMark): void {
    this.store.passing(() => markImport(this.store, importId, mark));
  }

  #readTask(importId: number): ReadTask {
    const form = importFields(this.store, importId);
    const fields = repetitionFieldsOf(form);
    const layoutFor = (side: string) => {
      const text =
        (side === 'left' ? form.layout_left : side === 'right' ? form.layout_right : undefined) ?? form.layout;
      return text === undefined ? null : readLayoutField(this.store, text);
    };
    return {
      kind: 'read',
      files: listImportFiles(this.store, importId).map(({ side, raw_file_id, file_name, bytes }) => ({
        side: side === 'left' || side === 'right' ? side : null,
        raw_file_id,
        file_name,
        bytes,
        layout: layoutFor(side),
      })),
      mounting: form.mounting,
      rate_hz: form.rate === undefined ? null : parseRate(form.rate),
      course: courseOf({
        course_distance_m: fields.course_distance_m ?? null,
        course_time_s: fields.course_time_s ?? null,
        splits: fields.splits ?? [],
        clock: fields.clock ?? 'first_movement',
        timing_method: fields.timing_method ?? null,
        start_style: fields.start_style ?? null,
        belt_speed_mps: fields.belt_speed_mps ?? null,
      }),
      conditions: conditionsOf(this.store, { ...form, wind_mps: fields.wind_mps ?? null }),
    };
  }

  #fail(importId: number, error: unknown): void {
    // Closing leaves the import as it stands: the next start takes it up again.
    if (this.#closing) {
      // It was ended in good order: that is no try that failed.
      markImport(this.store, importId, { tries: 0 });
      return;
    }
    const known = error instanceof FaultError ? error : storeFault(error, 'database');
    const fault: Fault = known?.toFault() ?? internal(error);
    const state = fault.code === 'TASK_CANCELLED' ? 'cancelled' : 'failed';
    markImport(this.store, importId, { state, step: state, fault });
  }

  #tell(importId: number): void {
    const listeners = this.#listeners.get(importId);
    if (!listeners || listeners.size === 0) return;
    const state = getImport(this.store, importId);
    for (const listener of listeners) listener(state);
  }
}

function givenUp(tries: number): Fault {
  return fault('IMPORT_GIVEN_UP', { tries });
}

function internal(error: unknown): Fault {
  return fault('INTERNAL.import', { why: error instanceof Error ? error.message : String(error) });
}

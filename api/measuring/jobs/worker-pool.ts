import { dirname } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { Worker } from 'node:worker_threads';
import { FaultError, fault } from '../../../shared/fault.ts';
import { removeSpools } from '../sample-spool.ts';
import type { OutcomeOf, Task, TaskProgress, WorkerMessage } from './tasks.ts';

interface Waiting {
  task: Task;
  onProgress: (progress: TaskProgress) => void;
  signal?: AbortSignal;
  onStart: () => void;
  /** Takes it out of the queue; while it waits it listens to `signal`. */
  leave: () => void;
  resolve: (outcome: OutcomeOf<Task>) => void;
  reject: (error: Error) => void;
}

// Several helpers of the engine collect young memory faster than one, at a third more of processors: these are all at work here.
setFlagsFromString('--no-parallel-scavenge');

/** Files beyond this many bytes together, some 10 minutes of two feet at 500 Hz, are read one task at a time. */
const LONG_BYTES = 50e6;

function isLong(task: Task): boolean {
  return task.kind === 'read' && task.files.reduce((sum, file) => sum + file.bytes, 0) > LONG_BYTES;
}

/** Reading goes on at some megabytes a second on a slow machine; what takes a hundred times as long is stuck. */
const LEAST_BYTES_PER_S = 50_000;
const SHORTEST_LIMIT_S: Record<Task['kind'], number> = { read: 120, analyse: 1800, preview: 30 };

/** How long a task may take, seconds. */
function limitOf(task: Task): number {
  const bytes = task.kind === 'read' ? task.files.reduce((sum, file) => sum + file.bytes, 0) : 0;
  return SHORTEST_LIMIT_S[task.kind] + Math.ceil(bytes / LEAST_BYTES_PER_S);
}

/** What a timer can wait at most, milliseconds. */
const LONGEST_TIMER_MS = 2 ** 31 - 1;

export interface PoolLimits {
  /** Tasks that may wait; more are refused. */
  most_waiting?: number;
  /** Seconds a task may take; by its size without it. */
  limit_s?: (task: Task) => number;
}

/**
 * Threads that read and analyse, so that the server's own thread is always free to answer. A thread is started when first
 * needed and kept; one that dies takes only its task with it. Tasks wait in the order they came.
 */
export class WorkerPool {
  readonly #databaseFile: string;
  readonly #size: number;
  readonly #mostWaiting: number;
  readonly #limitOf: (task: Task) => number;
  readonly #idle: Worker[] = [];
  readonly #busy = new Set<Worker>();
  readonly #waiting: Waiting[] = [];
  #longRunning = 0;
  #closed = false;

  /**
   * @param databaseFile the threads read it through connections of their own; they never write
   * @param size most threads at a time
   */
  constructor(databaseFile: string, size: number, { most_waiting, limit_s }: PoolLimits = {}) {
    this.#databaseFile = databaseFile;
    this.#mostWaiting = most_waiting ?? Number.POSITIVE_INFINITY;
    this.#limitOf = limit_s ?? limitOf;
    this.#size = size;
  }

  /**
   * Runs a task.
   * @param onStart called when a thread takes it up
   * @throws FaultError what the task refused, SERVER_BUSY, TASK_CANCELLED, TASK_TOO_LONG, or WORKER_FAILED when its thread died
   */
  run<T extends Task>(
    task: T,
    onProgress: (progress: TaskProgress) => void = () => {},
    signal?: AbortSignal,
    onStart: () => void = () => {},
  ): Promise<OutcomeOf<T>> {
    const waiting = this.#waiting.length;
    if (waiting >= this.#mostWaiting) return Promise.reject(new FaultError(fault('SERVER_BUSY', { waiting })));
    return new Promise((resolve, reject) => {
      const settled = { resolve: (outcome: OutcomeOf<Task>) => resolve(outcome as OutcomeOf<T>), reject };
      const waiting: Waiting = {
        task,
        onProgress,
        signal,
        onStart,
        leave: () => this.#leaveQueue(waiting),
        ...settled,
      };
      this.#waiting.push(waiting);
      signal?.addEventListener('abort', waiting.leave);
      this.#next();
    });
  }

  /** Ends all threads; tasks that run or wait are rejected with TASK_CANCELLED. */
  async close(): Promise<void> {
    this.#closed = true;
    for (const { reject } of this.#waiting.splice(0)) reject(cancelled());
    await Promise.all([...this.#idle, ...this.#busy].map((worker) => worker.terminate()));
    this.#idle.length = 0;
  }

  /** A task that is cancelled while it waits need not wait for its turn to be told so. */
  #leaveQueue(waiting: Waiting): void {
    const place = this.#waiting.indexOf(waiting);
    if (place < 0) return;
    this.#waiting.splice(place, 1);
    waiting.signal?.removeEventListener('abort', waiting.leave);
    waiting.reject(cancelled());
  }

  #next(): void {
    if (this.#closed) return;
    // Long files go one at a time: each needs its window in memory, and two would be no faster than their disk.
    const next = this.#waiting.findIndex(({ task }) => !isLong(task) || this.#longRunning === 0);
    if (next < 0) return;
    const worker = this.#idle.pop() ?? (this.#busy.size < this.#size ? this.#start() : undefined);
    if (!worker) return;
    const [waiting] = this.#waiting.splice(next, 1);
    waiting.signal?.removeEventListener('abort', waiting.leave);
    this.#busy.add(worker);
    this.#attend(worker, waiting);
  }

  #start(): Worker {
    return new Worker(new URL('./worker.mjs', import.meta.url), {
      workerData: { database_file: this.#databaseFile },
      execArgv: [],
      // An analysis leaves some 30 MB of passing objects. In semi-spaces of 8 MB most columns die young; from smaller ones they move
      // to where only a collection of everything finds them, which takes as much of the other processors as the analysis itself.
      resourceLimits: { maxYoungGenerationSizeMb: 24 },
    });
  }

  #attend(worker: Worker, { task, onProgress, signal, onStart, resolve, reject }: Waiting): void {
    const limit_s = this.#limitOf(task);
    let timer: NodeJS.Timeout | undefined;
    const settle = (keep: boolean, then: () => void) => {
      clearTimeout(timer);
      worker.removeAllListeners();
      if (isLong(task)) this.#longRunning--;
      signal?.removeEventListener('abort', onAbort);
      this.#busy.delete(worker);
      if (keep && !this.#closed) this.#idle.push(worker);
      else void this.#end(worker);
      // An idle thread must not keep the program alive, nor bring it down when it dies.
      worker.unref();
      worker.on('error', () => this.#forget(worker));
      worker.on('exit', () => this.#forget(worker));
      then();
      this.#next();
    };
    if (isLong(task)) this.#longRunning++;
    const onAbort = () => settle(false, () => reject(cancelled()));
    if (signal?.aborted) {
      onAbort();
      return;
    }
    worker.removeAllListeners();
    worker.ref();
    signal?.addEventListener('abort', onAbort);
    worker.on('message', (message: WorkerMessage) => {
      if (message.type === 'progress') onProgress(message.progress);
      if (message.type === 'outcome') settle(true, () => resolve(message.outcome));
      if (message.type === 'fault') settle(true, () => reject(new FaultError(message.fault)));
    });
    worker.on('error', (error) => settle(false, () => reject(died(error.message))));
    worker.on('exit', (code) => settle(false, () => reject(this.#closed ? cancelled() : died(`exit code ${code}`))));
    const tooLong = () => settle(false, () => reject(new FaultError(fault('TASK_TOO_LONG', { limit_s }, { limit_s }))));
    timer = setTimeout(tooLong, Math.min(1000 * limit_s, LONGEST_TIMER_MS));
    onStart();
    worker.postMessage(task);
  }

  /** Ends a thread in the middle of its work, and takes the passing files away that it could no longer clear up. */
  async #end(worker: Worker): Promise<void> {
    const { threadId } = worker;
    await worker.terminate();
    removeSpools(dirname(this.#databaseFile), threadId);
  }

  #forget(worker: Worker): void {
    const index = this.#idle.indexOf(worker);
    if (index >= 0) this.#idle.splice(index, 1);
  }
}

/** What a task that was stopped is rejected with. */
export function cancelled(): FaultError {
  return new FaultError(fault('TASK_CANCELLED', {}));
}

function died(why: string): FaultError {
  return new FaultError(fault('WORKER_FAILED', { why }));
}

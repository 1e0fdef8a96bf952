import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { ClubRepetition, ClubRepetitionOrder } from './club-repetition.ts';

/** More would be ahead of what can be analysed. */
const MOST_THREADS = 4;

interface Waiting {
  resolve: (made: ClubRepetition) => void;
  reject: (error: Error) => void;
}

/** Makes repetitions in threads of their own, one for two processors, so that a server in this process goes on answering. */
export class RepetitionMaker {
  readonly #workers: Worker[];
  readonly #waiting = new Map<number, Waiting>();
  #next = 0;

  constructor(threads = Math.min(MOST_THREADS, Math.max(1, availableParallelism() >> 1))) {
    this.#workers = Array.from({ length: threads }, () => this.#start());
  }

  make(order: ClubRepetitionOrder): Promise<ClubRepetition> {
    const id = this.#next++;
    const worker = this.#workers[id % this.#workers.length];
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      worker.ref();
      worker.postMessage({ id, order });
    });
  }

  async close(): Promise<void> {
    await Promise.all(this.#workers.map((worker) => worker.terminate()));
  }

  #start(): Worker {
    const worker = new Worker(new URL('./worker.mjs', import.meta.url), { execArgv: [] });
    worker.on('message', ({ id, made }: { id: number; made: ClubRepetition }) => {
      this.#waiting.get(id)?.resolve(made);
      this.#waiting.delete(id);
    });
    worker.on('error', (error: Error) => {
      for (const { reject } of this.#waiting.values()) reject(error);
      this.#waiting.clear();
    });
    // A server that is told to stop does not wait for the demo.
    worker.unref();
    return worker;
  }
}

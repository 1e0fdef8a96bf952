import { Worker } from 'node:worker_threads';
import type { ClubRepetition, ClubRepetitionOrder } from './club-repetition.ts';

/** Makes repetitions in a thread of its own, so that a server in this process goes on answering. */
export class RepetitionMaker {
  readonly #worker = new Worker(new URL('./worker.mjs', import.meta.url), { execArgv: [] });
  readonly #waiting = new Map<number, { resolve: (made: ClubRepetition) => void; reject: (error: Error) => void }>();
  #next = 1;

  constructor() {
    this.#worker.on('message', ({ id, made }: { id: number; made: ClubRepetition }) => {
      this.#waiting.get(id)?.resolve(made);
      this.#waiting.delete(id);
    });
    this.#worker.on('error', (error: Error) => {
      for (const { reject } of this.#waiting.values()) reject(error);
      this.#waiting.clear();
    });
    // A server that is told to stop does not wait for the demo.
    this.#worker.unref();
  }

  make(order: ClubRepetitionOrder): Promise<ClubRepetition> {
    const id = this.#next++;
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      this.#worker.ref();
      this.#worker.postMessage({ id, order });
    });
  }

  async close(): Promise<void> {
    await this.#worker.terminate();
  }
}

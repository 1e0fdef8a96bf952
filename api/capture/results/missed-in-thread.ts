import { on } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { MissedRepetition, MissedRequest } from './find-missed.ts';

/** Megabytes of heap that the thread may take; windows of some minutes need far less. */
const HEAP_MB = 256;

export type FromRecovery = { found: MissedRepetition } | { done: true };

/**
 * `findMissed` in a thread of its own, so that the server answers meanwhile.
 * @throws Error when the thread dies, or is told to stop; what was asked is then left as it is
 */
export async function* missedInThread(request: MissedRequest, signal?: AbortSignal): AsyncGenerator<MissedRepetition> {
  const worker = new Worker(new URL('./recover-worker.mjs', import.meta.url), {
    workerData: request,
    execArgv: [],
    resourceLimits: { maxYoungGenerationSizeMb: 6, maxOldGenerationSizeMb: HEAP_MB },
  });
  const messages = on(worker, 'message', { signal, close: ['exit'] }) as AsyncIterable<[FromRecovery]>;
  try {
    for await (const [message] of messages) {
      if ('done' in message) return;
      yield message.found;
    }
    throw new Error('the thread that looked through the capture ended before it was done');
  } finally {
    await worker.terminate();
  }
}

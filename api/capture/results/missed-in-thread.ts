import { Worker } from 'node:worker_threads';
import type { MissedRepetition, MissedRequest } from './find-missed.ts';

/** Megabytes of heap that the thread may take; windows of some minutes need far less. */
const HEAP_MB = 256;

/** `findMissed` in a thread of its own, so that the server answers meanwhile. @throws Error when the thread dies; what was asked is then left as it is */
export function missedInThread(request: MissedRequest, signal?: AbortSignal): Promise<MissedRepetition[]> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./recover-worker.mjs', import.meta.url), {
      workerData: request,
      execArgv: [],
      resourceLimits: { maxYoungGenerationSizeMb: 6, maxOldGenerationSizeMb: HEAP_MB },
    });
    const stop = () => void worker.terminate();
    signal?.addEventListener('abort', stop, { once: true });
    if (signal?.aborted) stop();
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', (code) => {
      signal?.removeEventListener('abort', stop);
      reject(new Error(`the thread that looked through the capture ended with ${code}`));
    });
  });
}

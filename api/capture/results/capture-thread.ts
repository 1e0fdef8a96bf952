import { on } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { MissedRepetition, MissedRequest } from './find-missed.ts';
import type { JoinRequest } from './join-recordings.ts';

/** Megabytes of heap that a thread may take: windows of some minutes need little, two whole recordings more. */
const HEAP_MB = { find: 192, join: 256 };

export type ThreadRequest = { work: 'find'; of: MissedRequest } | { work: 'join'; of: JoinRequest };
export type FromThread = { found: MissedRepetition } | { joined: boolean } | { done: true };

/**
 * Work on packet logs in a thread of its own, so that the server answers meanwhile.
 * @throws Error when the thread dies, or is told to stop; what was asked is then left as it is
 */
async function* inThread(request: ThreadRequest, signal?: AbortSignal): AsyncGenerator<FromThread> {
  const worker = new Worker(new URL('./recover-worker.mjs', import.meta.url), {
    workerData: request,
    execArgv: [],
    resourceLimits: { maxYoungGenerationSizeMb: 6, maxOldGenerationSizeMb: HEAP_MB[request.work] },
  });
  const messages = on(worker, 'message', { signal, close: ['exit'] }) as AsyncIterable<[FromThread]>;
  try {
    for await (const [message] of messages) {
      if ('done' in message) return;
      yield message;
    }
    throw new Error('the thread that looked through the capture ended before it was done');
  } finally {
    await worker.terminate();
  }
}

/** Repetitions in logs that are not in the store, as they are found. */
export async function* missedInThread(request: MissedRequest, signal?: AbortSignal): AsyncGenerator<MissedRepetition> {
  for await (const message of inThread({ work: 'find', of: request }, signal))
    if ('found' in message) yield message.found;
}

/** Two recordings on one clock: see `joinRecordings`. */
export async function joinInThread(request: JoinRequest): Promise<boolean> {
  for await (const message of inThread({ work: 'join', of: request })) if ('joined' in message) return message.joined;
  return false;
}

import { on } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { Excerpt } from '../recording/excerpt.ts';
import type { PendingRequest } from './cut-pending.ts';
import type { MissedRequest } from './find-missed.ts';
import type { JoinRequest } from './join-recordings.ts';
import type { Circumstances, PreparedRepetition } from './prepare-repetition.ts';

/** Megabytes of heap that a thread may take: windows of some minutes need little, two whole recordings more. */
const HEAP_MB = { find: 192, join: 256 };

export type ThreadRequest =
  | { work: 'find'; of: { missed: MissedRequest } | { pending: PendingRequest } }
  | { work: 'join'; of: JoinRequest };

/** A repetition that a thread has found in packet logs, by host time. */
export interface FoundSpan {
  start_s: number;
  end_s: number;
  utc_zero_ms: number | null;
}

export type FromThread =
  | { found: FoundSpan }
  | { measured: { excerpts: Excerpt[]; prepared: PreparedRepetition | null } }
  | { failed: string }
  | { joined: boolean }
  | { done: true };

/**
 * Work on packet logs in a thread of its own, so that the server answers meanwhile.
 * @param answer what the thread is told to a message; undefined where it waits for nothing
 * @throws Error when the thread dies, or is told to stop; what was asked is then left as it is
 */
async function* inThread(
  request: ThreadRequest,
  signal?: AbortSignal,
  answer: (message: FromThread) => unknown = () => undefined,
): AsyncGenerator<FromThread> {
  const worker = new Worker(new URL('./recover-worker.mjs', import.meta.url), {
    workerData: request,
    execArgv: [],
    resourceLimits: { maxYoungGenerationSizeMb: 6, maxOldGenerationSizeMb: HEAP_MB[request.work] },
  });
  // Of a thread that was told to stop nobody hears any more; what it meets on its way out must not end the program.
  worker.on('error', () => {});
  const messages = on(worker, 'message', { signal, close: ['exit'] }) as AsyncIterable<[FromThread]>;
  try {
    for await (const [message] of messages) {
      if ('done' in message) return;
      const told = answer(message);
      if (told !== undefined) worker.postMessage(told);
      yield message;
    }
    throw new Error('the thread that looked through the capture ended before it was done');
  } finally {
    await worker.terminate();
  }
}

/** A repetition that was found, and measured as it was asked for. */
export interface MeasuredInThread<Wanted> {
  span: FoundSpan;
  excerpts: Excerpt[];
  /** Null when the logs hold no sample. */
  prepared: PreparedRepetition | null;
  /** Why it could not be measured. */
  failure: Error | null;
  wanted: Wanted;
}

/**
 * Repetitions in packet logs, measured and made ready to be stored.
 * @param wants what is known of a repetition that was found; null where it is not wanted
 */
export async function* measuredInThread<Wanted extends Circumstances>(
  of: Extract<ThreadRequest, { work: 'find' }>['of'],
  wants: (span: FoundSpan) => Wanted | null,
  signal?: AbortSignal,
): AsyncGenerator<MeasuredInThread<Wanted>> {
  let now: { span: FoundSpan; wanted: Wanted | null } | null = null;
  const answer = (message: FromThread) => {
    if (!('found' in message)) return undefined;
    const wanted = wants(message.found);
    now = { span: message.found, wanted };
    return wanted && { course: wanted.course, conditions: wanted.conditions };
  };
  for await (const message of inThread({ work: 'find', of }, signal, answer)) {
    const { span, wanted } = now! as { span: FoundSpan; wanted: Wanted };
    if ('measured' in message) yield { span, wanted, failure: null, ...message.measured };
    if ('failed' in message) yield { span, wanted, failure: new Error(message.failed), excerpts: [], prepared: null };
  }
}

/** Two recordings on one clock: see `joinRecordings`. */
export async function joinInThread(request: JoinRequest): Promise<boolean> {
  for await (const message of inThread({ work: 'join', of: request })) if ('joined' in message) return message.joined;
  return false;
}

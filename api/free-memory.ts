import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as (options?: { type: 'minor' }) => void;

/** Columns that a thread may hold before it pays to look for dead ones among them. */
const WORTHWHILE_BYTES = 24e6;

/**
 * Gives back what the columns of the last window or block held, where that may be worth it. The engine counts the small objects that
 * stand for them, not their megabytes, and would let 64 MB and more of dead columns pile up in every thread before it looks. A
 * collection takes some 10 ms in a worker thread and 50 ms in the server's own, and several times as much of the other processors, so
 * it is left away while a thread holds little: called where megabytes were just done with.
 */
export function freeMemory(): void {
  if (process.memoryUsage().external > WORTHWHILE_BYTES) collect();
}

/** Gives back pieces of a stream that just went by, in a millisecond or two. */
export function freePassingBuffers(): void {
  collect({ type: 'minor' });
}

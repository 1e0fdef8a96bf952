import { getHeapStatistics, setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as (options?: { type: 'minor' }) => void;

/**
 * Gives back what the columns of the last window or block held. The engine counts the small objects that stand for them, not their
 * megabytes, and would let 64 MB and more of dead columns pile up in every thread before it looks. Takes some 10 ms in a worker
 * thread and 50 ms in the server's own: called where megabytes were just done with.
 */
export function freeMemory(): void {
  collect();
}

/** Gives back pieces of a stream that just went by, in a millisecond or two. */
export function freePassingBuffers(): void {
  collect({ type: 'minor' });
}

/** Columns that a thread may hold before it pays to look for dead ones among them. */
const WORTHWHILE_BYTES = 24e6;

/**
 * `freeMemory` after small work, where it may be worth it: a collection takes a third of the time of a sprint's analysis, and twice as
 * much again of the other processors, so it is left away while the thread holds little.
 */
export function freeMemoryOfMuch(): void {
  if (process.memoryUsage().external > WORTHWHILE_BYTES) freeMemory();
}

/** What the heap may grow by before work in batches collects it: less than the engine would let it, which is some times of what lives. */
const BATCHES_BYTES = 48e6;
let after_last = 0;

/** `freeMemory` between batches of small objects, every few of them. */
export function freeMemoryOfBatches(): void {
  if (getHeapStatistics().used_heap_size < after_last + BATCHES_BYTES) return;
  freeMemory();
  after_last = getHeapStatistics().used_heap_size;
}

import { once } from 'node:events';
import { parentPort, workerData } from 'node:worker_threads';
import { setPriority } from 'node:os';
import { readPacketLog, utcOfHostZero } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { freeMemory } from '../../free-memory.ts';
import type { Excerpt } from '../recording/excerpt.ts';
import type { FromThread, ThreadRequest } from './capture-thread.ts';
import { cutPending } from './cut-pending.ts';
import { findMissed } from './find-missed.ts';
import { type Circumstances, measureAndPrepare } from './prepare-repetition.ts';

// On Linux this is of the thread alone: what runs now comes before what ran.
if (process.platform === 'linux') setPriority(5);

const tell = (message: FromThread) => parentPort!.postMessage(message);

/** UTC of host time 0 by a packet log's own clock readings. */
function utcZero([first]: Excerpt[]): number | null {
  return first === undefined ? null : utcOfHostZero(readPacketLog(first.file_name, first.bytes));
}

async function work(of: Extract<ThreadRequest, { work: 'find' }>['of']): Promise<void> {
  for (const { start_s, end_s, excerpts } of 'missed' in of ? findMissed(of.missed) : cutPending(of.pending)) {
    tell({ found: { start_s, end_s, utc_zero_ms: utcZero(excerpts) } });
    // Who knows the store says whether it is wanted, and what there is to know of it.
    const [circumstances] = (await once(parentPort!, 'message')) as [Circumstances | null];
    if (circumstances === null) continue;
    try {
      tell({ measured: { excerpts, prepared: measureAndPrepare(excerpts, { start_s, end_s }, circumstances) } });
    } catch (error) {
      // The others can be measured all the same.
      tell({ failed: (error as Error).message });
    }
    freeMemory();
  }
  tell({ done: true });
}

void work((workerData as Extract<ThreadRequest, { work: 'find' }>).of);

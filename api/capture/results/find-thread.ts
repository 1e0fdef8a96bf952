import { parentPort, workerData } from 'node:worker_threads';
import { setPriority } from 'node:os';
import type { FromThread, ThreadRequest } from './capture-thread.ts';
import { findMissed, type MissedRequest } from './find-missed.ts';

// On Linux this is of the thread alone: what runs now comes before what ran.
if (process.platform === 'linux') setPriority(5);

const tell = (message: FromThread) => parentPort!.postMessage(message);
for (const found of findMissed((workerData as ThreadRequest).of as MissedRequest)) tell({ found });
tell({ done: true });

import { parentPort, workerData } from 'node:worker_threads';
import { setPriority } from 'node:os';
import { findMissed, type MissedRequest } from './find-missed.ts';
import type { FromRecovery } from './missed-in-thread.ts';

// On Linux this is of the thread alone: what runs now comes before what ran.
if (process.platform === 'linux') setPriority(5);

const tell = (message: FromRecovery) => parentPort!.postMessage(message);
for (const found of findMissed(workerData as MissedRequest)) tell({ found });
tell({ done: true });

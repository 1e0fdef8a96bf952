import { parentPort, workerData } from 'node:worker_threads';
import { setPriority } from 'node:os';
import { findMissed, type MissedRequest } from './find-missed.ts';

// On Linux this is of the thread alone: what runs now comes before what ran.
if (process.platform === 'linux') setPriority(5);

parentPort!.postMessage(findMissed(workerData as MissedRequest));

import { parentPort, workerData } from 'node:worker_threads';
import { setPriority } from 'node:os';
import { findMissed } from './find-missed.ts';
import { joinRecordings } from './join-recordings.ts';
import type { FromThread, ThreadRequest } from './capture-thread.ts';

// On Linux this is of the thread alone: what runs now comes before what ran.
if (process.platform === 'linux') setPriority(5);

const tell = (message: FromThread) => parentPort!.postMessage(message);
const request = workerData as ThreadRequest;
if (request.work === 'find') for (const found of findMissed(request.of)) tell({ found });
else tell({ joined: joinRecordings(request.of) });
tell({ done: true });

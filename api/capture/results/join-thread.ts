import { parentPort, workerData } from 'node:worker_threads';
import type { FromThread, ThreadRequest } from './capture-thread.ts';
import { type JoinRequest, joinRecordings } from './join-recordings.ts';

const tell = (message: FromThread) => parentPort!.postMessage(message);
tell({ joined: joinRecordings((workerData as ThreadRequest).of as JoinRequest) });
tell({ done: true });

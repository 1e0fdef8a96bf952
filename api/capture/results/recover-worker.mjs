// Entry of a worker thread. Only what is asked for is loaded: the rest would take its memory.
import { workerData } from 'node:worker_threads';
import { loadSource } from '../../load-source.mjs';

await loadSource(`api/capture/results/${workerData.work}-thread.ts`);

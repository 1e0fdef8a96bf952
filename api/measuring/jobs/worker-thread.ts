import { setPriority } from 'node:os';
import { parentPort, workerData } from 'node:worker_threads';
import { type Fault, FaultError, fault } from '../../../shared/fault.ts';
import { freeMemoryOfMuch, freePassingBuffers } from '../../free-memory.ts';
import { Store } from '../../store/store.ts';
import { runTask } from './run-task.ts';
import type { Task, ReadOutcome, WorkerMessage } from './tasks.ts';

const LESS_URGENT = 5;

// The thread's loop: one task at a time, its outcome or its fault back. It reads the store and never writes to it.
// On Linux this is of the thread alone: where processors are few, whoever waits for an answer comes before work that takes minutes.
if (process.platform === 'linux') setPriority(LESS_URGENT);

const port = parentPort!;
const store = Store.openForReading((workerData as { database_file: string }).database_file);

port.on('message', async (task: Task) => {
  const send = (message: WorkerMessage, transfer: ArrayBuffer[] = []) => port.postMessage(message, transfer);
  try {
    const outcome = await runTask(store, task, (progress) => send({ type: 'progress', progress }));
    send({ type: 'outcome', outcome }, 'recordings' in outcome ? chunkBuffers(outcome) : []);
  } catch (error) {
    send({ type: 'fault', fault: error instanceof FaultError ? error.toFault() : internalFault(error) });
  }
  freePassingBuffers();
  freeMemoryOfMuch();
});

function chunkBuffers({ recordings }: ReadOutcome): ArrayBuffer[] {
  return recordings.flatMap(({ chunks }) => chunks.map(({ bytes }) => bytes.buffer as ArrayBuffer));
}

function internalFault(error: unknown): Fault {
  const reason = error instanceof Error ? (error.stack ?? error.message) : String(error);
  process.stderr.write(`analysis thread: ${reason}\n`);
  return fault('INTERNAL.analysis', { why: error instanceof Error ? error.message : reason });
}

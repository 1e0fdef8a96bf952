import type { Store } from '../../store/store.ts';
import type { CaptureFolder, CaptureRecord, PendingRepetition } from '../recording/capture-folder.ts';
import { logsOf } from './logs-of-capture.ts';
import { measuredInThread } from './capture-thread.ts';
import { circumstancesOf, storePrepared } from './store-repetition.ts';

/**
 * Tries again to store the repetitions of a capture that could not be stored before, from its packet logs.
 * @param stored called for each that is stored now
 * @returns what is still not stored
 */
export async function storePending(
  store: Store,
  folder: CaptureFolder,
  record: CaptureRecord,
  stored: (pending: PendingRepetition, repetition_id: number) => void,
): Promise<PendingRepetition[]> {
  const all = [...(record.pending ?? [])].sort((a, b) => a.from_s - b.from_s);
  const done: PendingRepetition[] = [];
  // Those of the same sensors are cut out of their logs in one go.
  for (const key of new Set(all.map(groupOf))) {
    const spans = all.filter((pending) => groupOf(pending) === key);
    try {
      for await (const one of storeGroup(store, folder, record, spans, stored)) done.push(one);
    } catch {
      // What is left stays in the list.
    }
  }
  // Meanwhile others may have joined.
  record.pending = record.pending?.filter((pending) => !done.includes(pending));
  if (done.length > 0) folder.change(record.capture_id, { pending: record.pending });
  return record.pending ?? [];
}

function groupOf({ athlete_id, session_id, sensor_ids }: PendingRepetition): string {
  return JSON.stringify([athlete_id, session_id, sensor_ids]);
}

/** Stores the repetitions of one group of sensors. @returns each that need not be tried again */
async function* storeGroup(
  store: Store,
  folder: CaptureFolder,
  record: CaptureRecord,
  spans: PendingRepetition[],
  stored: (pending: PendingRepetition, repetition_id: number) => void,
): AsyncGenerator<PendingRepetition> {
  const [{ athlete_id, session_id, sensor_ids }] = spans;
  const place = { athlete_id, session_id };
  const sensors = await logsOf(folder, record, sensor_ids);
  const pending = { capture_id: record.capture_id, sensors, spans };
  let next = 0;
  const measured = measuredInThread({ pending }, () => circumstancesOf(store, place));
  for await (const { excerpts, prepared, failure, wanted } of measured) {
    const one = spans[next++];
    if (failure !== null) continue;
    try {
      // Without a sample there is nothing to store, now or later.
      if (prepared !== null) stored(one, await storePrepared(store, place, excerpts, wanted.planned_id, prepared));
      yield one;
    } catch {
      // It stays in the list.
    }
  }
}

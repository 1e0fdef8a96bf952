import type { Store } from '../../store/store.ts';
import type { CaptureFolder, CaptureRecord, PendingRepetition } from '../recording/capture-folder.ts';
import { cutLog, readLogs } from './recover-capture.ts';
import { measureLiveRepetition, storeLiveRepetition } from './store-repetition.ts';

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
  if ((record.pending ?? []).length === 0) return [];
  const done: PendingRepetition[] = [];
  const logs = readLogs(folder, record);
  for (const pending of [...(record.pending ?? [])]) {
    try {
      const own = logs.filter(({ log }) => pending.sensor_ids.includes(log.header.sensor_id));
      const excerpts = own.map(({ log }) => ({
        file_name: `${record.capture_id}-${log.header.side}.packets`,
        bytes: cutLog(log, pending.from_s, pending.to_s),
      }));
      const live = { ...pending, excerpts };
      const measured = measureLiveRepetition(store, live);
      // Without a sample there is nothing to store, now or later.
      if (measured !== null) stored(pending, await storeLiveRepetition(store, live, measured));
      done.push(pending);
    } catch {
      // It stays in the list.
    }
  }
  // Meanwhile others may have joined.
  record.pending = record.pending?.filter((pending) => !done.includes(pending));
  if (done.length > 0) folder.save(record);
  return record.pending ?? [];
}

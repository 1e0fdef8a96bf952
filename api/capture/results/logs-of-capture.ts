import { existsSync } from 'node:fs';
import type { SensorPlace } from '../../../shared/schemas/capture.ts';
import type { CaptureFolder, CaptureRecord } from '../recording/capture-folder.ts';
import { type LogEnd, readLogEnd } from '../recording/stream-log.ts';
import type { LogToRead } from './window-of-log.ts';

/** A log as far as it is needed to look through it. */
export interface FoundLog {
  place: SensorPlace;
  file: string;
  end: LogEnd;
}

/**
 * The logs of a capture that are there and can be read, each gone through to its end.
 * @param sensor_ids whose logs; of all by default
 */
export async function findLogs(
  folder: CaptureFolder,
  { capture_id, sensors }: CaptureRecord,
  sensor_ids?: string[],
): Promise<FoundLog[]> {
  const found: FoundLog[] = [];
  for (const { sensor_id, place } of sensors) {
    if (sensor_ids?.includes(sensor_id) === false) continue;
    const file = folder.logFile(capture_id, sensor_id);
    if (!existsSync(file)) continue;
    const end = await readLogEnd(file).catch(() => null);
    if (end !== null) found.push({ place, file, end });
  }
  return found;
}

/** The same, each with its last header alone. */
export async function logsOf(
  folder: CaptureFolder,
  record: CaptureRecord,
  sensor_ids?: string[],
): Promise<LogToRead[]> {
  const found = await findLogs(folder, record, sensor_ids);
  return found.map(({ file, end }) => ({ file, header: end.header }));
}

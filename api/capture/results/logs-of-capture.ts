import type { CaptureFolder, CaptureRecord } from '../recording/capture-folder.ts';
import { endOf } from './recover-capture.ts';
import type { LogToRead } from './window-of-log.ts';

/** The logs of a capture that can be read, each with its last header. */
export async function logsOf(folder: CaptureFolder, { capture_id, sensors }: CaptureRecord): Promise<LogToRead[]> {
  const logs: LogToRead[] = [];
  for (const { sensor_id } of sensors) {
    const file = folder.logFile(capture_id, sensor_id);
    const end = await endOf(file);
    if (end !== null) logs.push({ file, header: end.header });
  }
  return logs;
}

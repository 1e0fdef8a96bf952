import type { CaptureFolder, CaptureRecord } from '../recording/capture-folder.ts';
import { readLogEnd } from '../recording/stream-log.ts';
import type { LogToRead } from '../results/window-of-log.ts';

/** The logs of a capture that can be read, each with its last header. */
export async function logsOf(folder: CaptureFolder, { capture_id, sensors }: CaptureRecord): Promise<LogToRead[]> {
  const logs: LogToRead[] = [];
  for (const { sensor_id } of sensors) {
    const file = folder.logFile(capture_id, sensor_id);
    const read = await readLogEnd(file).catch(() => null);
    if (read !== null) logs.push({ file, header: read.end.header });
  }
  return logs;
}

import { assembleLog, type PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { FaultError, fault, type Where } from '../../../shared/fault.ts';
import type { Notice } from '../../../shared/notice.ts';
import type { CaptureDetail, CaptureSummary } from '../../../shared/schemas/captures.ts';
import { localDate } from '../../../shared/dates.ts';
import { createSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import type { CaptureFolder, CaptureRecord } from '../recording/capture-folder.ts';
import { readLogs, storeWhatIsMissing } from '../results/recover-capture.ts';

/** The captures on disk: what they hold, what can be made of them again, what may go. */
export class CaptureArchive {
  private readonly store: Store;
  private readonly folder: CaptureFolder;

  constructor(store: Store, folder: CaptureFolder) {
    this.store = store;
    this.folder = folder;
  }

  /** Newest first. */
  list(): { items: CaptureSummary[]; problems: Notice[] } {
    const { records, problems } = this.folder.look();
    const items = records
      .filter((record) => record.kind === 'live')
      .sort((a, b) => (a.started_utc < b.started_utc ? 1 : -1))
      .map((record) => this.summary(record));
    return { items, problems };
  }

  /** Reads the logs through. @throws FaultError CAPTURE_NOT_FOUND */
  open(capture_id: string): CaptureDetail {
    const record = this.get(capture_id);
    const logs = this.logs(record).map(({ log }) => log);
    return {
      ...this.summary(record),
      logs: logs.map((log) => {
        const assembler = assembleLog(log);
        const made = assembler.block();
        return {
          sensor_id: log.header.sensor_id,
          description_id: log.header.description.id,
          duration_s: made?.block.time_s.at(-1) ?? 0,
          rate_hz: made?.block.sampling_rate_hz ?? null,
          gaps: made?.block.gaps.length ?? 0,
          damaged_bytes: log.damaged.reduce((sum, part) => sum + part.bytes, 0),
          ...assembler.counts,
        };
      }),
    };
  }

  /** Looks for repetitions again, and stores those that are not in the store. */
  async analyse(capture_id: string): Promise<{ stored: number }> {
    const record = this.withSession(this.get(capture_id));
    this.mustHaveEnded(record);
    const stored = await storeWhatIsMissing(this.store, this.folder, record);
    if (record.unread === true) this.folder.save({ ...record, unread: false });
    return { stored };
  }

  /** One sensor's samples as a file: seconds, m/s2, rad/s. */
  csv(capture_id: string, sensor_id: string): string {
    const log = this.logs(this.get(capture_id)).find(({ log }) => log.header.sensor_id === sensor_id)?.log;
    const made = log === undefined ? null : assembleLog(log).block();
    if (made === null) throw notFound(capture_id, sensor_id);
    const { time_s, acc_mps2, gyr_radps } = made.block;
    const columns = [time_s, acc_mps2.x, acc_mps2.y, acc_mps2.z];
    if (gyr_radps) columns.push(gyr_radps.x, gyr_radps.y, gyr_radps.z);
    const names = ['time_s', 'acc_x_mps2', 'acc_y_mps2', 'acc_z_mps2', 'gyr_x_radps', 'gyr_y_radps', 'gyr_z_radps'];
    const lines = [names.slice(0, columns.length).join(',')];
    for (let i = 0; i < time_s.length; i++) {
      lines.push(columns.map((column) => (Number.isFinite(column[i]) ? String(column[i]) : '')).join(','));
    }
    return `${lines.join('\n')}\n`;
  }

  /** Deletes one sensor's packet log for good. Stored repetitions keep the packets they were cut with. */
  deleteLog(capture_id: string, sensor_id: string): void {
    const record = this.get(capture_id);
    this.mustHaveEnded(record);
    if (!record.sensors.some((sensor) => sensor.sensor_id === sensor_id)) throw notFound(capture_id, sensor_id);
    this.folder.deleteLog(record, sensor_id);
  }

  /** For a replay: the logs as they were captured. */
  forReplay(capture_id: string): { record: CaptureRecord; logs: PacketLog[] } {
    const record = this.get(capture_id);
    return { record, logs: this.logs(record).map(({ log }) => log) };
  }

  /** What was fetched from a sensor's memory gets its session when it is looked through, on the day it was recorded. */
  private withSession(record: CaptureRecord): CaptureRecord {
    if (record.session_id !== null) return record;
    const session_date = localDate(new Date(record.started_utc));
    const { session_id } = createSession(this.store, { session_date, title: "From a sensor's memory" });
    const placed = { ...record, session_id };
    this.folder.save(placed);
    return placed;
  }

  private get(capture_id: string): CaptureRecord {
    const record = this.folder.all().find((one) => one.capture_id === capture_id);
    if (record === undefined) throw notFound(capture_id);
    return record;
  }

  private logs(record: CaptureRecord) {
    return readLogs(this.folder, record);
  }

  private mustHaveEnded(record: CaptureRecord): void {
    if (record.state === 'ended') return;
    throw new FaultError(
      fault('CAPTURE_STATE.still_running', { capture_id: record.capture_id }, { capture_id: record.capture_id }),
    );
  }

  private summary(record: CaptureRecord): CaptureSummary {
    const { capture_id, started_utc, state, session_id, sensors, pending = [] } = record;
    return {
      capture_id,
      started_utc,
      state,
      session_id,
      waiting_repetitions: pending.length,
      sensors: sensors.map(({ sensor_id, place }) => ({
        sensor_id,
        name: place.name ?? sensor_id,
        side: place.side ?? 'unknown',
        mounting: place.mounting ?? 'foot',
        athlete_id: place.athlete_id ?? null,
        bytes: this.folder.logBytes(capture_id, sensor_id) ?? 0,
      })),
    };
  }
}

function notFound(capture_id: string, sensor_id: string | null = null): FaultError {
  const where: Where = sensor_id === null ? { capture_id } : { capture_id, sensor_id };
  return new FaultError(fault('CAPTURE_NOT_FOUND', { capture_id, sensor_id }, where));
}

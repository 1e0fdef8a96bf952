import type { PlayedLog } from '../../../ingest/ble/sources/replay-source.ts';
import { FaultError, fault, type Where } from '../../../shared/fault.ts';
import type { Notice } from '../../../shared/notice.ts';
import type { CaptureDetail, CaptureSummary } from '../../../shared/schemas/captures.ts';
import { localDate } from '../../../shared/dates.ts';
import { createSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import type { CaptureFolder, CaptureRecord } from '../recording/capture-folder.ts';
import { recordsOf } from '../recording/stream-log.ts';
import { storeWhatIsMissing } from '../results/recover-capture.ts';
import { logsOf } from '../results/logs-of-capture.ts';
import { samplesCsv, summarise } from './log-content.ts';

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
  async open(capture_id: string): Promise<CaptureDetail> {
    const record = this.get(capture_id);
    const logs: CaptureDetail['logs'] = [];
    for (const log of await logsOf(this.folder, record)) logs.push(await summarise(log));
    return { ...this.summary(record), logs };
  }

  /** Looks for repetitions again, and stores those that are not in the store. */
  async analyse(capture_id: string): Promise<{ stored: number }> {
    const record = this.withSession(this.get(capture_id));
    this.mustHaveEnded(record);
    const stored = await storeWhatIsMissing(this.store, this.folder, record);
    if (record.unread === true) this.folder.change(capture_id, { unread: false });
    return { stored };
  }

  /** One sensor's samples as a file, a part at a time. @throws FaultError CAPTURE_NOT_FOUND */
  async csv(capture_id: string, sensor_id: string): Promise<AsyncGenerator<string>> {
    const log = (await logsOf(this.folder, this.get(capture_id), [sensor_id])).at(0);
    if (log === undefined) throw notFound(capture_id, sensor_id);
    return samplesCsv(log);
  }

  /** Deletes one sensor's packet log for good. Stored repetitions keep the packets they were cut with. */
  deleteLog(capture_id: string, sensor_id: string): void {
    const record = this.get(capture_id);
    this.mustHaveEnded(record);
    if (!record.sensors.some((sensor) => sensor.sensor_id === sensor_id)) throw notFound(capture_id, sensor_id);
    this.folder.deleteLog(record, sensor_id);
  }

  /** For a replay: the logs as they were captured, read while they are played. @throws FaultError CAPTURE_NOT_FOUND */
  async forReplay(capture_id: string): Promise<{ record: CaptureRecord; logs: PlayedLog[] }> {
    const record = this.get(capture_id);
    const logs = await logsOf(this.folder, record);
    return {
      record,
      logs: logs.map(({ file, header }) => ({ header, records: { [Symbol.iterator]: () => recordsOf(file) } })),
    };
  }

  /**
   * What was fetched from a sensor's memory gets its session when it is looked through: the one of the day it was recorded in which its
   * athlete ran, else a new one.
   */
  private withSession(record: CaptureRecord): CaptureRecord {
    if (record.session_id !== null) return record;
    const session_date = localDate(new Date(record.started_utc));
    const athlete_ids = record.sensors.map(({ place }) => place.athlete_id);
    const session_id =
      latestSessionOf(this.store, session_date, athlete_ids) ??
      createSession(this.store, { session_date, title: "From a sensor's memory" }).session_id;
    this.folder.change(record.capture_id, { session_id });
    return { ...record, session_id };
  }

  private get(capture_id: string): CaptureRecord {
    const record = this.folder.all().find((one) => one.capture_id === capture_id);
    if (record === undefined) throw notFound(capture_id);
    return record;
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
      from_memory: record.recordings !== undefined,
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

function latestSessionOf(store: Store, session_date: string, athlete_ids: (number | null)[]): number | null {
  const runs = store.prepare(
    `SELECT max(session_id) AS session_id FROM repetitions JOIN sessions USING (session_id)
      WHERE session_date = ? AND repetitions.athlete_id = ? AND repetitions.deleted_utc IS NULL AND sessions.deleted_utc IS NULL`,
  );
  for (const athlete_id of athlete_ids) {
    const { session_id } = runs.get(session_date, athlete_id) as { session_id: number | null };
    if (session_id !== null) return session_id;
  }
  return null;
}

function notFound(capture_id: string, sensor_id: string | null = null): FaultError {
  const where: Where = sensor_id === null ? { capture_id } : { capture_id, sensor_id };
  return new FaultError(fault('CAPTURE_NOT_FOUND', { capture_id, sensor_id }, where));
}

import { errorNotice } from '../../error-words.ts';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Notice, notice } from '../../../shared/notice.ts';
import type { SensorPlace } from '../../../shared/schemas/capture.ts';
import { nowUtc, type Store } from '../../store/store.ts';

/** Up to when a sensor's repetitions are in the store already: they must not be found again. */
export interface HandledSpan {
  sensor_id: string;
  /** Host time of the last stored repetition's last toe-off. */
  end_s: number;
}

export interface CaptureSensor {
  sensor_id: string;
  place: SensorPlace;
  /** Everybody who wore it in this capture. */
  athlete_ids: number[];
}

/** A repetition that was measured but could not be stored: tried again until it is. Times are the host's. */
export interface PendingRepetition {
  athlete_id: number;
  session_id: number;
  sensor_ids: string[];
  start_s: number;
  end_s: number;
  /** What is cut out of the logs. */
  from_s: number;
  to_s: number;
}

/** What a capture's folder says about it. Its packets are beside it, one log a sensor. */
export interface CaptureRecord {
  format: 'capture/1';
  capture_id: string;
  kind: 'live' | 'replay';
  started_utc: string;
  session_id: number | null;
  state: 'running' | 'ended';
  sensors: CaptureSensor[];
  handled: HandledSpan[];
  /** Absent: nothing waits to be stored. */
  pending?: PendingRepetition[];
  /** Of what was fetched from sensors' memories: which recordings are in it. */
  recordings?: FetchedRecording[];
  /** True while a fetched recording has not been looked through. */
  unread?: boolean;
}

/** A recording in a sensor's memory, as a capture keeps it. */
export interface FetchedRecording {
  sensor_id: string;
  /** The same for the same recording. */
  key: string;
  /** UTC seconds; null where the sensor did not know. */
  start_s: number | null;
  duration_s: number;
}

/** Host time up to which nothing of these sensors needs to be looked at; -Infinity when nothing was stored. */
export function handledUntil(record: CaptureRecord, sensor_ids: string[]): number {
  const spans = record.handled.filter((span) => sensor_ids.includes(span.sensor_id));
  return Math.max(Number.NEGATIVE_INFINITY, ...spans.map((span) => span.end_s));
}

/** Captures lie beside the database; those of a passing database pass with it. */
export function captureDataFolder(store: Store): string {
  return store.file === ':memory:' ? join(tmpdir(), `cinderlane-${process.pid}`) : store.folder;
}

/** A folder with one sub-folder a capture: `capture.json` and a packet log for each sensor. */
export class CaptureFolder {
  readonly folder: string;

  /** @param read_only true: nothing is made; a folder that is not there is one without captures */
  constructor(folder: string, read_only = false) {
    this.folder = folder;
    if (!read_only) mkdirSync(folder, { recursive: true });
  }

  /** Writes the record so that after a power cut either the old or the new one is there. */
  save(record: CaptureRecord): void {
    const folder = join(this.folder, record.capture_id);
    mkdirSync(folder, { recursive: true });
    const file = join(folder, 'capture.json');
    const fd = openSync(`${file}.new`, 'w');
    writeSync(fd, JSON.stringify(record, null, 2));
    fsyncSync(fd);
    closeSync(fd);
    renameSync(`${file}.new`, file);
    const directory = openSync(folder, 'r');
    fsyncSync(directory);
    closeSync(directory);
  }

  /**
   * Changes what a capture's record says, as it stands on disk now: a person may have been erased from it since it was read, or the whole
   * capture. What is gone is not made again.
   */
  change(capture_id: string, change: Partial<CaptureRecord>): void {
    const record = this.all().find((one) => one.capture_id === capture_id);
    if (record !== undefined) this.save({ ...record, ...change });
  }

  /** Makes a capture's folder, for a log that is to be whole before the record names it. */
  make(capture_id: string): void {
    mkdirSync(join(this.folder, capture_id), { recursive: true });
  }

  /** Takes a capture away whose logs lie in another one now. */
  removeJoined(record: CaptureRecord): void {
    this.remove(record);
  }

  logFile(capture_id: string, sensor_id: string): string {
    return join(this.folder, capture_id, `${sensor_id.replace(/[^A-Za-z0-9]+/g, '-')}.packets`);
  }

  /** Those that can be read; a damaged one stands in nobody's way. */
  all(): CaptureRecord[] {
    return this.look().records;
  }

  /** All captures, and what is wrong with those that cannot be read. Their packets stay where they are. */
  look(): { records: CaptureRecord[]; problems: Notice[] } {
    const records: CaptureRecord[] = [];
    const problems: Notice[] = [];
    for (const name of existsSync(this.folder) ? readdirSync(this.folder) : []) {
      const file = join(this.folder, name, 'capture.json');
      if (!existsSync(file)) continue;
      try {
        records.push(readRecord(file));
      } catch (error) {
        const folder = join(this.folder, name);
        problems.push(notice('capture_unreadable', { capture_id: name, folder, why: whyUnreadable(error) }));
      }
    }
    return { records, problems };
  }

  /** Size of a sensor's packet log; null where there is none. */
  logBytes(capture_id: string, sensor_id: string): number | null {
    const file = this.logFile(capture_id, sensor_id);
    return existsSync(file) ? statSync(file).size : null;
  }

  /** Deletes a sensor's packet log for good; the capture goes with its last one. */
  deleteLog(record: CaptureRecord, sensor_id: string): void {
    rmSync(this.logFile(record.capture_id, sensor_id), { force: true });
    this.saveWithout(record, [sensor_id]);
  }

  /** Captures that were running when the program stopped. */
  interrupted(): CaptureRecord[] {
    return this.all().filter((record) => record.state === 'running');
  }

  /** Erases for good what a person's sensors sent. */
  erasePerson(athlete_id: number): void {
    for (const record of this.all()) {
      const theirs = record.sensors.filter((sensor) => sensor.athlete_ids.includes(athlete_id));
      if (theirs.length === 0) continue;
      for (const { sensor_id } of theirs) rmSync(this.logFile(record.capture_id, sensor_id), { force: true });
      this.saveWithout(
        record,
        theirs.map((sensor) => sensor.sensor_id),
      );
    }
  }

  private saveWithout(record: CaptureRecord, sensor_ids: string[]): void {
    const sensors = record.sensors.filter((sensor) => !sensor_ids.includes(sensor.sensor_id));
    const pending = record.pending?.filter((one) => !one.sensor_ids.some((id) => sensor_ids.includes(id)));
    if (sensors.length > 0) this.save({ ...record, sensors, pending });
    else this.remove(record);
  }

  /** Takes a replay's copy away; a live capture is never deleted by the program. */
  removeReplay(record: CaptureRecord): void {
    if (record.kind === 'replay') this.remove(record);
  }

  private remove({ capture_id }: CaptureRecord): void {
    rmSync(join(this.folder, capture_id), { recursive: true, force: true });
  }
}

class BadRecord extends Error {
  readonly why: Notice;

  constructor(why: Notice) {
    super('a capture.json that is none');
    this.why = why;
  }
}

function whyUnreadable(error: unknown): Notice {
  return error instanceof BadRecord ? error.why : errorNotice(error);
}

/** @throws BadRecord saying what a capture.json lacks */
function readRecord(file: string): CaptureRecord {
  const record = JSON.parse(readFileSync(file, 'utf8')) as Partial<CaptureRecord> | null;
  if (record?.format !== 'capture/1') throw new BadRecord(notice('record_of_other_form'));
  const whole = typeof record.capture_id === 'string' && Array.isArray(record.sensors) && Array.isArray(record.handled);
  if (!whole || record.sensors!.some((sensor) => typeof sensor?.sensor_id !== 'string' || !sensor.place)) {
    throw new BadRecord(notice('record_lacks_fields'));
  }
  return record as CaptureRecord;
}

/** A capture that begins now. */
export function newRecord(
  kind: CaptureRecord['kind'],
  session_id: number,
  sensors: CaptureRecord['sensors'],
): CaptureRecord {
  const started_utc = nowUtc();
  return {
    format: 'capture/1',
    // To the millisecond, and a replay apart from a recording: no two captures may ever share a folder.
    capture_id: `${started_utc.replace(/[-:.]/g, '')}${kind === 'replay' ? '-replay' : ''}`,
    kind,
    started_utc,
    session_id,
    state: 'running',
    sensors,
    handled: [],
  };
}

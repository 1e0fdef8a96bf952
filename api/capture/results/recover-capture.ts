import { existsSync, readFileSync } from 'node:fs';
import { alignStreams } from '../../../ingest/ble/assembly/align-streams.ts';
import { analyse } from '../../../dsp/analyse.ts';
import { assembleLog, type PacketLog, readPacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { encodeRecord, type PacketRecord } from '../../../shared/packet-record.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SensorPlace } from '../../../shared/schemas/capture.ts';
import type { Store } from '../../store/store.ts';
import { type CaptureFolder, type CaptureRecord, handledUntil } from '../recording/capture-folder.ts';
import { bootId } from '../recording/capture-run.ts';
import { groupSensors } from './sensor-groups.ts';
import { measureLiveRepetition, storeLiveRepetition } from './store-repetition.ts';

export interface Recovered {
  /** When the last record was written. */
  last_utc: string;
  away_s: number;
  /** True when the capture lies so short a time back, with the machine running all along, that it can simply go on. */
  resume: boolean;
  /** Repetitions found that were not in the store, and are now. */
  repetitions: number;
}

/**
 * Reads the logs of a capture that was running when the program stopped. Where it lies too far back to be resumed, every
 * repetition in it that had not been stored is stored now.
 */
export async function recoverCapture(
  store: Store,
  folder: CaptureFolder,
  record: CaptureRecord,
  resume_s: number,
): Promise<Recovered> {
  const logs = readLogs(folder, record);
  const last_ms = Math.max(Date.parse(record.started_utc), ...logs.map(({ log }) => lastUtc(log)));
  const last_utc = new Date(last_ms).toISOString();
  const away_s = (Date.now() - last_ms) / 1000;
  const resume = away_s < resume_s && logs.every(({ log }) => lastBoot(log) === bootId());
  if (resume) return { last_utc, away_s, resume, repetitions: 0 };
  return { last_utc, away_s, resume, repetitions: await storeWhatIsMissing(store, record, logs) };
}

/** Stores every repetition of a capture that is not in the store yet. @returns how many there were */
export async function storeWhatIsMissing(
  store: Store,
  record: CaptureRecord,
  logs: { place: SensorPlace; log: PacketLog }[],
): Promise<number> {
  let repetitions = 0;
  for (const athlete_id of new Set(logs.map(({ place }) => place.athlete_id))) {
    if (athlete_id === null || record.session_id === null) continue;
    const own = logs.filter(({ place }) => place.athlete_id === athlete_id).map(({ log }) => log);
    const [group] = groupSensors(own, ({ header }) => ({ ...header, athlete_id })).groups;
    repetitions += await storeMissed(store, record, record.session_id, athlete_id, group.sensors);
  }
  return repetitions;
}

/** The logs of a capture that can be read. */
export function readLogs(folder: CaptureFolder, record: CaptureRecord): { place: SensorPlace; log: PacketLog }[] {
  return record.sensors.flatMap(({ sensor_id, place }) => {
    const file = folder.logFile(record.capture_id, sensor_id);
    if (!existsSync(file)) return [];
    try {
      return [{ place, log: readPacketLog(file, readFileSync(file)) }];
    } catch {
      return [];
    }
  });
}

async function storeMissed(
  store: Store,
  record: CaptureRecord,
  session_id: number,
  athlete_id: number,
  logs: PacketLog[],
): Promise<number> {
  const aligned = alignStreams(logs.map((log) => ({ ...log.header, assembler: assembleLog(log) })));
  if (aligned === null) return 0;
  const analysis = analyse({ sensors: aligned.sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
  const handled_s = handledUntil(
    record,
    logs.map((log) => log.header.sensor_id),
  );
  let stored = 0;
  for (const repetition of analysis.repetitions) {
    const start_s = aligned.zero_s + repetition.start_s;
    const end_s = aligned.zero_s + repetition.end_s;
    if (start_s <= handled_s) continue;
    const excerpts = logs.map((log) => ({
      file_name: `${record.capture_id}-${log.header.side}.packets`,
      bytes: cutLog(log, Math.max(handled_s, start_s - 6), end_s + 1.4),
    }));
    const live = { athlete_id, session_id, excerpts, start_s, end_s };
    const measured = measureLiveRepetition(store, live);
    if (measured === null) continue;
    await storeLiveRepetition(store, live, measured);
    stored++;
  }
  return stored;
}

export function cutLog(log: PacketLog, from_s: number, to_s: number): Uint8Array {
  const wanted = log.records.filter(
    (record) =>
      record.kind === 'header' ||
      (record.kind === 'event' && record.event.event === 'clock') ||
      (record.arrival_s >= from_s && record.arrival_s <= to_s),
  );
  return Buffer.concat(wanted.map(encodeRecord));
}

function lastBoot(log: PacketLog): string {
  let boot_id = '';
  for (const record of log.records) {
    if (record.kind === 'event' && record.event.event === 'clock') boot_id = record.event.boot_id;
  }
  return boot_id;
}

/** UTC milliseconds of the last record, by the latest reading of both clocks before it. */
function lastUtc(log: PacketLog): number {
  let zero_ms = 0;
  let last: PacketRecord = log.records[0];
  for (const record of log.records) {
    if (record.kind === 'event' && record.event.event === 'clock') {
      zero_ms = record.event.utc_ms - record.event.monotonic_s * 1000;
    }
    last = record;
  }
  return zero_ms + last.arrival_s * 1000;
}

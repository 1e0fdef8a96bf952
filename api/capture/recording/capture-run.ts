import { existsSync, readFileSync, statSync } from 'node:fs';
import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import type { PacketRecord } from '../../../shared/packet-record.ts';
import type { PacketSource } from '../../../ingest/ble/sources/packet-source.ts';
import { type PacketLog, readPacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import type { Notice } from '../../../shared/notice.ts';
import type { SensorPlace } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import type { Excerpt } from './excerpt.ts';
import type { CaptureFolder, CaptureRecord, PendingRepetition } from './capture-folder.ts';
import { PacketLogWriter } from './packet-log-writer.ts';
import { SensorSession } from './sensor-session.ts';

export interface RunParts {
  folder: CaptureFolder;
  record: CaptureRecord;
  describe: (id: string, sensor_id: string) => StreamDescription;
  sourceOf: (sensor_id: string) => PacketSource;
  say: (what: Notice) => void;
  /** Ends of logs that go on, by file, where they were read already. */
  tails?: Map<string, PacketLog>;
}

/** A capture while it runs: its folder, one log and one session a sensor. */
export class CaptureRun {
  readonly record: CaptureRecord;
  readonly sessions: SensorSession[] = [];
  readonly started_s = hostTime();
  /** Host time at which the coach pressed start; null when not pressed. */
  marked_s: number | null = null;
  private readonly parts: RunParts;
  private readonly clock: PacketRecord = clockReading();

  /** Opens (or, after a stop of the program, opens again) the logs and starts to connect. */
  constructor(parts: RunParts) {
    this.parts = parts;
    this.record = parts.record;
    parts.folder.save(this.record);
    for (const { sensor_id, place } of this.record.sensors) this.add(sensor_id, place);
    for (const session of this.sessions) session.start();
  }

  /** Cuts a stretch of host time out of the given sensors' logs. */
  excerpts(sessions: SensorSession[], from_s: number, to_s: number): Excerpt[] {
    return sessions.map((session) => ({
      file_name: `${this.record.capture_id}-${session.place.side}.packets`,
      bytes: session.recent.excerpt(session.header, this.clock, from_s, to_s),
    }));
  }

  /** Gives a sensor another side, mounting or athlete without ending the recording. */
  setPlace(sensor_id: string, place: SensorPlace): void {
    const session = this.sessions.find((candidate) => candidate.sensor_id === sensor_id);
    if (session === undefined) return;
    session.setPlace(place);
    this.record.sensors = this.record.sensors.map((entry) => {
      if (entry.sensor_id !== sensor_id) return entry;
      const athlete_ids = new Set([...entry.athlete_ids, ...wearers(session.place)]);
      return { sensor_id, place: session.place, athlete_ids: [...athlete_ids] };
    });
    this.parts.folder.save(this.record);
  }

  /** Notes that everything of these sensors up to this host time is in the store. */
  handled(sensor_ids: string[], end_s: number): void {
    const others = this.record.handled.filter((span) => !sensor_ids.includes(span.sensor_id));
    this.record.handled = [...others, ...sensor_ids.map((sensor_id) => ({ sensor_id, end_s }))];
    try {
      this.parts.folder.save(this.record);
    } catch {
      // A full disk is told by the logs; the record is written again with the next change.
    }
  }

  /** Notes that a repetition could not be stored, on disk too where that is possible. */
  pend(pending: PendingRepetition): void {
    this.record.pending = [...(this.record.pending ?? []), pending];
    this.handled(pending.sensor_ids, pending.end_s);
  }

  /** Drops the links; the logs stay open. */
  async stopSensors(): Promise<void> {
    await Promise.all(this.sessions.map((session) => session.stop()));
  }

  /** Packets that wait in memory because the disk does not take them. */
  get waiting_packets(): number {
    return this.sessions.reduce((sum, session) => sum + session.log.waiting_records, 0);
  }

  /**
   * Closes the logs once everything is on disk.
   * @param discard true gives up what waits
   * @returns false while something waits
   */
  finish(discard = false): boolean {
    const flushed = this.sessions.map((session) => session.log.flush()).every(Boolean);
    if (!flushed && !discard) return false;
    for (const session of this.sessions) session.log.close();
    this.record.state = 'ended';
    try {
      this.parts.folder.save(this.record);
    } catch {
      // At the next start it is taken for one that was interrupted, and is ended then.
    }
    this.parts.folder.removeReplay(this.record);
    return true;
  }

  private add(sensor_id: string, place: SensorPlace): void {
    const { folder, record, describe, sourceOf, say } = this.parts;
    const description = describe(place.description_id, sensor_id);
    const file = folder.logFile(record.capture_id, sensor_id);
    const earlier = this.parts.tails?.get(file) ?? readEarlier(file);
    const log = new PacketLogWriter(file, earlier?.good_bytes ?? (existsSync(file) ? 0 : undefined));
    const session = new SensorSession({ sensor_id, place, description, source: sourceOf(sensor_id), log, say });
    if (earlier === null) log.append({ kind: 'header', arrival_s: hostTime(), header: session.header });
    else session.prefill(earlier);
    log.append(this.clock);
    this.sessions.push(session);
  }
}

/** The athlete of a place, as a list. */
export function wearers({ athlete_id }: SensorPlace): number[] {
  return athlete_id === null ? [] : [athlete_id];
}

function readEarlier(file: string): PacketLog | null {
  if (!existsSync(file) || statSync(file).size === 0) return null;
  try {
    return readPacketLog(file, readFileSync(file));
  } catch {
    return null;
  }
}

/** Both clocks of the host read together. */
export function clockReading(): PacketRecord {
  const monotonic_s = hostTime();
  return {
    kind: 'event',
    arrival_s: monotonic_s,
    event: { event: 'clock', utc_ms: Date.now(), monotonic_s, boot_id: bootId() },
  };
}

/** Changes at every start of the machine; empty where the system has none. */
export function bootId(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
  } catch {
    return '';
  }
}

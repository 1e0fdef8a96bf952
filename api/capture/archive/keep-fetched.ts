import { createPacketDecoder } from '../../../ingest/ble/packets/decode-packet.ts';
import { packetsOfRecording, type SensorRecordingEntry } from '../../../ingest/ble/sources/recording-store.ts';
import type { PacketRecord } from '../../../shared/packet-record.ts';
import type { SensorPlace } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import type { CaptureFolder, CaptureRecord } from '../recording/capture-folder.ts';
import { wearers } from '../recording/capture-run.ts';
import { writeLog } from '../recording/write-log.ts';

export interface Fetched {
  sensor_id: string;
  place: SensorPlace;
  description: StreamDescription;
  entry: SensorRecordingEntry;
  bytes: Uint8Array;
}

/** The same recording is always the same capture. */
export function fetchedId(sensor_id: string, { id, start_unix_s }: SensorRecordingEntry): string {
  return `fetched-${sensor_id.replace(/[^A-Za-z0-9]+/g, '')}-${id}-${start_unix_s}`;
}

/**
 * Keeps a recording that was fetched from a sensor's memory as a capture: from then on it is as any other, but that nobody has looked
 * through it yet. Its packets arrive as fast as they were sampled. The log is on disk before the record names it.
 * @returns its record, the same for the same recording
 */
export function keepFetched(folder: CaptureFolder, fetched: Fetched, now_ms: number): CaptureRecord {
  const { sensor_id, place, entry } = fetched;
  const start_s = entry.start_unix_s > 0 ? entry.start_unix_s : null;
  const start_ms = start_s === null ? now_ms : start_s * 1000;
  const capture_id = fetchedId(sensor_id, entry);
  const { records, duration_s } = logOf(fetched, start_ms);
  folder.make(capture_id);
  writeLog(folder.logFile(capture_id, sensor_id), records);
  const record: CaptureRecord = {
    format: 'capture/1',
    capture_id,
    kind: 'live',
    started_utc: new Date(start_ms).toISOString(),
    session_id: null,
    state: 'ended',
    sensors: [{ sensor_id, place, athlete_ids: wearers(place) }],
    handled: [],
    recordings: [{ sensor_id, key: capture_id, start_s, duration_s }],
    unread: true,
  };
  folder.save(record);
  return record;
}

function logOf(
  { sensor_id, place, description, bytes }: Fetched,
  utc_ms: number,
): { records: PacketRecord[]; duration_s: number } {
  const { side, mounting, settings, name: sensor_name } = place;
  const header = { format: 'packet-log/1' as const, sensor_id, sensor_name, side, mounting, description, settings };
  const clock = { event: 'clock' as const, utc_ms, monotonic_s: 0, boot_id: 'sensor' };
  const decoder = createPacketDecoder(description, settings);
  let samples = 0;
  const packets = packetsOfRecording(bytes).map((packet): PacketRecord => {
    try {
      samples += decoder.decode(packet).samples;
    } catch {
      // An unreadable packet is kept as it came.
    }
    return { kind: 'packet', arrival_s: samples / settings.rate_hz, bytes: packet };
  });
  const records: PacketRecord[] = [
    { kind: 'header', arrival_s: 0, header },
    { kind: 'event', arrival_s: 0, event: clock },
    ...packets,
  ];
  return { records, duration_s: samples / settings.rate_hz };
}

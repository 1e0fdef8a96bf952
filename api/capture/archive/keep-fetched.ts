import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';
import { createPacketDecoder } from '../../../ingest/ble/packets/decode-packet.ts';
import { packetsOfRecording, type SensorRecordingEntry } from '../../../ingest/ble/sources/recording-store.ts';
import { encodeRecord, type PacketRecord } from '../../../shared/packet-record.ts';
import type { SensorPlace } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import type { CaptureFolder, CaptureRecord } from '../recording/capture-folder.ts';

export interface Fetched {
  sensor_id: string;
  place: SensorPlace;
  description: StreamDescription;
  entry: SensorRecordingEntry;
  bytes: Uint8Array;
  session_id: number;
}

/** The same recording is always the same capture. */
export function fetchedId(sensor_id: string, { id, start_unix_s }: SensorRecordingEntry): string {
  return `fetched-${sensor_id.replace(/[^A-Za-z0-9]+/g, '')}-${id}-${start_unix_s}`;
}

/**
 * Keeps a recording that was fetched from a sensor's memory as a capture: from then on it is as any other. Its packets arrive
 * as fast as they were sampled.
 * @returns the capture's identifier, the same for the same recording
 */
export function keepFetched(folder: CaptureFolder, fetched: Fetched, now_ms: number): string {
  const { sensor_id, place, description, entry, bytes, session_id } = fetched;
  const start_ms = entry.start_unix_s > 0 ? entry.start_unix_s * 1000 : now_ms;
  const capture_id = fetchedId(sensor_id, entry);
  const athlete_ids = place.athlete_id === null ? [] : [place.athlete_id];
  const record: CaptureRecord = {
    format: 'capture/1',
    capture_id,
    kind: 'live',
    started_utc: new Date(start_ms).toISOString(),
    session_id,
    state: 'ended',
    sensors: [{ sensor_id, place, athlete_ids }],
    handled: [],
  };
  folder.save(record);
  const { side, mounting, settings, name: sensor_name } = place;
  const header = { format: 'packet-log/1' as const, sensor_id, sensor_name, side, mounting, description, settings };
  const clock = { event: 'clock' as const, utc_ms: start_ms, monotonic_s: 0, boot_id: 'sensor' };
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
  const file = openSync(folder.logFile(capture_id, sensor_id), 'w');
  writeSync(file, Buffer.concat(records.map(encodeRecord)));
  fsyncSync(file);
  closeSync(file);
  return capture_id;
}

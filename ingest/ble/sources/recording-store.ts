import { crc32 } from '../../../shared/crc32.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { RecordingsOnSensor, StreamDescription } from '../../../shared/schemas/stream-description.ts';
import type { GattConnection } from './gatt-radio.ts';
import { noAnswer } from './radio-faults.ts';
import { within } from './within.ts';

const ANSWER_S = 5;
/** Silence in the middle of a recording after which the missing rest is asked for again, milliseconds. */
const SILENCE_MS = 1500;
/** Blocks of an earlier request that may come after a new one. */
const OUT_OF_STEP = 64;
/** So often without one new byte, and it is given up. */
const FRUITLESS_TRIES = 5;
/** So often a question is put whose answer does not come. */
const ASKED = 3;

/** A recording in a sensor's own memory. */
export interface SensorRecordingEntry {
  id: number;
  bytes: number;
  packets: number;
  /** UTC seconds since 1970; 0 where the sensor does not know. */
  start_unix_s: number;
}

/** What has come of a recording so far; kept over broken links, so that a fetch goes on where it stopped. */
export interface FetchedPart {
  bytes: Uint8Array;
  /** Bytes from the beginning that are there and right. */
  have: number;
}

export interface RecordingStore {
  list(): Promise<SensorRecordingEntry[]>;
  /**
   * Fetches what is missing.
   * @param part grows as blocks come, also when the fetch breaks off
   * @returns the recording, whole and checked
   * @throws FaultError SENSOR_UNREACHABLE, SENSOR_RECORDING_DAMAGED
   */
  fetch(entry: SensorRecordingEntry, part: FetchedPart, progress?: (have: number) => void): Promise<Uint8Array>;
  clear(id: number): Promise<void>;
  close(): Promise<void>;
}

/** The memory of a connected sensor, by the protocol in shared/schemas/recordings-on-sensor.ts. */
export async function openRecordingStore(
  connection: GattConnection,
  sensor_id: string,
  description: StreamDescription,
): Promise<RecordingStore> {
  const layout = description.recordings;
  if (layout === undefined) {
    throw new FaultError(
      fault(
        'SENSOR_NOT_AS_DESCRIBED.no_memory',
        { description_id: description.id },
        { sensor_id, description_id: description.id },
      ),
    );
  }
  const store = new Store(connection, sensor_id, layout, layout.service_uuid ?? description.service_uuid);
  await store.listen();
  return store;
}

class Store implements RecordingStore {
  private readonly connection: GattConnection;
  private readonly sensor_id: string;
  private readonly layout: RecordingsOnSensor;
  private readonly service_uuid: string;
  private heard: (bytes: Uint8Array, view: DataView) => void = () => {};

  constructor(connection: GattConnection, sensor_id: string, layout: RecordingsOnSensor, service_uuid: string) {
    this.connection = connection;
    this.sensor_id = sensor_id;
    this.layout = layout;
    this.service_uuid = service_uuid;
  }

  listen(): Promise<void> {
    return this.connection.subscribe(this.service_uuid, this.layout.data_characteristic_uuid, (bytes) => {
      if (bytes.length > 0) this.heard(bytes, new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength));
    });
  }

  /** Asked again where an answer is lost on the way: a list changes nothing. */
  async list(): Promise<SensorRecordingEntry[]> {
    for (let tries = 1; ; tries++) {
      try {
        return await this.listOnce();
      } catch (error) {
        if (tries === ASKED || !(error instanceof FaultError)) throw error;
      }
    }
  }

  private async listOnce(): Promise<SensorRecordingEntry[]> {
    const { op_list, op_entry } = this.layout;
    const entries: SensorRecordingEntry[] = [];
    let expected: number | null = null;
    await this.ask(Uint8Array.of(op_list), (bytes, view) => {
      if (bytes[0] === op_list && bytes.length >= 2) expected = bytes[1];
      if (bytes[0] === op_entry && bytes.length >= 15) {
        entries.push({
          id: view.getUint16(1, true),
          bytes: view.getUint32(3, true),
          packets: view.getUint32(7, true),
          start_unix_s: view.getUint32(11, true),
        });
      }
      return expected !== null && entries.length >= expected;
    });
    return entries;
  }

  async fetch(entry: SensorRecordingEntry, part: FetchedPart, progress?: (have: number) => void): Promise<Uint8Array> {
    if (part.bytes.length !== entry.bytes) Object.assign(part, { bytes: new Uint8Array(entry.bytes), have: 0 });
    for (let fruitless = 0; fruitless < FRUITLESS_TRIES; ) {
      const before = part.have;
      const checksum = await this.fetchFrom(entry, part, progress);
      if (part.have === entry.bytes && checksum !== null) {
        if (crc32(part.bytes) === checksum) return part.bytes;
        // Every block was right, and yet not the whole: begin again.
        part.have = 0;
        fruitless++;
      } else fruitless = part.have > before ? 0 : fruitless + 1;
    }
    throw new FaultError(
      fault(
        'SENSOR_RECORDING_DAMAGED.incomplete',
        {
          sensor_id: this.sensor_id,
          recording: entry.id,
          have: part.have,
          bytes: entry.bytes,
          tries: FRUITLESS_TRIES,
        },
        { sensor_id: this.sensor_id, recording: entry.id },
      ),
    );
  }

  async clear(id: number): Promise<void> {
    let answer = 0;
    const { op_clear } = this.layout;
    try {
      await this.ask(withId(op_clear, id), (bytes) => {
        answer = bytes[1] ?? 0;
        return bytes[0] === op_clear;
      });
    } catch (error) {
      // The answer may be lost though it was done: the list tells.
      if (!(error instanceof FaultError) || (await this.list()).some((entry) => entry.id === id)) throw error;
    }
    if (answer === 0) return;
    throw new FaultError(
      fault(
        'SENSOR_RECORDING_DAMAGED.not_cleared',
        { sensor_id: this.sensor_id, recording: id, answer },
        { sensor_id: this.sensor_id, recording: id },
      ),
    );
  }

  close(): Promise<void> {
    return this.connection.disconnect();
  }

  /** One request for all that is missing. @returns the checksum told at the end, or null when it broke off */
  private fetchFrom(
    entry: SensorRecordingEntry,
    part: FetchedPart,
    progress?: (have: number) => void,
  ): Promise<number | null> {
    const { op_fetch, op_block, op_end } = this.layout;
    const request = new Uint8Array(7);
    request.set(withId(op_fetch, entry.id));
    new DataView(request.buffer).setUint32(3, part.have, true);
    return new Promise((resolve, reject) => {
      let timer = setTimeout(() => done(null), SILENCE_MS);
      let in_step = false;
      let out_of_step = 0;
      const done = (checksum: number | null) => {
        clearTimeout(timer);
        this.heard = () => {};
        resolve(checksum);
      };
      this.heard = (bytes, view) => {
        clearTimeout(timer);
        timer = setTimeout(() => done(null), SILENCE_MS);
        if (bytes[0] === op_end && bytes.length >= 11 && view.getUint16(1, true) === entry.id) {
          done(view.getUint32(7, true));
        }
        if (bytes[0] !== op_block || bytes.length < 9) return;
        const end = bytes.length - 4;
        const offset = view.getUint32(1, true);
        const right = crc32(bytes.subarray(1, end)) === view.getUint32(end, true);
        // Blocks of an earlier request may still be on their way: the first one asked for comes before any is missed.
        in_step ||= right && offset <= part.have;
        if (!right || offset > part.have) {
          if (in_step || ++out_of_step > OUT_OF_STEP) done(null);
          return;
        }
        part.bytes.set(bytes.subarray(5, Math.min(end, 5 + part.bytes.length - offset)), offset);
        part.have = Math.max(part.have, Math.min(part.bytes.length, offset + end - 5));
        progress?.(part.have);
      };
      this.write(request).catch((error) => {
        clearTimeout(timer);
        this.heard = () => {};
        reject(error);
      });
    });
  }

  /** @param complete returns true when the answer is whole */
  private async ask(request: Uint8Array, complete: (bytes: Uint8Array, view: DataView) => boolean): Promise<void> {
    let came = () => {};
    const coming = new Promise<void>((resolve) => {
      came = resolve;
    });
    this.heard = (bytes, view) => {
      if (complete(bytes, view)) came();
    };
    await this.write(request);
    await within(coming, ANSWER_S * 1000, 'answer').catch(() => {
      throw noAnswer(this.sensor_id, request.subarray(0, 1), ANSWER_S);
    });
    this.heard = () => {};
  }

  private write(bytes: Uint8Array): Promise<void> {
    const { control_characteristic_uuid } = this.layout;
    const written = this.connection.write(this.service_uuid, control_characteristic_uuid, bytes, true);
    return within(written, ANSWER_S * 1000, 'write to the sensor');
  }
}

function withId(op: number, id: number): Uint8Array {
  return Uint8Array.of(op, id & 0xff, id >> 8);
}

/** The packets of a fetched recording. Each has its length before it; a torn last one is left out. */
export function packetsOfRecording(bytes: Uint8Array): Uint8Array[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const packets: Uint8Array[] = [];
  for (let at = 0; at + 2 <= bytes.length; ) {
    const length = view.getUint16(at, true);
    if (at + 2 + length > bytes.length) break;
    packets.push(bytes.slice(at + 2, at + 2 + length));
    at += 2 + length;
  }
  return packets;
}

import type { StreamDescription, StreamSettings, Write } from './schemas/stream-description.ts';

export interface StreamWrite {
  service_uuid: string;
  characteristic_uuid: string;
  with_response: boolean;
  /** Made when it is written, since it may hold the time. @param utc_ms milliseconds since 1970 */
  bytes(utc_ms: number): Uint8Array;
  answer: {
    service_uuid: string;
    characteristic_uuid: string;
    begins_with: Uint8Array;
    within_s: number;
  } | null;
  then_wait_s: number;
}

export interface StreamWrites {
  /** Rate and ranges chosen. */
  set_up: StreamWrite[];
  start: StreamWrite[];
  stop: StreamWrite[];
}

/**
 * What is written to a sensor, in order: rate and ranges chosen, then start; and what stops it.
 * The settings must be the description's own (`createPacketDecoder` refuses others).
 */
export function streamWrites(description: StreamDescription, settings: StreamSettings): StreamWrites {
  const rate = description.rates.find((option) => option.rate_hz === settings.rate_hz);
  const acc = description.acc.ranges.find((option) => option.full_scale === settings.acc_full_scale);
  const gyr = description.gyr?.ranges.find((option) => option.full_scale === settings.gyr_full_scale);
  const ready = (writes: Write[]) => writes.map((write) => toWrite(write, description.service_uuid));
  return {
    set_up: ready([rate, acc, gyr].flatMap((option) => option?.writes ?? [])),
    start: ready(description.start),
    stop: ready(description.stop),
  };
}

/** One write of a description, ready to be made. @param main_service used where the write names none */
export function toWrite(write: Write, main_service: string): StreamWrite {
  const { answer, host_time } = write;
  return {
    service_uuid: write.service_uuid ?? main_service,
    characteristic_uuid: write.characteristic_uuid,
    with_response: write.without_response !== true,
    bytes(utc_ms) {
      const bytes = hexBytes(write.bytes);
      return host_time === undefined ? bytes : withTime(bytes, host_time, utc_ms);
    },
    answer:
      answer === undefined
        ? null
        : {
            service_uuid: answer.service_uuid ?? main_service,
            characteristic_uuid: answer.characteristic_uuid,
            begins_with: hexBytes(answer.begins_with),
            within_s: answer.within_s,
          },
    then_wait_s: write.then_wait_s ?? 0,
  };
}

export function hexBytes(text: string): Uint8Array {
  return Uint8Array.from(text.split(' '), (byte) => Number.parseInt(byte, 16));
}

export function toHex(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join(' ');
}

function withTime(bytes: Uint8Array, time: NonNullable<Write['host_time']>, utc_ms: number): Uint8Array {
  const length = time.type === 'uint32' ? 4 : 8;
  const all = new Uint8Array(Math.max(bytes.length, time.at + length));
  all.set(bytes);
  const ticks = BigInt(Math.floor(utc_ms / 1000 / time.tick_s));
  const view = new DataView(all.buffer);
  const little = time.byte_order === 'little';
  if (time.type === 'uint64') view.setBigUint64(time.at, ticks, little);
  else view.setUint32(time.at, Number(ticks % 2n ** 32n), little);
  return all;
}

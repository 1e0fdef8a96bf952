import type { StreamDescription, StreamSettings } from './schemas/stream-description.ts';

export interface StreamWrite {
  characteristic_uuid: string;
  bytes: Uint8Array;
}

/**
 * What is written to a sensor, in order: rate and ranges chosen, then start; and what stops it.
 * The settings must be the description's own (`createPacketDecoder` refuses others).
 */
export function streamWrites(
  description: StreamDescription,
  settings: StreamSettings,
): { setUp: StreamWrite[]; stop: StreamWrite[] } {
  const rate = description.rates.find((option) => option.rate_hz === settings.rate_hz);
  const acc = description.acc.ranges.find((option) => option.full_scale === settings.acc_full_scale);
  const gyr = description.gyr?.ranges.find((option) => option.full_scale === settings.gyr_full_scale);
  const chosen = [rate, acc, gyr].flatMap((option) => option?.writes ?? []);
  const toBytes = (write: { characteristic_uuid: string; bytes: string }): StreamWrite => ({
    characteristic_uuid: write.characteristic_uuid,
    bytes: Uint8Array.from(write.bytes.split(' '), (byte) => Number.parseInt(byte, 16)),
  });
  return { setUp: [...chosen, ...description.start].map(toBytes), stop: description.stop.map(toBytes) };
}

import type { SensorInformation } from './packet-source.ts';
import {
  BATTERY_LEVEL_UUID,
  BATTERY_SERVICE_UUID,
  DEVICE_INFORMATION_TEXTS,
  DEVICE_INFORMATION_UUID,
  decodeBatteryLevel,
  decodeDeviceText,
} from '../packets/standard-services.ts';

/** Reads a characteristic; undefined where the sensor has none or does not answer. */
export type ReadCharacteristic = (service_uuid: string, characteristic_uuid: string) => Promise<Uint8Array | undefined>;

/** What the standard services tell of a sensor. */
export async function readInformation(
  read: ReadCharacteristic,
): Promise<Pick<SensorInformation, 'battery_percent' | 'device_information'>> {
  const device_information: Record<string, string> = {};
  for (const [uuid, field] of Object.entries(DEVICE_INFORMATION_TEXTS)) {
    const value = await read(DEVICE_INFORMATION_UUID, uuid);
    if (value !== undefined) device_information[field] = decodeDeviceText(value);
  }
  return { battery_percent: await readBattery(read), device_information };
}

export async function readBattery(read: ReadCharacteristic): Promise<number | null> {
  const value = await read(BATTERY_SERVICE_UUID, BATTERY_LEVEL_UUID);
  return value === undefined || value.length === 0 ? null : decodeBatteryLevel(value);
}

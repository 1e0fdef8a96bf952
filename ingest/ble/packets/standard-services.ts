/**
 * The three services every sensor may have. Layouts: Bluetooth SIG, Running Speed and Cadence Service 1.0, Battery
 * Service, Device Information Service; GATT Specification Supplement.
 */
import { FaultError, fault } from '../../../shared/fault.ts';

/** 16-bit number -> 128-bit UUID on the Bluetooth base UUID. */
export function standardUuid(number: number): string {
  return `0000${number.toString(16).padStart(4, '0')}-0000-1000-8000-00805f9b34fb`;
}

export const RUNNING_SPEED_AND_CADENCE_UUID = standardUuid(0x1814);
export const RSC_MEASUREMENT_UUID = standardUuid(0x2a53);
export const RSC_FEATURE_UUID = standardUuid(0x2a54);
export const SENSOR_LOCATION_UUID = standardUuid(0x2a5d);
export const BATTERY_SERVICE_UUID = standardUuid(0x180f);
export const BATTERY_LEVEL_UUID = standardUuid(0x2a19);
export const DEVICE_INFORMATION_UUID = standardUuid(0x180a);

/** Text characteristics of Device Information: UUID -> field. */
export const DEVICE_INFORMATION_TEXTS: Record<string, string> = {
  [standardUuid(0x2a29)]: 'manufacturer_name',
  [standardUuid(0x2a24)]: 'model_number',
  [standardUuid(0x2a25)]: 'serial_number',
  [standardUuid(0x2a27)]: 'hardware_revision',
  [standardUuid(0x2a26)]: 'firmware_revision',
  [standardUuid(0x2a28)]: 'software_revision',
};

export interface RunningSpeedAndCadence {
  running: boolean;
  speed_mps: number;
  /** As sent. Whether it counts steps or strides is for `cadenceCounts` to say. */
  cadence_per_min: number;
  stride_length_m: number | null;
  total_distance_m: number | null;
}

/**
 * Running Speed and Cadence Measurement, 0x2A53.
 * @throws FaultError PACKET_UNREADABLE when the bytes are fewer than the flags ask for
 */
export function decodeRunningSpeedAndCadence(bytes: Uint8Array): RunningSpeedAndCadence {
  const view = viewOf(bytes);
  const flags = bytes.length > 0 ? view.getUint8(0) : 0;
  const has_stride = (flags & 1) !== 0;
  const has_distance = (flags & 2) !== 0;
  needBytes('running speed and cadence measurement', bytes, 4 + (has_stride ? 2 : 0) + (has_distance ? 4 : 0));
  return {
    running: (flags & 4) !== 0,
    speed_mps: view.getUint16(1, true) / 256,
    cadence_per_min: view.getUint8(3),
    stride_length_m: has_stride ? view.getUint16(4, true) / 100 : null,
    total_distance_m: has_distance ? view.getUint32(has_stride ? 6 : 4, true) / 10 : null,
  };
}

/**
 * Devices differ in what the one cadence byte counts. Speed and stride length (same foot) decide: speed is stride length x
 * cadence / 60 where it counts strides, / 120 where it counts steps. 255 may be an overflow and decides nothing.
 * @returns null when the packet cannot tell (within 15 per cent of neither, or of both)
 */
export function cadenceCounts(measurement: RunningSpeedAndCadence): 'steps' | 'strides' | null {
  const { speed_mps, cadence_per_min, stride_length_m } = measurement;
  if (stride_length_m === null || speed_mps === 0 || cadence_per_min === 0 || cadence_per_min === 255) return null;
  const ratio = (stride_length_m * cadence_per_min) / 60 / speed_mps;
  if (Math.abs(ratio - 1) < 0.15) return 'strides';
  if (Math.abs(ratio / 2 - 1) < 0.15) return 'steps';
  return null;
}

export interface RscFeature {
  stride_length: boolean;
  total_distance: boolean;
  walking_or_running: boolean;
  calibration: boolean;
  multiple_sensor_locations: boolean;
}

/** RSC Feature, 0x2A54. @throws FaultError PACKET_UNREADABLE */
export function decodeRscFeature(bytes: Uint8Array): RscFeature {
  needBytes('running speed and cadence feature', bytes, 2);
  const bits = viewOf(bytes).getUint16(0, true);
  const bit = (n: number) => (bits & (1 << n)) !== 0;
  return {
    stride_length: bit(0),
    total_distance: bit(1),
    walking_or_running: bit(2),
    calibration: bit(3),
    multiple_sensor_locations: bit(4),
  };
}

const LOCATIONS = [
  'other',
  'top of shoe',
  'in shoe',
  'hip',
  'front wheel',
  'left crank',
  'right crank',
  'left pedal',
  'right pedal',
  'front hub',
  'rear dropout',
  'chainstay',
  'rear wheel',
  'rear hub',
  'chest',
  'spider',
  'chain ring',
];

/** Sensor Location, 0x2A5D; null for a reserved value. @throws FaultError PACKET_UNREADABLE */
export function decodeSensorLocation(bytes: Uint8Array): string | null {
  needBytes('sensor location', bytes, 1);
  return LOCATIONS[bytes[0]] ?? null;
}

/** Battery Level, 0x2A19: per cent; null for a reserved value (above 100). @throws FaultError PACKET_UNREADABLE */
export function decodeBatteryLevel(bytes: Uint8Array): number | null {
  needBytes('battery level', bytes, 1);
  return bytes[0] <= 100 ? bytes[0] : null;
}

/** A text of Device Information: UTF-8, trailing zeros cut. */
export function decodeDeviceText(bytes: Uint8Array): string {
  let length = bytes.length;
  while (length > 0 && bytes[length - 1] === 0) length -= 1;
  return new TextDecoder().decode(bytes.subarray(0, length));
}

/** SC Control Point, 0x2A55: the requests, as bytes to write. */
export const SC_CONTROL_POINT = {
  setDistance(metres_tenths: number): Uint8Array {
    const bytes = new Uint8Array(5);
    bytes[0] = 1;
    viewOf(bytes).setUint32(1, metres_tenths, true);
    return bytes;
  },
  setSensorLocation: (location: string): Uint8Array => Uint8Array.of(3, LOCATIONS.indexOf(location)),
  askSensorLocations: (): Uint8Array => Uint8Array.of(4),
};

const RESPONSES: Record<number, string> = {
  1: 'success',
  2: 'op code not supported',
  3: 'invalid parameter',
  4: 'operation failed',
};

/** Answer of the SC Control Point. @throws FaultError PACKET_UNREADABLE */
export function decodeScControlPoint(bytes: Uint8Array): { request: number; result: string; locations: string[] } {
  needBytes('control point response', bytes, 3);
  if (bytes[0] !== 16) needBytes('control point response (op code 16)', new Uint8Array(0), 3);
  const locations = bytes[1] === 4 ? [...bytes.subarray(3)].map((value) => LOCATIONS[value] ?? 'reserved') : [];
  return { request: bytes[1], result: RESPONSES[bytes[2]] ?? `reserved (${bytes[2]})`, locations };
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function needBytes(what: string, bytes: Uint8Array, needed: number): void {
  if (bytes.length >= needed) return;
  throw new FaultError(
    fault('PACKET_UNREADABLE.standard', { what, bytes: bytes.length, least: needed }, { what, bytes: bytes.length }),
  );
}

import { refusalOf } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import {
  cadenceCounts,
  decodeBatteryLevel,
  decodeDeviceText,
  decodeRscFeature,
  decodeRunningSpeedAndCadence,
  decodeScControlPoint,
  decodeSensorLocation,
  SC_CONTROL_POINT,
  standardUuid,
} from '../../../ingest/ble/packets/standard-services.ts';

const bytes = (hex: string) => Uint8Array.from(hex.split(' '), (byte) => Number.parseInt(byte, 16));

// Layouts: Bluetooth SIG, Running Speed and Cadence Service 1.0 and GATT Specification Supplement, 'RSC Measurement'.
// The byte vectors are built from those layouts by hand: flags, speed in 1/256 m/s, cadence, stride in 0.01 m, 0.1 m.
const MEASUREMENTS = [
  [
    '00 80 03 55',
    { running: false, speed_mps: 3.5, cadence_per_min: 85, stride_length_m: null, total_distance_m: null },
  ],
  [
    '04 80 03 aa',
    { running: true, speed_mps: 3.5, cadence_per_min: 170, stride_length_m: null, total_distance_m: null },
  ],
  [
    '05 00 08 f0 90 01',
    { running: true, speed_mps: 8, cadence_per_min: 240, stride_length_m: 4, total_distance_m: null },
  ],
  [
    '06 40 05 b4 39 30 00 00',
    { running: true, speed_mps: 5.25, cadence_per_min: 180, stride_length_m: null, total_distance_m: 1234.5 },
  ],
  [
    '07 40 09 ff 9c 01 e8 03 00 00',
    { running: true, speed_mps: 9.25, cadence_per_min: 255, stride_length_m: 4.12, total_distance_m: 100 },
  ],
  [
    '07 ff ff 00 ff ff ff ff ff ff',
    {
      running: true,
      speed_mps: 255.99609375,
      cadence_per_min: 0,
      stride_length_m: 655.35,
      total_distance_m: 429496729.5,
    },
  ],
] as const;

describe('running speed and cadence', () => {
  it.each(MEASUREMENTS)('decodes %s', (hex, expected) => {
    expect(decodeRunningSpeedAndCadence(bytes(hex))).toEqual(expected);
  });

  it('refuses a packet shorter than its flags demand, and an empty one', () => {
    expect(refusalOf(() => decodeRunningSpeedAndCadence(bytes('05 00 08 f0')))).toMatch(/at least 6 are needed/);
    expect(refusalOf(() => decodeRunningSpeedAndCadence(new Uint8Array(0)))).toMatch(/at least 4/);
  });

  it('tells from speed and stride length whether the cadence counts steps or strides', () => {
    // 4.00 m x 240/min / 120 = 8.0 m/s: steps. 4.00 m x 120/min / 60 = 8.0 m/s: strides.
    expect(cadenceCounts(decodeRunningSpeedAndCadence(bytes('05 00 08 f0 90 01')))).toBe('steps');
    expect(cadenceCounts(decodeRunningSpeedAndCadence(bytes('05 00 08 78 90 01')))).toBe('strides');
    expect(cadenceCounts(decodeRunningSpeedAndCadence(bytes('04 80 03 aa')))).toBeNull();
    // 255 may be an overflow of 258 to 300 steps a minute.
    expect(cadenceCounts(decodeRunningSpeedAndCadence(bytes('07 40 09 ff 9c 01 e8 03 00 00')))).toBeNull();
  });

  it('decodes feature, location and control point as the service defines them', () => {
    expect(decodeRscFeature(bytes('07 00'))).toMatchObject({
      stride_length: true,
      total_distance: true,
      walking_or_running: true,
      calibration: false,
      multiple_sensor_locations: false,
    });
    expect(Object.values(decodeRscFeature(bytes('1f 00'))).every(Boolean)).toBe(true);
    expect([1, 2, 14, 17].map((value) => decodeSensorLocation(Uint8Array.of(value)))).toEqual([
      'top of shoe',
      'in shoe',
      'chest',
      null,
    ]);
    expect(SC_CONTROL_POINT.setDistance(0)).toEqual(bytes('01 00 00 00 00'));
    expect(SC_CONTROL_POINT.setSensorLocation('top of shoe')).toEqual(bytes('03 01'));
    expect(decodeScControlPoint(bytes('10 03 01'))).toEqual({ request: 3, result: 'success', locations: [] });
    expect(decodeScControlPoint(bytes('10 04 01 01 02')).locations).toEqual(['top of shoe', 'in shoe']);
  });
});

describe('battery and device information', () => {
  it('reads 0x64 as 100 per cent and nothing from the reserved 0x65', () => {
    expect(decodeBatteryLevel(bytes('64'))).toBe(100);
    expect(decodeBatteryLevel(bytes('00'))).toBe(0);
    expect(decodeBatteryLevel(bytes('65'))).toBeNull();
  });

  it('reads UTF-8 text and cuts trailing zeros', () => {
    expect(decodeDeviceText(bytes('42 c3 a9 00'))).toBe('Bé');
  });

  it('puts 16-bit numbers on the Bluetooth base UUID', () => {
    expect(standardUuid(0x1814)).toBe('00001814-0000-1000-8000-00805f9b34fb');
  });
});

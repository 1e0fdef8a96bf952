/** Angles under the names of rates: asked about, whatever their unit; rates are not. */
import { beforeAll, describe, expect, test } from 'vitest';
import { LayoutQuestion } from '../../../ingest/csv/columns/layout-question.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { told } from '../../helpers/told.ts';
import { Draw } from './random-files/draw.ts';
import { motionOf, randomTurn, type Samples, stretch } from './random-files/motions.ts';

const RATE_HZ = 200;
const DEG = 180 / Math.PI;
let samples: Samples[];

beforeAll(() => {
  const draw = new Draw(11);
  samples = [0, 1].map(() => {
    const { left } = motionOf(draw, 6);
    const instants = Array.from({ length: 9 * RATE_HZ }, (_, i) => i / RATE_HZ);
    return stretch(left, randomTurn(draw), 0.5, instants);
  });
}, 120_000);

/** Roll, pitch and yaw of the sensor against its first row, rad (rotation order z, y, x). */
function anglesOf({ gyr }: Samples): number[][] {
  let [w, x, y, z] = [1, 0, 0, 0];
  return gyr.map(([p, q, r]) => {
    const rate = Math.hypot(p, q, r);
    const c = Math.cos(rate / 2 / RATE_HZ);
    const s = rate > 0 ? Math.sin(rate / 2 / RATE_HZ) / rate : 0;
    const [a, b, d] = [p * s, q * s, r * s];
    [w, x, y, z] = [
      w * c - x * a - y * b - z * d,
      w * a + x * c + y * d - z * b,
      w * b - x * d + y * c + z * a,
      w * d + x * b - y * a + z * c,
    ];
    return [
      Math.atan2(2 * (w * x + y * z), 1 - 2 * (x * x + y * y)),
      Math.asin(Math.max(-1, Math.min(1, 2 * (w * y - z * x)))),
      Math.atan2(2 * (w * z + x * y), 1 - 2 * (y * y + z * z)),
    ];
  });
}

function fileOf({ time_s, acc }: Samples, names: string[], turning: number[][]): Uint8Array {
  const rows = time_s.map((t, i) => [
    t.toFixed(4),
    ...acc[i].map((v) => v.toFixed(3)),
    ...turning[i].map((v) => v.toFixed(4)),
  ]);
  const header = ['time_s', 'acc_x_mps2', 'acc_y_mps2', 'acc_z_mps2', ...names];
  return new TextEncoder().encode(`${[header, ...rows].map((row) => row.join(',')).join('\n')}\n`);
}

const named = (unit: string) => ['x', 'y', 'z'].map((axis) => `gyr_${axis}${unit}`);
const times = (rows: number[][], factor: number) => rows.map((row) => row.map((value) => value * factor));

describe('angles named as angular rate', () => {
  test.each([
    ['degrees under deg/s', ' (deg/s)', DEG],
    ['degrees without a unit', '', DEG],
    ['radians under rad/s', ' (rad/s)', 1],
  ])('%s are asked about; the first answer reads the file without them', async (_, unit, factor) => {
    for (const one of samples) {
      const bytes = fileOf(one, named(unit), times(anglesOf(one), factor));
      const question = await readCsvRecording(bytes, { file_name: 'a.csv' }).catch((error: unknown) => error);
      expect(question).toBeInstanceOf(LayoutQuestion);
      const { about, choices, fault } = question as LayoutQuestion;
      expect(about).toBe('gyroscope');
      expect(told(fault).message).toContain('hold angles');
      const [without, asNamed] = await Promise.all(
        choices.map(({ correction }) => readCsvRecording(bytes, { file_name: 'a.csv', layout: correction })),
      );
      expect(without.recordings[0].samples.gyr_radps).toBeNull();
      expect(asNamed.recordings[0].samples.gyr_radps).not.toBeNull();
    }
  });

  test.each([
    ['in deg/s', ' (deg/s)', DEG],
    ['in rad/s', ' (rad/s)', 1],
    ['in rad/s without a unit', '', 1],
    ['in deg/s without a unit', '', DEG],
  ])('rates %s are read', async (_, unit, factor) => {
    for (const one of samples) {
      const { recordings } = await readCsvRecording(fileOf(one, named(unit), times(one.gyr, factor)), {
        file_name: 'a.csv',
      });
      expect(recordings[0].samples.gyr_radps!.x[900]).toBeCloseTo(one.gyr[900][0], 3);
    }
  });
});

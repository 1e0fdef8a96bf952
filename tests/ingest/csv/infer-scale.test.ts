import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { gravityByRotation } from '../../../ingest/csv/motion/gravity-by-rotation.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { recordingsFolder } from '../../helpers/recordings.ts';

describe('gravityByRotation', () => {
  test('gives 1 g for a sensor that only turns, at any rate', () => {
    // Closed form: a sensor turning about x at w reads gravity g (0, sin wt, cos wt).
    const period = 1 / 400;
    const w = 11;
    const t = Float64Array.from({ length: 4000 }, (_, i) => i * period);
    const zero = t.map(() => 0);
    const acc = [
      zero,
      t.map((time) => STANDARD_GRAVITY_MPS2 * Math.sin(w * time)),
      t.map((time) => STANDARD_GRAVITY_MPS2 * Math.cos(w * time)),
    ];
    const gyr = [t.map(() => w), zero, zero];
    expect(gravityByRotation(acc, gyr, period)).toBeCloseTo(STANDARD_GRAVITY_MPS2, 6);
    // A wrong unit of the gyroscope leaves the turning in, and the mean is not gravity.
    expect(
      gravityByRotation(
        acc,
        gyr.map((axis) => axis.map((value) => value / RADIANS_PER_DEGREE)),
        period,
      ),
    ).toBeLessThan(5);
  });

  test('tells nothing from too few rows or too low a rate', () => {
    const few = [0, 1, 2].map(() => new Float64Array(100));
    expect(gravityByRotation(few, few, 1 / 400)).toBeNull();
    expect(gravityByRotation(few, few, 1 / 25)).toBeNull();
  });
});

const folder = recordingsFolder();
describe.skipIf(folder === null)('units of real running that never rests', () => {
  const forms: {
    name: string;
    acc: number;
    gyr: number | null;
    header: string | null;
    units: [string, string | undefined];
  }[] = [
    { name: 'g and deg/s', acc: 1, gyr: 1, header: 't,ax,ay,az,gx,gy,gz', units: ['g', 'deg/s'] },
    {
      name: 'm/s2 and rad/s',
      acc: STANDARD_GRAVITY_MPS2,
      gyr: RADIANS_PER_DEGREE,
      header: 't,ax,ay,az,gx,gy,gz',
      units: ['m/s2', 'rad/s'],
    },
    {
      name: 'm/s2 and deg/s',
      acc: STANDARD_GRAVITY_MPS2,
      gyr: 1,
      header: 't,ax,ay,az,gx,gy,gz',
      units: ['m/s2', 'deg/s'],
    },
    { name: 'm/s2 alone', acc: STANDARD_GRAVITY_MPS2, gyr: null, header: 't,ax,ay,az', units: ['m/s2', undefined] },
  ];
  for (const name of ['treadmill-run-RBDS001-T25', 'treadmill-run-RBDS013-T45', 'treadmill-run-davis']) {
    for (const sensor of ['foot_left', 'shank_right']) {
      test(`are found when ${name} ${sensor} does not name them`, async () => {
        const text = gunzipSync(readFileSync(`${folder}/${name}/${sensor}.csv.gz`))
          .toString()
          .trim();
        const rows = text
          .split('\n')
          .slice(1)
          .map((line) => line.split(',').map(Number));
        for (const form of forms) {
          const lines = rows.map(([t, ...v]) =>
            [
              t,
              ...v.slice(0, 3).map((a) => (a * form.acc).toFixed(5)),
              ...(form.gyr === null ? [] : v.slice(3).map((g) => (g * form.gyr!).toFixed(5))),
            ].join(','),
          );
          const read = await readCsvRecording(Buffer.from([form.header, ...lines].join('\n')), {
            file_name: 'nameless.csv',
          });
          const [{ acc, gyr }] = read.layout.sensors;
          expect([acc.unit, gyr?.unit], form.name).toEqual(form.units);
        }
      });
    }
  }
});

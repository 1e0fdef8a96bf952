import { inWords } from '../../helpers/told.ts';
import { expect, test } from 'vitest';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { makeSignal } from './make-signal.ts';

/** A file in SI units with one value put in place of another. */
async function readWith(row: number, column: number, value: number) {
  const known = makeSignal(5, 200, 200, 200);
  const lines = known.time_s.map((t, i) =>
    [t, ...known.acc[i], ...known.gyr[i]].map((cell, k) => (i === row && k === column ? value : cell)).join(','),
  );
  const text = ['time_s,acc_x_mps2,acc_y_mps2,acc_z_mps2,gyr_x_radps,gyr_y_radps,gyr_z_radps', ...lines].join('\n');
  return readCsvRecording(Buffer.from(text), { file_name: 'shake.csv' });
}

test.each([
  ['acceleration', 2, 3999, 4001, 'at most 4000 m/s2'],
  ['acceleration', 2, -3999, -4001, 'at most 4000 m/s2'],
])(
  '%s that no sensor reads is set aside with the limit, and what one may read stays: column %i, %d',
  async (_, column, may, cannot, limit) => {
    const kept = await readWith(300, column, may);
    expect(kept.rejected_count).toBe(0);
    expect(kept.recordings[0].samples.acc_mps2.y[300]).toBeCloseTo(may, 6);
    const aside = await readWith(300, column, cannot);
    expect(inWords(aside.rejected_rows)).toMatchObject([{ line: 302, column: 'acceleration y', expected: limit }]);
    expect(aside.recordings[0].samples.acc_mps2.y[300]).toBeNaN();
  },
);

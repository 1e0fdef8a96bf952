/** Files that are wide or whose lines are long: only a part is looked at, so that none holds a worker. */
import { describe, expect, it } from 'vitest';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { MOST_COLUMNS } from '../../../shared/schemas/layout.ts';
import { uniform } from '../../helpers/random.ts';

const random = uniform(3);
const cell = () => (random() * 40 - 20).toFixed(3);
/** The same moved rows in every file. */
const moved = Array.from({ length: 100 }, () =>
  Array.from({ length: 6 }, (_, i) => (i < 3 ? cell() : (random() * 1200 - 600).toFixed(1))),
);
/** A sensor in the first seven columns, at rest and then moved, with `more` columns behind. */
function wide(more: number, name: (i: number) => string): Uint8Array {
  const names = ['time_s', 'acc_x_g', 'acc_y_g', 'acc_z_g', 'gyr_x_dps', 'gyr_y_dps', 'gyr_z_dps'];
  const lines = [[...names, ...Array.from({ length: more }, (_, i) => name(i))].join(',')];
  for (let row = 0; row < 300; row++) {
    const own = row < 200 ? ['0', '0', '1', '0', '0', '0'] : moved[row - 200];
    lines.push([(row / 500).toFixed(3), ...own, ...Array.from({ length: more }, cell)].join(','));
  }
  return new TextEncoder().encode(`${lines.join('\n')}\n`);
}

describe('a wide file', () => {
  it('is read from its first columns, whatever lies behind them', async () => {
    const narrow = await readCsvRecording(wide(0, String), { file_name: 'a.csv' });
    const { recordings, layout } = await readCsvRecording(
      wide(700, (i) => `c${i}`),
      { file_name: 'a.csv' },
    );
    expect(layout.column_count).toBe(707);
    expect(layout.column_names).toHaveLength(MOST_COLUMNS);
    expect(recordings).toEqual(narrow.recordings);
  });

  it('without names, or with a line of names over 10 kB, comes to an end with a question or a refusal', async () => {
    const nameless = new TextEncoder().encode(
      `${Array.from({ length: 60 }, () => Array.from({ length: 9190 }, cell).join(',')).join('\n')}\n`,
    );
    await expect(readCsvRecording(nameless, { file_name: 'a.csv' })).rejects.toMatchObject({
      code: expect.stringMatching(/LAYOUT_AMBIGUOUS|RATE_MISSING/),
    });
    const longNames = wide(7, () => 'n'.repeat(2000));
    await expect(readCsvRecording(longNames, { file_name: 'a.csv' })).rejects.toMatchObject({
      code: expect.stringMatching(/LAYOUT_AMBIGUOUS|RATE_MISSING/),
    });
  });
});

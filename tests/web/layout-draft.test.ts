import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { previewLayout } from '../../api/measuring/preview-layout.ts';
import { readCsvRecording } from '../../ingest/csv/read-csv-recording.ts';
import { correctionOf } from '../../web/parts/layout-editor/correction-of.ts';
import { draftOf, draftOfLayout, withRole } from '../../web/parts/layout-editor/layout-draft.ts';
import { missingOf } from '../../web/parts/layout-editor/missing-of.ts';

const folder = fileURLToPath(new URL('../ingest/csv/cases/', import.meta.url));
const readable = readdirSync(folder)
  .filter((name) => readdirSync(folder + name).includes('expected.json'))
  .map((name) => {
    const files = readdirSync(folder + name);
    const input = files.find((file) => !file.endsWith('.json'))!;
    const options = files.includes('options.json')
      ? JSON.parse(readFileSync(`${folder}${name}/options.json`, 'utf8'))
      : {};
    return { name, input, bytes: readFileSync(`${folder}${name}/${input}`), options };
  });

describe('a layout by column', () => {
  test.each(readable)('of $name says the same as the layout it was made from', async ({ input, bytes, options }) => {
    const found = await readCsvRecording(bytes, { file_name: input, ...options });
    const draft = draftOfLayout(found.layout);
    expect(missingOf(draft)).toBe('');
    const told = correctionOf(draft, found.layout.text);
    const again = await readCsvRecording(bytes, { file_name: input, ...options, layout: told });
    expect(again.recordings.map(({ side }) => side)).toEqual(found.recordings.map(({ side }) => side));
    again.recordings.forEach(({ samples }, at) => {
      const before = found.recordings[at].samples;
      expect(samples.time_s.length).toBe(before.time_s.length);
      expect(samples.start_utc).toBe(before.start_utc);
      for (const axis of ['x', 'y', 'z'] as const) {
        // Units pass through a person's figures: ten digits.
        const missing = (values: Float64Array) => values.filter(Number.isNaN).length;
        expect(missing(samples.acc_mps2[axis])).toBe(missing(before.acc_mps2[axis]));
        const off = samples.acc_mps2[axis].map((value, i) => Math.abs(value - before.acc_mps2[axis][i]) || 0);
        expect(off.reduce((most, value) => Math.max(most, value), 0)).toBeLessThan(1e-5);
      }
      expect(samples.gyr_radps === null).toBe(before.gyr_radps === null);
      expect(samples.time_s.at(-1)).toBeCloseTo(before.time_s.at(-1)!, 6);
    });
  });

  test('of a refused file is what its names tell, and says what is missing', async () => {
    const text = `time;acc x;acc y;third\n${'0,01;1;2;3\n0,02;1;2;3\n0,03;1;2;3\n'.repeat(3)}`;
    const preview = await previewLayout(
      {
        file_name: 'odd.csv',
        bytes: Buffer.from(text),
        part: false,
        side: null,
        mounting: 'foot',
        rate_hz: null,
        layout: null,
      },
      [],
    );
    expect(preview.layout).toBeNull();
    const draft = draftOf(preview);
    expect(draft.columns.map(({ role }) => role).slice(0, 3)).toEqual(['time', 'acc_x', 'acc_y']);
    const without = withRole(draft, 2, 'none', 0);
    expect(missingOf(without)).toMatch(/^Say which column holds acceleration .*y/);
  });

  test('takes a role from the column that had it, and gives that one the old role', () => {
    const layout = draftOfLayout({
      layout_version: 1,
      name: '',
      fingerprint: '',
      text: {
        encoding: 'utf-8',
        delimiter: ',',
        decimal_mark: '.',
        header_row: false,
        units_row: false,
        missing_values: [],
      },
      column_names: [],
      column_count: 4,
      time: { kind: 'rows', columns: [], seconds_per_unit: 1, epoch_s: null, date_order: null, rate_hz: 100 },
      counter: null,
      side_column: null,
      sensors: [
        {
          side: 'left',
          side_value: null,
          acc: { columns: [1, 2, 3], signs: [1, -1, 1], unit: 'counts', to_si: 9.80665 / 2048 },
          gyr: null,
        },
      ],
    });
    expect(layout.acc).toEqual({ unit: 'counts', counts: '2048' });
    const swapped = withRole(layout, 1, 'acc_z', 0);
    expect(swapped.columns.map(({ role }) => role)).toEqual(['none', 'acc_z', 'acc_y', 'acc_x']);
    expect(correctionOf(swapped, {}).sensors![0].acc).toMatchObject({ columns: [3, 2, 1], signs: [1, -1, 1] });
  });
});

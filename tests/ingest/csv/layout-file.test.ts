import { refusalOf, wordsOf } from '../../helpers/told.ts';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { readLayoutFile } from '../../../ingest/csv/infer/layout-file.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import type { Layout } from '../../../shared/schemas/layout.ts';

const cases = fileURLToPath(new URL('./cases/', import.meta.url));
const countsFile = readFileSync(`${cases}counts-by-layout/input.csv`);
const told = { acc_counts_per_g: 2048, gyr_counts_per_dps: 16.4 };

describe('layouts as files', () => {
  test('what was corrected once reads the next file of that shape, found by its fingerprint', async () => {
    const first = await readCsvRecording(countsFile, { file_name: 'left.csv', layout: told });
    const saved = readLayoutFile(JSON.stringify(first.layout), 'counts.json') as Layout;
    expect(saved).toEqual(first.layout);
    const next = await readCsvRecording(countsFile, { file_name: 'right.csv', saved_layouts: [saved] });
    expect(next.recordings[0].samples.acc_mps2.x).toEqual(first.recordings[0].samples.acc_mps2.x);
    expect(wordsOf(next.evidence.find((entry) => entry.about === 'layout')?.decided)).toContain(saved.name);
    // The side belongs to the file, not to its layout.
    expect([first.recordings[0].side, next.recordings[0].side]).toEqual(['left', 'right']);
  });

  test('a saved layout is not used for files of another shape', async () => {
    const { layout } = await readCsvRecording(countsFile, { file_name: 'left.csv', layout: told });
    const other = readFileSync(`${cases}plain/input.csv`);
    const read = await readCsvRecording(other, { file_name: 'plain.csv', saved_layouts: [layout] });
    expect(read.layout.sensors[0].acc.unit).toBe('m/s2');
  });

  test('a layout with a wrong field is refused, and the field named', () => {
    expect(refusalOf(() => readLayoutFile('{"acc_unit":"stone"}', 'my.json'))).toMatch(/my\.json.*acc_unit/);
    expect(refusalOf(() => readLayoutFile('{"layout_version":1}', 'my.json'))).toMatch(/my\.json/);
    expect(refusalOf(() => readLayoutFile('no json', 'my.json'))).toMatch(/my\.json/);
    expect(readLayoutFile('{"time":{"kind":"rows","rate_hz":500}}', 'my.json')).toEqual({
      time: { kind: 'rows', rate_hz: 500 },
    });
  });

  test('axes can be swapped and turned round by a layout', async () => {
    const bytes = readFileSync(`${cases}plain/input.csv`);
    const { layout, recordings } = await readCsvRecording(bytes, { file_name: 'plain.csv' });
    const [sensor] = layout.sensors;
    const turned: Layout = {
      ...layout,
      sensors: [
        { ...sensor, acc: { ...sensor.acc, columns: ['acc_y_mps2', 'acc_x_mps2', 'acc_z_mps2'], signs: [1, 1, -1] } },
      ],
    };
    const read = await readCsvRecording(bytes, { file_name: 'plain.csv', layout: turned });
    const [before, after] = [recordings[0].samples.acc_mps2, read.recordings[0].samples.acc_mps2];
    expect(after.x).toEqual(before.y);
    expect(after.y).toEqual(before.x);
    expect(after.z).toEqual(before.z.map((value) => -value));
  });
});

import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { motionBidsLines } from '../../../api/export/motion-bids/import-lines.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';

/** Sets as other makers write them, by the rules of the BIDS specification (motion modality). Values are invented. */
let home: string;
beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), 'cinderlane-foreign-'));
});
afterAll(() => rmSync(home, { recursive: true }));

interface Point {
  name: string;
  acc?: string;
  gyr?: string;
  position?: boolean;
}

let sets = 0;
/** A set with the files of these stems: ACCEL of 1, 2, 3 m/s2 times the point's number, GYRO of 0.1, 0.2, 0.3 rad/s. */
function setOf(files: Record<string, Point[]>): string {
  const folder = join(home, `set-${++sets}`);
  mkdirSync(folder);
  writeFileSync(join(folder, 'dataset_description.json'), '{"Name":"invented","BIDSVersion":"1.10.0"}');
  for (const [path, points] of Object.entries(files)) {
    const stem = join(folder, path);
    mkdirSync(dirname(stem), { recursive: true });
    const channels: string[][] = [];
    const values: number[] = [];
    for (const [n, { name, acc, gyr, position }] of points.entries())
      for (const [k, axis] of ['x', 'y', 'z'].entries()) {
        const add = (type: string, unit: string, si: number, one: number) => {
          channels.push([`${type}_${name}_${axis}`, axis, type, name, unit]);
          values.push(si / one);
        };
        if (acc) add('ACCEL', acc, (n + 1) * (k + 1), acc === 'g' ? 9.80665 : 1);
        if (gyr) add('GYRO', gyr, (k + 1) / 10, gyr === 'deg/s' ? Math.PI / 180 : 1);
        if (position) add('POS', 'm', 1, 1);
      }
    const table = [['name', 'component', 'type', 'tracked_point', 'units'], ...channels].map((row) => row.join('\t'));
    writeFileSync(`${stem}_channels.tsv`, `${table.join('\n')}\n`);
    writeFileSync(`${stem}_motion.json`, '{"TaskName":"running","SamplingFrequency":200}');
    writeFileSync(`${stem}_motion.tsv`, `${values.join('\t')}\n`.repeat(40));
  }
  return folder;
}

async function read(file: string, layout: string) {
  const { recordings } = await readCsvRecording(readFileSync(file), {
    file_name: basename(file),
    layout: JSON.parse(layout) as LayoutCorrection,
  });
  return recordings.map(({ side, samples }) => ({
    side,
    rate: samples.sampling_rate_hz,
    acc: (['x', 'y', 'z'] as const).map((axis) => samples.acc_mps2[axis][5]),
    gyr: samples.gyr_radps && (['x', 'y', 'z'] as const).map((axis) => samples.gyr_radps![axis][5]),
  }));
}

const close = (values: number[]) => values.map((value) => expect.closeTo(value, 6));

describe("others' Motion-BIDS sets", () => {
  it('need neither session nor run', () => {
    const set = setOf({ 'sub-1/motion/sub-1_task-run_tracksys-imu': [{ name: 'LeftFoot', acc: 'm/s^2' }] });
    const [line] = motionBidsLines(set);
    expect(line.label).toBe('sub-1');
    expect(Object.keys(line.files)).toEqual(['left']);
  });

  it('may name how they were acquired', () => {
    const set = setOf({
      'sub-1/ses-a/motion/sub-1_ses-a_task-run_tracksys-imu_acq-fast_run-2': [{ name: 'RightShank', acc: 'm/s^2' }],
    });
    const [line] = motionBidsLines(set);
    expect(line.label).toBe('sub-1 ses-a run-2');
    expect(line.form.mounting).toBe('shank');
    expect(Object.keys(line.files)).toEqual(['right']);
  });

  it('are read in the units of their channels file', async () => {
    const set = setOf({ 'sub-1/motion/sub-1_task-run_tracksys-imu': [{ name: 'LeftFoot', acc: 'g', gyr: 'deg/s' }] });
    const [line] = motionBidsLines(set);
    const [sensor] = await read(line.files.left!, line.form.layout!);
    expect(sensor.acc).toEqual(close([1, 2, 3]));
    expect(sensor.gyr).toEqual(close([0.1, 0.2, 0.3]));
    expect(sensor.rate).toBeCloseTo(200, 6);
  });

  it('may hold both feet in one file, beside other points: each foot is read from its own columns', async () => {
    const points = ['Pelvis', 'RightFoot', 'LeftFoot', 'LeftShank'].map((name) => ({
      name,
      acc: 'm/s^2',
      gyr: 'rad/s',
    }));
    const [line] = motionBidsLines(setOf({ 'sub-1/motion/sub-1_task-run_tracksys-suit': points }));
    expect(Object.keys(line.files)).toEqual(['file']);
    const sensors = await read(line.files.file!, line.form.layout!);
    expect(sensors.map(({ side }) => side)).toEqual(['left', 'right']);
    expect(sensors.map(({ acc }) => acc)).toEqual([close([3, 6, 9]), close([2, 4, 6])]);
  });

  it('are read from the shanks where no foot is tracked', () => {
    const points = ['l_shank', 'r_shank', 'chest'].map((name) => ({ name, acc: 'm/s^2' }));
    const [line] = motionBidsLines(setOf({ 'sub-1/motion/sub-1_task-run_tracksys-imu': points }));
    expect(line.form.mounting).toBe('shank');
    expect((JSON.parse(line.form.layout!) as { sensors: { side: string }[] }).sensors.map(({ side }) => side)).toEqual([
      'left',
      'right',
    ]);
  });

  it('are read without their optical systems, and each that is left out is told', () => {
    const set = setOf({
      'sub-1/motion/sub-1_task-run_tracksys-imu': [{ name: 'LeftFoot', acc: 'm/s^2' }],
      'sub-1/motion/sub-1_task-run_tracksys-optical': [{ name: 'LeftFoot', position: true }],
    });
    const skipped: string[] = [];
    const lines = motionBidsLines(set, (why) => skipped.push(why.message));
    expect(lines.length).toBe(1);
    expect(skipped.length).toBe(1);
    expect(skipped[0]).toContain('tracksys-optical');
  });

  it('are refused with the unit where it is none of acceleration', () => {
    const set = setOf({ 'sub-1/motion/sub-1_task-run_tracksys-imu': [{ name: 'LeftFoot', acc: 'furlong' }] });
    expect(() => motionBidsLines(set)).toThrow(/"furlong"/);
  });

  it('are refused with their points where none of several lies on a foot or shank', () => {
    const points = ['Head', 'Pelvis'].map((name) => ({ name, acc: 'm/s^2' }));
    const set = setOf({ 'sub-1/motion/sub-1_task-run_tracksys-imu': points });
    expect(() => motionBidsLines(set)).toThrow(/Head, Pelvis/);
  });
});

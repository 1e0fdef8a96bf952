import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { motionBidsLines } from '../../../api/export/motion-bids/import-lines.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { isStandIn } from '../../../shared/dates.ts';
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
  magnetic?: boolean;
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
    for (const [n, { name, acc, gyr, position, magnetic }] of points.entries())
      for (const [k, axis] of ['x', 'y', 'z'].entries()) {
        const add = (type: string, unit: string, si: number, one: number) => {
          channels.push([`${type}_${name}_${axis}`, axis, type, name, unit]);
          values.push(si / one);
        };
        if (position) add('POS', 'm', 1, 1);
        if (acc) add('ACCEL', acc, (n + 1) * (k + 1), acc === 'g' ? 9.80665 : 1);
        if (gyr) add('GYRO', gyr, (k + 1) / 10, gyr === 'deg/s' ? Math.PI / 180 : 1);
        if (magnetic) add('MAGN', 'T', 5e-5, 1);
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
    const [sensor] = await read(line.files.left!, line.form.layout_left!);
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
    const lines = motionBidsLines(set, { onLeftOut: (why) => skipped.push(why.message) });
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

  it('have a layout for each file: left and right may order their channels and name their units differently', async () => {
    const set = setOf({
      'sub-1/motion/sub-1_task-run_tracksys-a': [{ name: 'LeftFoot', acc: 'g', gyr: 'deg/s' }],
      'sub-1/motion/sub-1_task-run_tracksys-b': [{ name: 'RightFoot', position: true, acc: 'm/s^2', gyr: 'rad/s' }],
    });
    const [line] = motionBidsLines(set);
    for (const side of ['left', 'right'] as const) {
      const [sensor] = await read(line.files[side]!, line.form[`layout_${side}`]!);
      expect(sensor.acc).toEqual(close([1, 2, 3]));
      expect(sensor.gyr).toEqual(close([0.1, 0.2, 0.3]));
    }
  });

  it('may hold a further system of the same run: the feet are read, the watch is told', () => {
    const set = setOf({
      'sub-1/motion/sub-1_task-run_tracksys-suit': ['LeftFoot', 'RightFoot'].map((name) => ({ name, acc: 'm/s^2' })),
      'sub-1/motion/sub-1_task-run_tracksys-watch': [{ name: 'Wrist', acc: 'm/s^2' }],
    });
    const told: string[] = [];
    const [line] = motionBidsLines(set, { onLeftOut: (why) => told.push(why.message) });
    expect(line.files.file).toContain('tracksys-suit');
    expect(told.join()).toContain('tracksys-watch');
  });

  it('offer every tracked point, and read those that are chosen', async () => {
    const points = ['t1', 't2', 't3'].map((name) => ({ name, acc: 'm/s^2', gyr: 'rad/s' }));
    const set = setOf({ 'sub-1/motion/sub-1_task-run_tracksys-imu': points });
    expect(() => motionBidsLines(set)).toThrow(/t1, t2, t3/);
    const told: string[] = [];
    const [line] = motionBidsLines(set, {
      points: new Map([
        ['t3', 'left'],
        ['t2', 'right'],
      ]),
      mounting: 'shank',
      onLeftOut: (why) => told.push(why.message),
    });
    expect(line.form.mounting).toBe('shank');
    const sensors = await read(line.files.file!, line.form.layout!);
    expect(sensors.map(({ side, acc }) => [side, acc])).toEqual([
      ['left', close([3, 6, 9])],
      ['right', close([2, 4, 6])],
    ]);
    expect(told.join()).toContain('"others":["t1"]');
  });

  it('may keep one channels file and one sidecar for all their recordings above them', async () => {
    const set = setOf({ 'sub-1/motion/sub-1_task-run_tracksys-imu': [{ name: 'LeftFoot', acc: 'm/s^2' }] });
    for (const ending of ['channels.tsv', 'motion.json'])
      renameSync(
        join(set, `sub-1/motion/sub-1_task-run_tracksys-imu_${ending}`),
        join(set, `task-run_tracksys-imu_${ending}`),
      );
    const [line] = motionBidsLines(set);
    const [sensor] = await read(line.files.left!, line.form.layout_left!);
    expect(sensor.acc).toEqual(close([1, 2, 3]));
    expect(sensor.rate).toBeCloseTo(200, 6);
  });

  it('tell their days in the scans or sessions file; a day that neither tells stays unknown, and sessions stay apart', () => {
    const one = [{ name: 'LeftFoot', acc: 'm/s^2' }];
    const set = setOf(
      Object.fromEntries(
        ['a', 'b', 'c', 'd'].map((ses) => [`sub-1/ses-${ses}/motion/sub-1_ses-${ses}_task-run_tracksys-imu`, one]),
      ),
    );
    const scans = (ses: string, time: string) =>
      writeFileSync(
        join(set, `sub-1/ses-${ses}/sub-1_ses-${ses}_scans.tsv`),
        `filename\tacq_time\nmotion/sub-1_ses-${ses}_task-run_tracksys-imu_motion.tsv\t${time}\n`,
      );
    scans('a', '1911-03-04T10:00:00');
    scans('b', 'n/a');
    writeFileSync(
      join(set, 'sub-1/sub-1_sessions.tsv'),
      'session_id\tacq_time\nses-b\tn/a\nses-d\t2024-05-06T09:00:00\n',
    );
    const days = motionBidsLines(set).map(({ date }) => date);
    expect(days[0]).toBe('1911-03-04');
    expect(days[3]).toBe('2024-05-06');
    expect(days.slice(1, 3).every(isStandIn)).toBe(true);
    expect(days[1]).not.toBe(days[2]);
  });
});

/**
 * Shaped after the three public example sets of the standard (motion_dualtask, motion_spotrotation, motion_systemvalidation of
 * bids-examples), from the specification and from memory: the sets themselves are not at hand. Values are invented.
 */
describe('sets shaped as the public examples', () => {
  const positions = (...names: string[]): Point[] => names.map((name) => ({ name, position: true }));

  it('of a dual task, with optical systems alone, is refused with a word for each file', () => {
    const set = setOf(
      Object.fromEntries(
        ['1', '2'].map((sub) => [
          `sub-${sub}/motion/sub-${sub}_task-dualWalk_tracksys-optical`,
          positions('LeftFoot', 'RightFoot', 'Head'),
        ]),
      ),
    );
    const told: string[] = [];
    expect(() => motionBidsLines(set, { onLeftOut: (why) => told.push(why.message) })).toThrow(/none_inertial/);
    expect(told.length).toBe(2);
  });

  it('of turning on a spot, with two systems of virtual reality and sessions, is refused alike', () => {
    const set = setOf(
      Object.fromEntries(
        ['body', 'joystick'].flatMap((ses) =>
          ['headset', 'phased'].map((system) => [
            `sub-1/ses-${ses}/motion/sub-1_ses-${ses}_task-rotation_tracksys-${system}_run-1`,
            positions('Head', 'Torso'),
          ]),
        ),
      ),
    );
    expect(() => motionBidsLines(set)).toThrow(/none_inertial/);
  });

  it('of a validated system, sixteen points of acceleration, rate and magnetic field beside optical markers: the feet are read', async () => {
    const body = ['head', 'sternum', 'pelvis', 'back', 'left_upper_arm', 'right_upper_arm', 'left_hand', 'right_hand'];
    const legs = [
      'left_thigh',
      'right_thigh',
      'left_shank',
      'right_shank',
      'left_foot',
      'right_foot',
      'left_wrist',
      'right_wrist',
    ];
    const points = [...body, ...legs].map((name) => ({ name, acc: 'g', gyr: 'deg/s', magnetic: true }));
    const set = setOf({
      'sub-A/motion/sub-A_task-walk_tracksys-imu': points,
      'sub-A/motion/sub-A_task-walk_tracksys-omc': positions('left_heel', 'right_heel'),
    });
    const told: string[] = [];
    const [line] = motionBidsLines(set, { onLeftOut: (why) => told.push(why.message) });
    expect(line.form.mounting).toBe('foot');
    const sensors = await read(line.files.file!, line.form.layout!);
    const nth = (name: string) => points.findIndex((point) => point.name === name) + 1;
    expect(sensors.map(({ side, acc }) => [side, acc])).toEqual([
      ['left', close([1, 2, 3].map((k) => k * nth('left_foot')))],
      ['right', close([1, 2, 3].map((k) => k * nth('right_foot')))],
    ]);
    expect(told.some((text) => text.includes('tracksys-omc'))).toBe(true);
    expect(told.some((text) => text.includes('left_shank') && text.includes('sternum'))).toBe(true);
  });
});

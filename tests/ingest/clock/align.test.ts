import { told } from '../../helpers/told.ts';
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { align } from '../../../ingest/clock/align.ts';
import type { Alignment } from '../../../ingest/clock/alignment.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import { recordingsFolder } from '../../helpers/recordings.ts';
import { addKnocks } from './add-knocks.ts';
import { makePair, type Pair, type PairOptions } from './make-pair.ts';

/** How far apart the alignment puts the same instant on both feet, seconds, in the middle of the run. */
function errorOf(pair: Pair, alignment: Alignment, options: PairOptions): number {
  const world = (pair.run_s[0] + pair.run_s[1]) / 2;
  const left = world * (1 + (options.left_drift ?? 0));
  const right = (world - options.right_starts_s) * (1 + (options.right_drift ?? 0));
  return right * (1 + alignment.drift) + alignment.right_offset_s - (left + alignment.left_offset_s);
}

describe('unrelated clocks', () => {
  test('align puts knocks before and after the run within 1 ms, one clock 200 ppm fast and started seconds later', () => {
    for (const [seed, mounting] of [
      [21, 'foot'],
      [22, 'shank'],
    ] as const) {
      const options: PairOptions = {
        seed,
        mounting,
        jumps_before: 0,
        stand_s: 6,
        right_starts_s: 2.3,
        right_drift: 2e-4,
      };
      const pair = makePair(options);
      const instants = [2.9, 3.7, 4.3, pair.end_s - 1.7, pair.end_s - 1.1, pair.end_s - 0.4];
      const left = addKnocks(pair.left, instants, 'x');
      const right = addKnocks(
        pair.right,
        instants.map((t) => (t - 2.3) * (1 + 2e-4)),
        'z',
      );
      const alignment = align(left, right);
      expect(alignment.method).toBe('shared impacts');
      expect(Math.abs(errorOf(pair, alignment, options))).toBeLessThan(0.001);
      expect(Math.abs(alignment.drift + 2e-4)).toBeLessThan(4e-5);
    }
  });

  test('align puts jumps within its own uncertainty, though the feet land up to 12 ms apart', () => {
    const errors: number[] = [];
    for (let seed = 31; seed < 35; seed++) {
      const options: PairOptions = {
        seed,
        mounting: seed % 2 ? 'foot' : 'shank',
        jumps_before: 3,
        jumps_after: 3,
        right_starts_s: 1 + 0.6 * (seed % 4),
        left_drift: -3e-5,
        right_drift: (seed % 3) * 1e-4,
      };
      const pair = makePair(options);
      const alignment = align(pair.left, pair.right);
      const error = errorOf(pair, alignment, options);
      expect(['shared impacts', 'step alternation']).toContain(alignment.method);
      expect(Math.abs(error)).toBeLessThan(3 * alignment.u);
      errors.push(error);
    }
    expect(Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length)).toBeLessThan(0.003);
  });

  test('align by steps alone says so, or refuses, and is never a stride off', () => {
    for (let seed = 41; seed < 45; seed++) {
      const options: PairOptions = {
        seed,
        mounting: seed % 2 ? 'foot' : 'shank',
        jumps_before: 0,
        right_starts_s: 1.7,
      };
      const pair = makePair(options);
      const alignment = align(pair.left, pair.right);
      expect(alignment.fault).toBeDefined();
      if (alignment.method !== 'none') expect(Math.abs(errorOf(pair, alignment, options))).toBeLessThan(0.02);
    }
  });

  test('align refuses two recordings of different runs', () => {
    const one = makePair({ seed: 51, mounting: 'foot', jumps_before: 0, right_starts_s: 0.5 });
    const other = makePair({ seed: 52, mounting: 'foot', jumps_before: 0, right_starts_s: 0.5, runs: 2 });
    const alignment = align(one.left, other.right);
    expect(alignment.method).toBe('none');
    expect(alignment.confidence).toBe(0);
    expect(alignment.fault?.code).toBe('CLOCKS_NOT_ALIGNED');
  });

  test('align refuses one recording given for both sides', () => {
    const { left } = makePair({ seed: 53, mounting: 'foot', jumps_before: 0, right_starts_s: 0.5 });
    expect(align(left, { ...left })).toMatchObject({ method: 'none', fault: { code: 'SAME_RECORDING_TWICE' } });
  });

  test('align refuses empty recordings', () => {
    const none = new Float64Array(0);
    const axes = { x: none, y: none, z: none };
    const empty: SampleBlock = {
      start_utc: null,
      sampling_rate_hz: 500,
      time_s: none,
      acc_mps2: axes,
      gyr_radps: null,
      gaps: [],
      acc_range_mps2: null,
      gyr_range_radps: null,
    };
    expect(align(empty, empty).method).toBe('none');
  });
});

describe('a clock that starts again', () => {
  test('align finds from the other foot how long the sensor was away', () => {
    const options: PairOptions = { seed: 71, mounting: 'foot', jumps_before: 3, jumps_after: 3, right_starts_s: 1.2 };
    const pair = makePair(options);
    const away_s = 0.83;
    const cut_s = pair.run_s[0] - 1.6 - options.right_starts_s;
    const right = restartedAt(pair.right, cut_s, away_s);
    const alignment = align(pair.left, right);
    expect(alignment.method).toBe('shared impacts');
    const tied = alignment.tied!.right!;
    const gap = tied.gaps.find((entry) => entry.start_s > cut_s - 0.01)!;
    expect(Math.abs(gap.end_s - gap.start_s - away_s)).toBeLessThan(0.012);
    expect(gap.lost_samples).toBeGreaterThan(400);
    expect(
      Math.abs(tied.time_s[tied.time_s.length - 1] - pair.right.time_s[pair.right.time_s.length - 1]),
    ).toBeLessThan(0.012);
    expect(Math.abs(errorOf(pair, alignment, options))).toBeLessThan(0.012);
  });
});

describe('shared clocks', () => {
  const pair = makePair({ seed: 61, mounting: 'foot', jumps_before: 0, right_starts_s: 0.8 });

  test('align takes absolute stamps as they are', () => {
    const alignment = align(
      { ...pair.left, start_utc: '2026-05-04T09:00:00.000000Z' },
      { ...pair.right, start_utc: '2026-05-04T09:00:00.800000Z' },
    );
    expect(alignment).toMatchObject({ left_offset_s: 0, method: 'absolute stamps', drift: 0, u: 0, confidence: 1 });
    expect(alignment.right_offset_s).toBeCloseTo(0.8, 6);
  });

  test('align refines stamps that were written to the second, or that two clocks disagree on', () => {
    const written = align(
      { ...pair.left, start_utc: '2026-05-04T09:00:00.000000Z', start_utc_u_s: 0.29 },
      { ...pair.right, start_utc: '2026-05-04T09:00:01.000000Z', start_utc_u_s: 0.29 },
    );
    expect(written.fault?.code).toBe('CLOCKS_UNCERTAIN');
    expect(Math.abs(written.right_offset_s - 0.8)).toBeLessThan(0.012);
    const set = align(
      { ...pair.left, start_utc: '2026-05-04T09:00:00.000000Z' },
      { ...pair.right, start_utc: '2026-05-04T09:00:00.890000Z' },
    );
    expect(set.fault?.code).toBe('CLOCKS_UNCERTAIN');
    expect(Math.abs(set.right_offset_s - 0.8)).toBeLessThan(0.012);
  });

  test.each([
    ['two seconds, a second off', 0.9, 0.29],
    ['a little over a sample, off by what is left of a network', 0.025, 0.004],
  ])('align looks as far from stamps as their uncertainty says: %s', (_, off_s, start_utc_u_s) => {
    const at = (seconds: number) => new Date(Date.UTC(2026, 4, 4, 9) + 1000 * seconds).toISOString();
    const found = align(
      { ...pair.left, start_utc: at(0), start_utc_u_s },
      { ...pair.right, start_utc: at(0.8 + off_s), start_utc_u_s },
    );
    expect(found.fault?.code).toBe('CLOCKS_UNCERTAIN');
    expect(Math.abs(found.right_offset_s - 0.8)).toBeLessThan(0.012);
  });

  test('align takes stamps an hour apart for two time zones when the steps bear it out, and says so', () => {
    const left = { ...pair.left, start_utc: '2026-05-04T09:00:00.000000Z' };
    for (const start_utc of ['2026-05-04T10:00:00.800000Z', '2026-05-04T03:30:00.800000Z']) {
      const alignment = align(left, { ...pair.right, start_utc });
      expect(alignment.method).toBe('absolute stamps');
      expect(alignment.right_offset_s).toBeCloseTo(0.8, 6);
      expect(alignment.fault?.code).toBe('CLOCKS_UNCERTAIN');
      expect(told(alignment.fault).message).toContain('time zone');
    }
    // Here the steps fit nowhere near: the hour explains nothing.
    const wrong = align(left, { ...pair.right, start_utc: '2026-05-04T10:00:05.930000Z' });
    expect(wrong.fault ? told(wrong.fault).message : '').not.toContain('time zone');
  });

  test('align gives the offset to the side that started later', () => {
    const alignment = align({ ...pair.right, clock_start_s: 100.8 }, { ...pair.left, clock_start_s: 100 });
    expect(alignment).toMatchObject({ method: 'common time column', right_offset_s: 0, confidence: 1 });
    expect(alignment.left_offset_s).toBeCloseTo(0.8, 9);
  });

  test('align overrules stamps that would let both feet step together', () => {
    const jumped = makePair({ seed: 62, mounting: 'foot', jumps_before: 3, right_starts_s: 0.8 });
    const stride = 0.25;
    const alignment = align({ ...jumped.left, clock_start_s: 50 }, { ...jumped.right, clock_start_s: 50.8 + stride });
    expect(alignment.fault?.code).toBe('CLOCKS_UNCERTAIN');
    expect(Math.abs(alignment.right_offset_s - 0.8)).toBeLessThan(0.01);
  });
});

const folder = recordingsFolder();
test.skipIf(folder === null)(
  'align keeps the one clock of treadmill recordings, and refuses an even pace on two',
  async () => {
    for (const name of ['treadmill-run-RBDS001-T45', 'treadmill-run-RBDS018-T25', 'treadmill-run-davis']) {
      for (const mounting of ['foot', 'shank']) {
        const [left, right] = await Promise.all(
          ['left', 'right'].map(async (side) => {
            const file_name = `${mounting}_${side}.csv.gz`;
            return (await readCsvRecording(readFileSync(`${folder}/${name}/${file_name}`), { file_name })).recordings[0]
              .samples;
          }),
        );
        expect(align(left, right)).toMatchObject({ right_offset_s: 0, method: 'common time column', confidence: 1 });
        expect(align(left, startingLater(right, 1.3)).method).toBe('none');
      }
    }
  },
);

/** What a reader makes of a sensor that was off for a while and began again at zero: the gap's length is not known. */
function restartedAt(block: SampleBlock, cut_s: number, away_s: number): SampleBlock {
  const period = 1 / block.sampling_rate_hz;
  const kept = Array.from(block.time_s.keys()).filter(
    (row) => block.time_s[row] < cut_s || block.time_s[row] >= cut_s + away_s,
  );
  const pick = (column: Float64Array) => Float64Array.from(kept, (row) => column[row]);
  const pickAxes = (axes: SampleBlock['acc_mps2']) => ({ x: pick(axes.x), y: pick(axes.y), z: pick(axes.z) });
  const time_s = pick(block.time_s);
  const after = time_s.findIndex((t) => t >= cut_s);
  const shift = time_s[after] - time_s[after - 1] - period;
  for (let row = after; row < time_s.length; row++) time_s[row] -= shift;
  return {
    ...block,
    time_s,
    acc_mps2: pickAxes(block.acc_mps2),
    gyr_radps: block.gyr_radps && pickAxes(block.gyr_radps),
    gaps: [{ start_s: time_s[after - 1], end_s: time_s[after], lost_samples: null }],
  };
}

function startingLater(block: SampleBlock, from_s: number): SampleBlock {
  const first = block.time_s.findIndex((t) => t >= from_s);
  const cut = (column: Float64Array) => column.slice(first);
  const cutAxes = (axes: SampleBlock['acc_mps2']) => ({ x: cut(axes.x), y: cut(axes.y), z: cut(axes.z) });
  return {
    ...block,
    clock_start_s: 0,
    time_s: cut(block.time_s).map((t) => t - block.time_s[first]),
    acc_mps2: cutAxes(block.acc_mps2),
    gyr_radps: block.gyr_radps && cutAxes(block.gyr_radps),
  };
}

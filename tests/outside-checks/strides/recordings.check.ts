import { describe, expect, test } from 'vitest';
import { recordingsFolders } from '../../helpers/recordings.ts';
import { judgedStrides, leaveOneRunnerOut } from './fit-length-uncertainty.ts';
import { fasterErrors, shoeSensorErrors, treadmillErrors } from './stride-figures.ts';

const folders = recordingsFolders();
const folder = folders?.[0] ?? null;
/** One speed of each runner keeps this short; `npm run validate:strides` runs them all. */
const RECORDINGS = ['RBDS001-T35', 'RBDS002-T45', 'RBDS013-T35', 'RBDS014-T25', 'RBDS018-T45', 'davis'];

describe.skipIf(folder === null)('on the treadmill (skipped where the recordings are absent)', () => {
  test.each(RECORDINGS)('%s: stride length within 2 +- 4 % of the belt, angles near the markers', async (name) => {
    const errors = await treadmillErrors(folder!, name);
    const stride = errors.of('stride_length_%');
    expect(stride.n).toBeGreaterThan(20);
    expect(Math.abs(stride.bias)).toBeLessThan(2);
    expect(stride.sd).toBeLessThan(4);
    expect(stride.covered).toBeGreaterThan(0.9);
    // The markers' angles are good to 2 deg; the zero of the progression is the markers' and may be off by several.
    expect(Math.abs(errors.of('foot_pitch_touchdown_deg').bias)).toBeLessThan(4);
    expect(errors.of('foot_pitch_touchdown_deg').sd).toBeLessThan(3);
    expect(Math.abs(errors.of('foot_pitch_toe_off_deg').bias)).toBeLessThan(4);
    expect(errors.of('foot_pitch_toe_off_deg').sd).toBeLessThan(2);
    expect(Math.abs(errors.of('foot_progression_deg').bias)).toBeLessThan(8);
    expect(errors.of('foot_progression_deg').sd).toBeLessThan(5);
    expect(Math.abs(errors.of('shank_rotation_deg').bias)).toBeLessThan(3);
    expect(errors.of('shank_rotation_deg').sd).toBeLessThan(2);
  });
});

describe.skipIf(folder === null)('stated uncertainty of stride length (skipped without the recordings)', () => {
  test('holds 93 to 97 % of the strides of left-out runners at 3.5 m/s, no runner below 80 %', async () => {
    const judged = leaveOneRunnerOut(await judgedStrides(folders!, 'T35')).filter(({ set }) => set === 'belts');
    const sum = (of: 'held' | 'n') => judged.reduce((total, one) => total + one[of], 0);
    expect(judged.length).toBeGreaterThanOrEqual(5);
    expect(sum('held') / sum('n')).toBeGreaterThan(0.93);
    expect(sum('held') / sum('n')).toBeLessThan(0.97);
    for (const { held, n } of judged) expect(held / n).toBeGreaterThan(0.8);
  }, 120_000);
});

describe.skipIf(folder === null)('the same feet played twice as fast (skipped without the recordings)', () => {
  test('strides within 2 +- 4 % of the belt’s way; with 16 g of range they are refused, not guessed', async () => {
    const { errors, refused, strides } = await fasterErrors(folder!, 'RBDS001-T35', 2, null);
    const stride = errors.of('stride_length_%');
    expect(stride.n).toBeGreaterThan(70);
    expect(refused / strides).toBeLessThan(0.1);
    expect(Math.abs(stride.bias)).toBeLessThan(2);
    expect(stride.sd).toBeLessThan(4);
    const clipped = await fasterErrors(folder!, 'RBDS001-T35', 2, '16 g');
    expect(clipped.refused / clipped.strides).toBeGreaterThan(0.95);
  });
});

describe.skipIf(folder === null)('a real shoe sensor beside motion capture (skipped without the recordings)', () => {
  test('strides within 2 +- 4 % where the gyroscope was in range, and none where it was not', async () => {
    const { errors, refused } = await shoeSensorErrors(folder!);
    const stride = errors.of('stride_length_%');
    expect(stride.n).toBeGreaterThan(140);
    expect(refused).toBeGreaterThan(5);
    expect(Math.abs(stride.bias)).toBeLessThan(2);
    expect(stride.sd).toBeLessThan(3);
    expect(stride.covered).toBeGreaterThan(0.9);
  });
});

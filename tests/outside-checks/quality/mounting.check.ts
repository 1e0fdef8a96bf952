/**
 * How sensors were worn, on recordings that nobody here made: Fukuchi et al. 2017, doi 10.7717/peerj.3298; Davis 2022; Dorn et al.
 * 2012, doi 10.1242/jeb.064527; Wagstaff et al. 2021, doi 10.21227/v1z6-9z84; LMU HAR Lab 2023; adeptdata 1.1. They are worn
 * as stated; the same ones stated wrongly are what must be told. All figures: `npm run validate:mounting`.
 */
import { describe, expect, it } from 'vitest';
import type { SensorQuality } from '../../../shared/analysis.ts';
import { recordingsFolder } from '../../helpers/recordings.ts';
import { forcePlateCases } from '../validation/force-plate-cases.ts';
import {
  accelerometerCases,
  checkOf,
  countFindings,
  qualityOf,
  shoeLoopCases,
  type WornCase,
} from './mounting-figures.ts';

const folder = recordingsFolder();

async function all(cases: AsyncIterable<WornCase>): Promise<WornCase[]> {
  const list: WornCase[] = [];
  for await (const one of cases) list.push(one);
  return list;
}

describe.skipIf(folder === null)('how real sensors were worn', async () => {
  const pairs = folder === null ? [] : await all(forcePlateCases(folder));
  const single =
    folder === null ? [] : [...(await all(shoeLoopCases(folder))), ...(await all(accelerometerCases(folder)))];
  const qualities = (cases: WornCase[], mistake: string): SensorQuality[] =>
    cases.flatMap((one) => qualityOf(one, mistake));
  const asWorn = new Map([...pairs, ...single].map((one) => [one, qualityOf(one, 'as worn')]));
  const worn = (cases: WornCase[]): SensorQuality[] => cases.flatMap((one) => asWorn.get(one)!);
  const of = (mounting: 'foot' | 'shank') => pairs.filter((one) => one.mounting === mounting);

  it('raises no doubt about any recording worn as stated', () => {
    const judged = worn([...pairs, ...single]);
    expect(judged.length).toBe(68 + 15);
    for (const quality of judged) {
      const doubts = quality.mounting_checks!.filter(({ finding }) => finding === 'doubtful');
      expect(doubts, `${quality.side} ${quality.mounting}`).toEqual([]);
    }
    const { segment, side } = countFindings(judged);
    // Single jogs on tight curves lie about the limits, and accelerometers alone see no turning.
    expect(segment['as expected']).toBeGreaterThanOrEqual(64);
    expect(side['as expected']).toBeGreaterThanOrEqual(60);
  });

  it('keeps well away from the limits where the sensor is worn as stated', () => {
    for (const mounting of ['foot', 'shank'] as const) {
      const values = worn(of(mounting)).map((quality) => checkOf(quality, 'segment').value);
      const known = values.filter((value) => value !== null);
      // Limits: a foot is doubted above 0.6, a shank below 0.35.
      if (mounting === 'foot') expect(Math.max(...known)).toBeLessThan(0.4);
      else expect(Math.min(...known)).toBeGreaterThan(0.65);
      const sides = worn(of(mounting)).map((quality) => checkOf(quality, 'side').value ?? 1);
      // Limit: -0.35; what is usual is 1.
      expect(Math.min(...sides)).toBeGreaterThan(0.4);
    }
    const turns = worn(pairs).map((quality) => checkOf(quality, 'turning').value ?? 0);
    expect(Math.max(...turns)).toBeLessThan(6);
  });

  it('tells a shank sensor that is said to be on the foot, and a foot sensor said to be on the shank', () => {
    const shanks = countFindings(qualities(of('shank'), 'other mounting stated')).segment;
    expect(shanks.doubtful).toBeGreaterThanOrEqual(32);
    expect(shanks['as expected']).toBe(0);
    const feet = countFindings(qualities(of('foot'), 'other mounting stated')).segment;
    expect(feet.doubtful).toBeGreaterThanOrEqual(32);
    expect(feet['as expected']).toBe(0);
  });

  it('tells swapped sides, on the foot and on the shank', () => {
    for (const mounting of ['foot', 'shank'] as const) {
      const { side } = countFindings(qualities(of(mounting), 'sides swapped'));
      expect(side.doubtful).toBeGreaterThanOrEqual(30);
      expect(side['as expected']).toBe(0);
    }
  });

  it.each(['turned by 30 degrees', 'crept by 40 degrees'])('tells a sensor that %s on the leg', (mistake) => {
    // Every third recording: turning makes new columns of all of them.
    const { turning } = countFindings(
      qualities(
        pairs.filter((_, k) => k % 3 === 1),
        mistake,
      ),
    );
    expect(turning.doubtful).toBeGreaterThanOrEqual(20);
    expect(turning['as expected']).toBe(0);
  });
});

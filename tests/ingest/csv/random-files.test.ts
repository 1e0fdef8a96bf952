import { expect, test } from 'vitest';
import { judge } from './random-files/judge.ts';
import { makeRandomFile } from './random-files/make-random-file.ts';

/** A sample of what `npm run files` reads by the thousand. */
const SEEDS = Array.from({ length: 150 }, (_, i) => 100_001 + i);

test('150 random plausible files are read to the digit, asked about with the right choice, or refused with a reason', async () => {
  const bad: string[] = [];
  let right = 0;
  for (const seed of SEEDS) {
    const file = makeRandomFile(seed, 1, 256);
    const { outcome, why } = await judge(file);
    if (outcome === 'right') right++;
    if (outcome === 'SILENTLY WRONG' || outcome === 'WITHOUT END') bad.push(`seed ${seed} ${outcome}: ${why}`);
  }
  expect(bad).toEqual([]);
  expect(right).toBeGreaterThan(0.6 * SEEDS.length);
}, 180_000);

/** Once a step of 41 units without a word was taken for milliseconds; once words in every row of UTF-16 were taken for no text. */
test.each([9, 5, 3355, 4760])('file %i, once wrong, is read to the digit, asked about or told', async (seed) => {
  const { outcome } = await judge(makeRandomFile(seed, 6));
  expect(['right', 'asked, right choice', 'told']).toContain(outcome);
});

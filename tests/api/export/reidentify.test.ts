import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';
import { attackedLevels, moreThanChance } from './reidentify/attacked-levels.ts';
import type { AttackResult } from './reidentify/attacks.ts';

let api: TestApi;
let results: Awaited<ReturnType<typeof attackedLevels>>;
beforeAll(async () => {
  api = await openTestApi();
  results = await attackedLevels(api, 12, 14);
}, 120_000);
afterAll(() => api.close());

const finds = (level: AttackResult[]) => level.filter(({ found, of }) => found > of / 2).map(({ attack }) => attack);

// The attacker knows every body, the calendar, the weather, who ran when, hashes of files, and the rule of the bands.
describe('somebody who knows the club', () => {
  it('finds something in a set of pseudonyms by every attack tried here, and by all but the running order most of it', () => {
    expect(results.pseudonyms.filter(({ found }) => found === 0)).toEqual([]);
    const most = results.pseudonyms
      .map(({ attack }) => attack)
      .filter((name) => name !== 'places in the running order');
    expect(finds(results.pseudonyms)).toEqual(expect.arrayContaining(most));
  });

  it('still finds moved dates, by their distances and by the weather', () => {
    expect(finds(results['dates moved'])).toEqual(
      expect.arrayContaining(['distances between dates', 'temperature and pressure']),
    );
    expect(finds(results['dates moved'])).not.toContain('the date as written');
  });

  it('finds none in a set of the open level, and its rows are in no known order', () => {
    expect(results.open.filter(moreThanChance)).toEqual([]);
    expect(results.open.every(({ of }) => of > 0)).toBe(true);
  });
});

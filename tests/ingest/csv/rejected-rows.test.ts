import { describe, expect, test } from 'vitest';
import { RejectedRows } from '../../../ingest/csv/rows/rejected-rows.ts';
import { because } from '../../../shared/reason.ts';
import { inWords, refusalOf } from '../../helpers/told.ts';

const aside = (count: number) => {
  const rows = new RejectedRows('walk.csv');
  for (let i = 0; i < count; i++) rows.add(10 + i, 'acc_x', 'abc', because('row_number'), ['0.1', 'abc'], ',');
  return rows;
};

describe('rows set aside', () => {
  test('refuse a file above 5 % of its rows, not at 5 %', () => {
    expect(() => aside(50).check(950)).not.toThrow();
    expect(() => aside(51).check(949)).toThrow();
    expect(refusalOf(() => aside(60).check(940))).toMatch(/60 of 1000 rows/);
  });

  test('refuse nothing as long as there are fewer than five', () => {
    expect(() => aside(4).check(6)).not.toThrow();
    expect(() => aside(5).check(6)).toThrow();
  });

  test('refuse early only what the rest of the file cannot mend', () => {
    expect(() => aside(2000).checkEarly(0)).not.toThrow();
    expect(() => aside(2001).checkEarly(2001)).not.toThrow();
    expect(() => aside(2001).checkEarly(2000)).toThrow();
  });

  test('are all counted, and the first ten thousand kept with their place and text', () => {
    const rows = aside(10_003);
    expect([rows.count, rows.kept.length]).toEqual([10_003, 10_000]);
    expect(inWords(rows.kept[1])).toEqual({
      line: 11,
      column: 'acc_x',
      found: 'abc',
      expected: 'a number',
      text: '0.1,abc',
    });
  });
});

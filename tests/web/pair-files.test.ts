import { describe, expect, test } from 'vitest';
import { pairFiles, sideOfName } from '../../web/pages/files/pair-files.ts';

const file = (name: string) => new File(['x'], name);
const names = (files: string[]) =>
  pairFiles(files.map(file)).map(({ left, right, both }) => [left?.name, right?.name, both?.name]);

describe('sideOfName', () => {
  test.each([
    ['left.csv', 'left'],
    ['Run 3 RIGHT shoe.csv', 'right'],
    ['2026-11-25_L.csv.gz', 'left'],
    ['links_2.csv', 'left'],
    ['pied droit.csv', 'right'],
    ['R2.csv', 'right'],
    ['lateral.csv', 'unknown'],
    ['alright.csv', 'unknown'],
    ['run.csv', 'unknown'],
  ])('%s is %s', (name, side) => {
    expect(sideOfName(name).side).toBe(side);
  });
});

describe('pairFiles', () => {
  test('joins left and right whose names are otherwise alike, in any order', () => {
    expect(names(['b_R.csv', 'a_L.csv', 'a_R.csv', 'b_L.csv'])).toEqual([
      ['b_L.csv', 'b_R.csv', undefined],
      ['a_L.csv', 'a_R.csv', undefined],
    ]);
  });

  test('keeps a side alone when its partner is missing', () => {
    expect(names(['a_L.csv', 'b_R.csv'])).toEqual([
      ['a_L.csv', undefined, undefined],
      [undefined, 'b_R.csv', undefined],
    ]);
  });

  test('takes two files that tell no side as the two feet, one as a file of both', () => {
    expect(names(['x.csv', 'y.csv'])).toEqual([['x.csv', 'y.csv', undefined]]);
    expect(names(['x.csv'])).toEqual([[undefined, undefined, 'x.csv']]);
  });

  test('never drops a file, not even two of the same name', () => {
    expect(names(['left.csv', 'left.csv'])).toHaveLength(2);
  });
});

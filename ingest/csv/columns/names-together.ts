/** What columns' names say only together: an axis counted or lettered, a side by its other side. */
import { RIGHT_BESIDE_LEFT } from './column-words.ts';
import { foldedWords } from './fold-text.ts';
import { type ColumnName, nameColumn } from './name-column.ts';

/** Axes counted from zero, acc0 acc1 acc2 or acc[0] acc[1] acc[2]: only together do they tell. */
export function countFromZero(names: ColumnName[]): ColumnName[] {
  const parted = names.map(({ name }) => /^(.*?\p{L})[ _.]?[[(]?(\d)[\])]?$/u.exec(name.trim()));
  return names.map((column, i) => {
    const [, stem, digit] = parted[i] ?? [];
    if (stem === undefined) return column;
    const digits = parted.flatMap((other) => (other?.[1] === stem ? [other[2]] : []));
    const { kind, side, group } = nameColumn(column.index, stem, '');
    if ((kind !== 'acc' && kind !== 'gyr') || digits.sort().join('') !== '012') return column;
    return { ...column, kind, side, group, axis: (['x', 'y', 'z'] as const)[Number(digit)] };
  });
}

/** Abbreviations of 'right' that mean something else alone: beside columns of the left foot they are its other side. */
export function rightBesideLeft(names: ColumnName[]): ColumnName[] {
  const left = new Set(names.filter(({ side }) => side === 'left').flatMap(({ name }) => foldedWords(name)));
  return names.map((column) => {
    if (column.side !== 'unknown') return column;
    const words = foldedWords(column.name);
    const word = words.find((one) => RIGHT_BESIDE_LEFT[one]?.some((other) => left.has(other)));
    if (word === undefined) return column;
    const group = column.group
      .split(' ')
      .filter((one) => one !== word)
      .join(' ');
    return { ...column, side: 'right', group };
  });
}

/** Axes called a, b and c behind one word, `spin a`, `spin b`, `spin c`: alone a letter may be a unit or a quantity, together they are axes. */
export function axesByLetter(names: ColumnName[]): ColumnName[] {
  const parted = names.map(({ name }) =>
    /^(.*\p{L})[ _.-]([abc])((?:\s*[[({][^[({\])}]{0,60}[\])}])?)$/iu.exec(name.trim()),
  );
  return names.map((column, i) => {
    const [, stem, letter, unit = ''] = parted[i] ?? [];
    if (stem === undefined) return column;
    const letters = parted.flatMap((other) => (other?.[1] === stem ? [other[2].toLowerCase()] : []));
    if (letters.sort().join('') !== 'abc') return column;
    const { kind, side, group, unit: written } = nameColumn(column.index, stem + unit, '');
    return {
      ...column,
      kind,
      side,
      group,
      unit: written,
      axis: (['x', 'y', 'z'] as const)['abc'.indexOf(letter.toLowerCase())],
    };
  });
}

/** One name over three columns, `Acceleration (m/s2)` and two without a name behind it: they are its x, y and z. */
export function axesUnderOneName(names: ColumnName[]): ColumnName[] {
  const under = new Map<number, ColumnName>();
  for (const [i, column] of names.entries()) {
    const next = names.slice(i + 1, i + 4).map(({ name }) => name.trim());
    const three = next[0] === '' && next[1] === '' && next[2] !== '';
    if ((column.kind !== 'acc' && column.kind !== 'gyr') || column.axis !== null || column.name.trim() === '' || !three)
      continue;
    for (const [k, axis] of (['x', 'y', 'z'] as const).entries())
      under.set(i + k, { ...column, index: names[i + k].index, axis });
  }
  return names.map((column, i) => under.get(i) ?? column);
}

/** `AX1`, `AY1`, ... `AX2`, ...: the number behind the axis tells sensors apart. */
export function numberedSensors(names: ColumnName[]): ColumnName[] {
  const parted = names.map(({ name }) => /^(.*[xyz])[ _]?(\d)$/i.exec(name.trim()));
  return names.map((column, i) => {
    const [, stem, digit] = parted[i] ?? [];
    if (stem === undefined) return column;
    const plain = nameColumn(column.index, stem, '');
    if (plain.axis === null || (plain.kind !== 'acc' && plain.kind !== 'gyr')) return column;
    return { ...plain, name: column.name, unit: column.unit ?? plain.unit, group: `${plain.group} ${digit}`.trim() };
  });
}

import type { Side } from '../../../shared/words.ts';
import {
  type ColumnKind,
  FILLER_WORDS,
  LEFT_WORDS,
  LONG_WORDS,
  RIGHT_WORDS,
  SHORT_WORDS,
  WITHOUT_GRAVITY_WORDS,
} from './column-words.ts';
import { readUnit, type Unit } from './units.ts';

export type Axis = 'x' | 'y' | 'z';
/** What a column's name and unit say about it. */
export interface ColumnName {
  index: number;
  name: string;
  /** Null where neither a word nor a unit tells. */
  kind: ColumnKind | null;
  axis: Axis | null;
  /** -1 where the name carries a minus before the axis. */
  sign: 1 | -1;
  side: Side;
  unit: Unit | null;
  /** What is left of the name: tells several sensors of one file apart. */
  group: string;
  without_gravity: boolean;
  /** 'gx' alone may be a gyroscope or an acceleration in g. */
  doubtful_g: boolean;
}

const COMPOUND =
  /^(l|r|left|right)?(acceleration|accelerometer|accel|accl|acc|gyroscope|gyro|gyr|omega|magnetometer|mag|rot|a|g|w|m|q|p|v)([xyz])$/;
const COMPOUND_KIND: Record<string, ColumnKind> = {
  a: 'acc',
  g: 'gyr',
  w: 'gyr',
  o: 'gyr',
  r: 'gyr',
  m: 'mag',
  q: 'other',
  p: 'other',
  v: 'other',
};

/** Axes named by direction or by turn; which one is called x only decides the name, not what is measured. */
const AXIS_WORDS: Record<string, Axis> = {
  ap: 'x',
  ml: 'y',
  vt: 'z',
  vert: 'z',
  vertical: 'z',
  anteroposterior: 'x',
  mediolateral: 'y',
  forward: 'x',
  lateral: 'y',
  sideways: 'y',
  up: 'z',
  roll: 'x',
  pitch: 'y',
  yaw: 'z',
};

/** Roll in degrees is an orientation, not a rate. */
function unitIsAngle(unit: Unit | null): boolean {
  return unit?.kind === 'other';
}

/** What is left of an axis is no name of a sensor. */
const AXIS_LETTERS = /^(\d|v)$/;

/**
 * Reads what a column's header says: quantity, axis, side and unit, by word in many languages, by unit and by letter.
 * @param unitCell the cell of the units row above or below, '' where there is none
 */
export function nameColumn(index: number, name: string, unitCell: string): ColumnName {
  const { text, unit: unitInName } = takeUnit(name);
  let unit = unitInName ?? (unitCell ? readUnit(unitCell) : null);
  let words = wordsOf(text);
  // A unit at the end without brackets: acc_x_g, time_ms, gyr_x_dps.
  // V is vertical here, not volts.
  if (!unit && words.length > 1 && words[words.length - 1] !== 'v') {
    for (const take of [2, 1]) {
      const tail = readUnit(words.slice(-take).join(take === 2 ? '/' : ''));
      if (tail && words.length > take) {
        unit = tail;
        words = words.slice(0, -take);
        break;
      }
    }
  }
  const joined = words.join('');
  const sign = /(^|[\s_.])[-−](?=[xyz])|(^|[^a-z])(neg|minus|inv)(?=[^a-z]|$)/i.test(text) ? -1 : 1;
  let kind: ColumnKind | null = null;
  let axis: Axis | null = null;
  let side: Side = 'unknown';
  let doubtful_g = false;
  const rest: string[] = [];
  for (const word of words) {
    const compound = COMPOUND.exec(word);
    if (compound && !SHORT_WORDS.other.includes(word)) {
      kind ??= COMPOUND_KIND[compound[2][0]];
      if (compound[2] === 'g' && !unit) doubtful_g = true;
      axis = compound[3] as Axis;
      if (compound[1]) side = compound[1].startsWith('l') ? 'left' : 'right';
    } else if (/^[xyz]$/.test(word)) axis = word as Axis;
    else if (AXIS_WORDS[word] && !unitIsAngle(unit)) axis = AXIS_WORDS[word];
    else if (LEFT_WORDS.includes(word)) side = 'left';
    else if (RIGHT_WORDS.includes(word)) side = 'right';
    else {
      const numbered = /^(acc|accel|gyr|gyro|a|w|ax|gx)([123])$/.exec(word);
      if (numbered) kind ??= COMPOUND_KIND[numbered[1][0]];
      rest.push(word);
    }
  }
  kind ??= LONG_WORDS.find(([, pattern]) => pattern.test(joined))?.[0] ?? null;
  // 'linear velocity' must not hide 'angular velocity', which the list above finds first.
  for (const candidate of Object.keys(SHORT_WORDS) as ColumnKind[]) {
    if (kind) break;
    if (rest.some((word) => SHORT_WORDS[candidate].includes(word))) kind = candidate;
  }
  if ((kind === null || kind === 'side') && unit && (unit.kind === 'acc' || unit.kind === 'gyr') && axis)
    kind = unit.kind;
  if (kind === null && unit?.kind === 'time') kind = 'time';
  if (axis === null && (kind === 'acc' || kind === 'gyr')) axis = numberedAxis(rest);
  if ((kind === 'acc' || kind === 'gyr') && axis === null) axis = cjkAxis(joined);
  if ((kind === 'acc' || kind === 'gyr') && axis === null && rest.includes('v')) axis = 'z';
  if ((kind === 'acc' || kind === 'gyr') && unit && unit.kind !== kind && unit.unit !== 'counts')
    kind = contradiction(unit);
  return {
    index,
    name,
    kind,
    axis,
    sign,
    side,
    unit,
    group: rest
      .filter((word) => !isKindWord(word) && !FILLER_WORDS.includes(word) && !AXIS_LETTERS.test(word))
      .join(' '),
    without_gravity: WITHOUT_GRAVITY_WORDS.test(` ${words.join(' ')} `) || WITHOUT_GRAVITY_WORDS.test(joined),
    doubtful_g,
  };
}

/** An 'angular velocity' in m/s2 is no gyroscope: the unit wins where it names a sensor, else the column is left out. */
function contradiction(unit: Unit): ColumnKind {
  return unit.kind === 'acc' || unit.kind === 'gyr' ? unit.kind : 'other';
}

function takeUnit(name: string): { text: string; unit: Unit | null } {
  const bracket = /[[({]([^\])}]*)[\])}]/g;
  let unit: Unit | null = null;
  const text = name.replace(bracket, (_whole, inside: string) => {
    unit ??= readUnit(inside);
    return readUnit(inside) ? ' ' : ` ${inside} `;
  });
  if (unit) return { text, unit };
  const parted = /^(.*?)[,;:]\s*(\S+)$|^(.*?)\s+in\s+(\S+)$/i.exec(name);
  if (parted) {
    const inText = readUnit(parted[2] ?? parted[4]);
    if (inText) return { text: parted[1] ?? parted[3], unit: inText };
  }
  return { text, unit: null };
}

function wordsOf(text: string): string[] {
  return text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .replace(/ß/g, 'ss')
    .replace(/ł/g, 'l')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/([A-Z])([A-Z][a-z])/g, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}\p{N}#/^*²°µ]+/u)
    .filter((word) => word !== '');
}

function isKindWord(word: string): boolean {
  return (
    LONG_WORDS.some(([, pattern]) => pattern.test(word)) ||
    SHORT_WORDS.acc.includes(word) ||
    SHORT_WORDS.gyr.includes(word) ||
    /^(acc|accel|gyr|gyro|a|w)[123]$/.test(word)
  );
}

function numberedAxis(words: string[]): Axis | null {
  const digit = words
    .map((word) => /^(?:acc|accel|gyr|gyro|acceleration|gyroscope|a|w)?([123])$/.exec(word)?.[1])
    .find((found) => found);
  return digit ? (['x', 'y', 'z'] as const)[Number(digit) - 1] : null;
}

function cjkAxis(joined: string): Axis | null {
  const match = /([xyz])(?:軸|轴|축|方向)|(?:度|速度)([xyz])/.exec(joined);
  return ((match?.[1] ?? match?.[2]) as Axis | undefined) ?? null;
}

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

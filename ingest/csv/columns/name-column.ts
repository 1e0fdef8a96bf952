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
import { foldedWords } from './fold-text.ts';
import { readUnit, type Unit } from './units.ts';

export type Axis = 'x' | 'y' | 'z';
/** What a column's name and unit say about it. */
export interface ColumnName {
  index: number;
  name: string;
  /** Null where neither a word nor a unit tells. */
  kind: ColumnKind | null;
  /** True where the words say angular rate and the unit says something else: the column is then of no use by itself. */
  rate_by_words: boolean;
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
  /^(l|r|left|right)?(acceleration|accelerometer|accel|accl|acc|ac|gyroscope|gyro|gyr|gy|omega|angvel|magnetometer|mag|rot|a|g|w|ω|m|q|p|v)([xyz])$/;
const COMPOUND_KIND: Record<string, ColumnKind> = {
  a: 'acc',
  g: 'gyr',
  w: 'gyr',
  ω: 'gyr',
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

/** Letters of another script that look like these, and those that stand for them in Arabic. */
const OTHER_AXES: Record<string, Axis> = { х: 'x', у: 'y', س: 'x', ص: 'y', ع: 'z' };

/** Roll in degrees is an orientation, not a rate. */
function unitIsAngle(unit: Unit | null): boolean {
  return unit?.kind === 'other';
}

/** Of a quantity its scatter, or its turning: not what the sensor reads. */
const NO_READING = /^(sd|std|stdev|var|variance|uncertainty|unc|angular|winkelbeschleunigung|kutova)$/;

/** What is left of an axis is no name of a sensor. */
const AXIS_LETTERS = /^(\d|v)$/;

/**
 * Reads what a column's header says: quantity, axis, side and unit, by word in many languages, by unit and by letter.
 * @param unitCell the cell of the units row above or below, '' where there is none
 */
export function nameColumn(index: number, name: string, unitCell: string): ColumnName {
  const { text, unit: unitInName } = takeUnit(pathAsWords(name));
  let unit = unitInName ?? (unitCell ? readUnit(unitCell) : null);
  let words = foldedWords(text);
  // A unit at the end without brackets: acc_x_g, time_ms, gyr_x_dps.
  // V is vertical here, not volts.
  if (!unit && words.length > 1 && words[words.length - 1] !== 'v') {
    for (const take of [2, 1]) {
      const tail = readUnit(words.slice(-take).join(take === 2 ? '/' : ''));
      if (tail && words.length > take && (tail.unit !== 'h' || isTimeWord(words[0]))) {
        unit = tail;
        words = words.slice(0, -take);
        break;
      }
    }
  }
  words = lettersJoined(words);
  const joined = words.join('');
  const sign = /(^|[\s_])[-−](?=[xyz])|(^|[^a-z])(neg|minus|inv)(?=[^a-z]|$)/i.test(text) ? -1 : 1;
  let kind: ColumnKind | null = null;
  let axis: Axis | null = null;
  let side: Side = 'unknown';
  let doubtful_g = false;
  const rest: string[] = [];
  for (const word of words) {
    const compound = COMPOUND.exec(word);
    if (compound && !SHORT_WORDS.other.includes(word)) {
      kind ??= compound[2] === 'angvel' ? 'gyr' : COMPOUND_KIND[compound[2][0]];
      if (compound[2] === 'g' && !unit) doubtful_g = true;
      axis = compound[3] as Axis;
      if (compound[1]) side = compound[1].startsWith('l') ? 'left' : 'right';
    } else if (/^[xyz]$/.test(word) || OTHER_AXES[word]) axis = OTHER_AXES[word] ?? (word as Axis);
    else if (AXIS_WORDS[word] && !unitIsAngle(unit)) axis = AXIS_WORDS[word];
    else if (LEFT_WORDS.includes(word)) side = 'left';
    else if (RIGHT_WORDS.includes(word)) side = 'right';
    else {
      const numbered = /^(acc|accel|gyr|gyro|a|w|ax|gx)([123])$/.exec(word);
      if (numbered) kind ??= COMPOUND_KIND[numbered[1][0]];
      rest.push(word);
    }
  }
  kind ??= LONG_WORDS.find(([, parts]) => parts.some((part) => joined.includes(part)))?.[0] ?? null;
  // 'linear velocity' must not hide 'angular velocity', which the list above finds first.
  for (const candidate of Object.keys(SHORT_WORDS) as ColumnKind[]) {
    if (kind) break;
    // A letter behind other words, without an axis, is no quantity: 'spin a' and 'spin b' are two of a row.
    const said = axis === null && rest.length > 1 ? rest.filter((word) => word.length > 1) : rest;
    if (said.some((word) => SHORT_WORDS[candidate].includes(word))) kind = candidate;
  }
  if ((kind === null || kind === 'side') && unit && (unit.kind === 'acc' || unit.kind === 'gyr') && axis)
    kind = unit.kind;
  if ((kind === null || kind === 'side') && unit?.kind === 'time') kind = 'time';
  if (kind === null && unit?.unit === 'other') kind = 'other';
  if (axis === null && (kind === 'acc' || kind === 'gyr')) axis = numberedAxis(rest);
  if ((kind === 'acc' || kind === 'gyr') && axis === null) axis = cjkAxis(joined);
  if ((kind === 'acc' || kind === 'gyr') && axis === null && rest.includes('v')) axis = 'z';
  if (kind === 'acc' && rest.some((word) => NO_READING.test(word))) kind = 'other';
  const words_say = kind;
  if ((kind === 'acc' || kind === 'gyr') && unit && unit.kind !== kind && unit.unit !== 'counts')
    kind = contradiction(unit);
  return {
    index,
    name,
    kind,
    rate_by_words: words_say === 'gyr' && kind === 'other',
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

/** Names that are paths, `/left_foot/acceleration/x` or `imu.acc/x`: their parts are words. */
function pathAsWords(name: string): string {
  return /^\/|\/[xyz]$/i.test(name.trim()) && !readUnit(name) ? name.replaceAll('/', ' ') : name;
}

/** `gX` is parted at its capital: a letter and its axis belong together where nothing but a side stands beside them. */
function lettersJoined(words: string[]): string[] {
  const at = words.findIndex((word, i) => /^[agwωm]$/.test(word) && /^[xyz]$/.test(words[i + 1] ?? ''));
  if (at < 0) return words;
  const others = words.filter((_word, i) => i !== at && i !== at + 1);
  if (!others.every((word) => LEFT_WORDS.includes(word) || RIGHT_WORDS.includes(word))) return words;
  return [...words.slice(0, at), words[at] + words[at + 1], ...words.slice(at + 2)];
}

/** An 'angular velocity' in m/s2 is no gyroscope: the unit wins where it names a sensor, else the column is left out. */
function contradiction(unit: Unit): ColumnKind {
  return unit.kind === 'acc' || unit.kind === 'gyr' ? unit.kind : 'other';
}

/** What parts a name from its unit where no brackets do: `acc x, g`, `a_x / (m/s2)`, `time in ms`. */
const UNIT_SIGNS = [' / ', ',', ';', ':', ' in ', ' - '];

function takeUnit(name: string): { text: string; unit: Unit | null } {
  const bracket = /[[({]([^[({\])}]{0,60})[\])}]/g;
  let unit: Unit | null = null;
  const text = name.replace(bracket, (_whole, inside: string) => {
    unit ??= readUnit(inside);
    return readUnit(inside) ? ' ' : ` ${inside} `;
  });
  if (unit) return { text, unit };
  for (const sign of UNIT_SIGNS) {
    const at = name.lastIndexOf(sign);
    const inText = at > 0 ? readUnit(name.slice(at + sign.length)) : null;
    if (inText) return { text: name.slice(0, at), unit: inText };
  }
  return { text, unit: null };
}

function isTimeWord(word: string): boolean {
  return (
    SHORT_WORDS.time.includes(word) ||
    LONG_WORDS.some(([kind, parts]) => kind === 'time' && parts.some((part) => word.includes(part)))
  );
}

function isKindWord(word: string): boolean {
  return (
    LONG_WORDS.some(([, parts]) => parts.some((part) => word.includes(part))) ||
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

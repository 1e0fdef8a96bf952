import type { Draw } from './draw.ts';
import { ACC_UNITS, GYR_UNITS, type Language } from './languages.ts';

export type Quantity = 'acc' | 'gyr';
/** How one file spells its column names: a person is consistent within a file. */
export interface NameStyle {
  kind: string;
  name(quantity: Quantity, axis: number, side: string): string;
}

const AXES = 'xyz';
const LETTERS: [string, string][] = [
  ['a', 'g'],
  ['a', 'w'],
  ['acc', 'gyr'],
  ['Ac', 'Gy'],
  ['A', 'G'],
  ['acc', 'ω'],
  ['accel', 'rot'],
  ['acc', 'angvel'],
];

/** @param units as they stand behind every name; '' for none */
export function nameStyle(draw: Draw, language: Language, units: Record<Quantity, string>): NameStyle {
  const upper = draw.chance(0.5);
  const axis = (i: number) => (upper ? AXES[i].toUpperCase() : AXES[i]);
  const sided = draw.pick([
    (side: string, name: string) => `${side}_${name}`,
    (side: string, name: string) => `${side} ${name}`,
    (side: string, name: string) => `${name}_${side}`,
    (side: string, name: string) => `${name} (${side})`,
  ]);
  const unit = draw.pick([
    (u: string) => ` (${u})`,
    (u: string) => ` [${u}]`,
    (u: string) => `[${u}]`,
    (u: string) => ` / ${u}`,
    (u: string) => `, ${u}`,
  ]);
  const withSide = (side: string, name: string, quantity: Quantity) => {
    const whole = side === '' ? name : sided(side, name);
    return units[quantity] === '' ? whole : whole + unit(units[quantity]);
  };
  if (draw.chance(0.22)) {
    const letters = draw.pick(LETTERS);
    const between = draw.pick(['', '', '_', '.']);
    const of = (q: Quantity) => letters[q === 'acc' ? 0 : 1];
    return {
      kind: 'letters',
      name: (q, i, side) => withSide(side, of(q) + (of(q).length > 1 ? between : '') + axis(i), q),
    };
  }
  const words = { acc: draw.pick(language.acc), gyr: draw.pick(language.gyr) };
  const [kind, join] = draw.weighed<[string, (word: string, i: number) => string]>([
    [['word and axis', (word, i) => `${word} ${axis(i)}`], 5],
    [['word_axis', (word, i) => `${word.replaceAll(' ', '_')}_${axis(i)}`], 4],
    [['wordAxis', (word, i) => `${word.replaceAll(' ', '')}${axis(i).toUpperCase()}`], 3],
    [['word.axis', (word, i) => `${word}.${axis(i)}`], 2],
    [['axis word', (word, i) => `${axis(i)} ${word}`], 1],
    [['word-axis', (word, i) => `${word}-${axis(i)}`], 1],
    [
      [
        'axis in its word',
        (word, i) => (language.axis ? `${word} ${axis(i).toUpperCase()}-${language.axis}` : `${word} ${axis(i)}`),
      ],
      2,
    ],
  ]);
  return { kind, name: (q, i, side) => withSide(side, join(words[q], i), q) };
}

export interface UnitChoice {
  spelling: string;
  /** Written number of one SI unit. */
  per_si: number;
  decimals: number;
}

const G = 9.80665;
const DEG = 180 / Math.PI;

export function accUnit(draw: Draw, language: Language): UnitChoice & { unit: string } {
  const unit = draw.weighed([
    ['g', 9],
    ['m/s2', 8],
    ['mg', 4],
    ['ug', 0.7],
    ['cm/s2', 0.5],
  ] as const);
  const own = unit === 'ug' || unit === 'cm/s2' ? undefined : language.accUnits[unit];
  const spelling = own && draw.chance(0.5) ? draw.pick(own) : draw.pick(ACC_UNITS[unit]);
  const table = { g: [1 / G, 4], 'm/s2': [1, 3], mg: [1000 / G, 1], ug: [1e6 / G, 0], 'cm/s2': [100, 1] } as const;
  const [per_si, decimals] = table[unit];
  return { unit, spelling, per_si, decimals: decimals + draw.whole(0, 1) };
}

export function gyrUnit(draw: Draw, language: Language): UnitChoice & { unit: string } {
  const unit = draw.weighed([
    ['deg/s', 10],
    ['rad/s', 6],
    ['mdeg/s', 1],
  ] as const);
  const own = unit === 'mdeg/s' ? undefined : language.gyrUnits[unit];
  const spelling = own && draw.chance(0.5) ? draw.pick(own) : draw.pick(GYR_UNITS[unit]);
  const table = { 'deg/s': [DEG, 2], 'rad/s': [1, 4], 'mdeg/s': [1000 * DEG, 0] } as const;
  const [per_si, decimals] = table[unit];
  return { unit, spelling, per_si, decimals: decimals + draw.whole(0, 1) };
}

export interface FileUnits {
  kind: string;
  acc: UnitChoice;
  gyr: UnitChoice;
  inNames: Record<Quantity, string>;
  inRow: Record<Quantity, string> | null;
  preamble: string[];
}

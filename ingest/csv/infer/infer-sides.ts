import { because } from '../../../shared/reason.ts';
import type { Side } from '../../../shared/words.ts';
import { LEFT_WORDS, RIGHT_BESIDE_LEFT, RIGHT_WORDS } from '../columns/column-words.ts';
import type { Evidence } from '../columns/evidence.ts';
import { foldedWords } from '../columns/fold-text.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';
import type { ColumnName } from '../columns/name-column.ts';
import { sideInWords } from '../columns/side-in-words.ts';
import { toldColumn } from '../columns/told-columns.ts';
import type { HeadTable } from '../text/head-table.ts';
import { sideSaidOf } from './side-values.ts';

export interface SideColumn {
  column: number;
  /** Every value of the column with the side it stands for. */
  values: { value: string; side: Side }[];
  /** True where the column names others, too, whose rows are passed over. */
  others?: boolean;
}

const MOST_SENSORS = 8;
/** Columns without a name that speaks of sides, of few values, whose values are looked for in the lines above. */
const MOST_LOOKED_AT = 40;

/**
 * Finds a column that says which sensor a row belongs to, when it names more than one.
 * @param texts lines above the table, which may say what a value stands for
 * @param told sides by value, from the layout
 * @throws LayoutQuestion when there are several sensors and their names tell no side
 */
export function inferSideColumn(
  names: ColumnName[],
  head: HeadTable,
  file: string,
  evidence: Evidence[],
  texts: string[] = [],
  told_sides: Record<string, Side> = {},
): SideColumn | null {
  let looked = 0;
  for (const name of names) {
    if (name.axis !== null || (name.kind !== 'side' && name.kind !== null)) continue;
    // The names may stand again between the rows, where a logger started anew.
    const cells = head.text.map((row) => row[name.index] ?? '').filter((value) => value !== name.name);
    const values = [...new Set(cells)].filter((value) => value !== '');
    if (values.length === 0 || values.length > MOST_SENSORS || (name.kind === null && ++looked > MOST_LOOKED_AT))
      continue;
    const said = values.map((value) => sideSaidOf(value, [name.name, ...texts]));
    const sides = values.map((value, i) => ({
      value,
      side: told_sides[value] ?? (sideInWords(value) === 'unknown' ? (said[i]?.side ?? 'unknown') : sideInWords(value)),
    }));
    // 'der' beside 'izq': an abbreviation that says nothing alone.
    if (sides.length === 2 && sides.filter(({ side }) => side === 'left').length === 1) {
      const [left] = sides.filter(({ side }) => side === 'left');
      const other = sides.find((entry) => entry !== left)!;
      if (RIGHT_BESIDE_LEFT[other.value.toLowerCase()]?.includes(left.value.toLowerCase())) other.side = 'right';
    }
    const among = chosenSides(sides, told_sides);
    if (among) {
      const byLayout = Object.keys(told_sides).length > 0;
      evidence.push({
        about: 'side',
        decided: because('took_sides_among', { column: toldColumn(name), sides: among }),
        because: byLayout ? because('by_layout') : because('by_one_place'),
        source: byLayout ? 'told' : 'written',
      });
      return { column: name.index, values: among, others: true };
    }
    const told =
      sides.every(({ side }) => side !== 'unknown') && new Set(sides.map(({ side }) => side)).size === values.length;
    if (told) {
      const byLayout = values.some((value) => told_sides[value]);
      const line = said.find((found) => found !== null)?.told_by;
      evidence.push({
        about: 'side',
        decided: because('took_side_column', { column: toldColumn(name), sides }),
        because: byLayout ? because('by_layout') : line ? because('by_line', { line }) : because('by_every_row'),
        source: byLayout ? 'told' : 'written',
      });
      return { column: name.index, values: sides };
    }
    const pairs = pairsOfSides(sides);
    if (pairs.length > 1) throw unnamedSensors(name, values, file, pairs);
    if (values.length > 1 && name.kind === 'side' && values.length <= 4 && alternates(cells))
      throw unnamedSensors(name, values, file);
  }
  return null;
}

/** Left and right of one place, where a column names more sensors than these two: as told, or where no others have two sides. */
function chosenSides(sides: SideColumn['values'], told: Record<string, Side>): SideColumn['values'] | null {
  const named = sides.filter(({ value }) => told[value]);
  if (named.length > 0)
    return named.length < sides.length && new Set(named.map(({ side }) => side)).size === named.length ? named : null;
  const pairs = pairsOfSides(sides);
  return pairs.length === 1 && sides.length > 2 ? pairs[0] : null;
}

/** LeftFoot and RightFoot, LeftShank and RightShank, ...: by what is left of their names without the side. */
function pairsOfSides(sides: SideColumn['values']): SideColumn['values'][] {
  const places = new Map<string, SideColumn['values']>();
  for (const entry of sides) {
    if (entry.side === 'unknown') continue;
    const place = foldedWords(entry.value)
      .filter((word) => !LEFT_WORDS.includes(word) && !RIGHT_WORDS.includes(word))
      .join(' ');
    places.set(place, [...(places.get(place) ?? []), entry]);
  }
  return [...places.values()].filter((pair) => pair.length === 2 && new Set(pair.map(({ side }) => side)).size === 2);
}

/** A sensor's name is repeated again and again; a status that changes once is none. */
function alternates(cells: string[]): boolean {
  const counts = new Map<string, number>();
  for (const cell of cells) counts.set(cell, (counts.get(cell) ?? 0) + 1);
  return [...counts.values()].every((count) => count > 0.1 * cells.length);
}

function unnamedSensors(
  name: ColumnName,
  values: string[],
  file: string,
  pairs: SideColumn['values'][] = [],
): LayoutQuestion {
  const feet = (left: string, right: string) => ({
    label: because('choice_feet', {
      left: because('sensor_plain', { name: left }),
      right: because('sensor_plain', { name: right }),
    }),
    correction: { side_values: { [left]: 'left' as const, [right]: 'right' as const } },
  });
  const [a, b] = values;
  const both = pairs.map((pair) => [...pair].sort((one) => (one.side === 'left' ? -1 : 1)).map(({ value }) => value));
  return new LayoutQuestion(file, {
    about: 'side',
    found: because('found_sensors_without_side', { n: values.length, name: name.name, values }),
    choices:
      both.length > 0
        ? both.map(([left, right]) => feet(left, right))
        : values.length === 2
          ? [feet(a, b), feet(b, a)]
          : [],
    hint: because('do_name_sides', { a: both[0]?.[0] ?? a, b: both[0]?.[1] ?? b, name: name.name }),
  });
}

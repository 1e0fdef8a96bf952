import { FaultError, fault } from '../../../shared/fault.ts';
import { because, type CodedReason } from '../../../shared/reason.ts';
import type { Side } from '../../../shared/words.ts';
import type { Evidence } from '../columns/evidence.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';
import { type Axis, type ColumnName, nameColumn } from '../columns/name-column.ts';
import { toldColumn, toldColumns } from '../columns/told-columns.ts';
import { readUnit, type Unit, type UnitKind } from '../columns/units.ts';
import type { HeadTable } from '../text/head-table.ts';
import { timeFacts } from '../time/time-facts.ts';
import { readsGravity, restsAtZero } from './infer-nameless-sensor.ts';
import type { SensorFound, Triple } from './sensor-found.ts';

type Quantity = 'acc' | 'gyr';

/** What the rows of one sensor carry in the quantity column. */
export interface WovenValues {
  side: Side;
  acc_value: string;
  gyr_value: string | null;
}

/** A column that says whether a row holds acceleration or angular rate. */
export interface QuantityColumn {
  column: number;
  /** One entry, or one a side where the same column tells the side, too. */
  sensors: WovenValues[];
}

const MOST_WORDS = 12;
const AXES: Axis[] = ['x', 'y', 'z'];

/**
 * Finds a column whose cells name the quantity of their row, such as ACC and GYR. Rows of anything else (magnetometer,
 * temperature) are passed over.
 */
export function inferQuantityColumn(names: ColumnName[], head: HeadTable, evidence: Evidence[]): QuantityColumn | null {
  for (const { index, axis, kind, name } of names) {
    if (axis !== null || kind === 'time' || kind === 'date') continue;
    const words = [...new Set(head.text.map((cells) => cells[index] ?? ''))].filter((word) => word !== '');
    if (words.length === 0 || words.length > MOST_WORDS || words.some((word) => !/\p{L}/u.test(word))) continue;
    const sensors = sensorsOf(words);
    if (!sensors) continue;
    evidence.push({
      about: 'rows',
      decided: tookQuantities({ name, index }, sensors),
      because: because('by_every_row'),
      source: 'written',
    });
    return { column: index, sensors };
  }
  return null;
}

function tookQuantities(column: Pick<ColumnName, 'name' | 'index'>, sensors: WovenValues[]): CodedReason {
  const rows = sensors.map(({ side, acc_value, gyr_value }) => ({ side, acc: acc_value, gyr: gyr_value }));
  return because('took_quantity_column', { column: toldColumn(column), rows });
}

function sensorsOf(words: string[]): WovenValues[] | null {
  const found = words.map((word) => ({ word, ...quantityOf(word) }));
  const acc = found.filter(({ quantity }) => quantity === 'acc');
  const gyr = found.filter(({ quantity }) => quantity === 'gyr');
  const sides = new Set(acc.map(({ side }) => side));
  // Two names of acceleration without sides are two sensors, which is another question.
  if (acc.length === 0 || sides.size < acc.length || new Set(gyr.map(({ side }) => side)).size < gyr.length)
    return null;
  return acc.map(({ word, side }) => ({
    side,
    acc_value: word,
    gyr_value: gyr.find((other) => other.side === side)?.word ?? null,
  }));
}

const LETTERS: Record<string, Quantity> = { a: 'acc', g: 'gyr' };

function quantityOf(word: string): { quantity: Quantity | null; side: Side } {
  const { kind, side, without_gravity } = nameColumn(0, word, '');
  const quantity = LETTERS[word.toLowerCase()] ?? (kind === 'acc' || kind === 'gyr' ? kind : null);
  return { quantity: quantity === 'acc' && without_gravity ? null : quantity, side };
}

const CODE_NAME = /type|kind|quant|sensor|stream|channel|kanal|code|art|id/i;
const MOST_CODES = 6;

/**
 * The same with numbers for names (1 and 4): the code whose rows read 1 g at rest is acceleration, the one whose rows rest at zero
 * is the angular rate.
 * @throws LayoutQuestion where several codes could be the angular rate
 */
export function inferCodedRows(
  names: ColumnName[],
  head: HeadTable,
  file: string,
  evidence: Evidence[],
): QuantityColumn | null {
  const axes = axesOf(names, [null, 'acc', 'gyr']);
  // Columns named as acceleration hold nothing else: the codes are those of sensors.
  if (!axes || axes.every(({ kind }) => kind === 'acc')) return null;
  for (const { index, name, axis, kind } of names) {
    if (axis !== null || kind === 'time' || !CODE_NAME.test(name)) continue;
    const codes = head.text.map((cells) => cells[index] ?? '');
    const known = [...new Set(codes)];
    const changes = codes.filter((code, row) => row > 0 && code !== codes[row - 1]).length;
    if (known.length < 2 || known.length > MOST_CODES || known.some((code) => !/^\d+$/.test(code))) continue;
    if (changes < 0.1 * codes.length) continue;
    const of = (code: string) => headOf(head, rowsWith(head, index, code, null));
    const acc = known.filter((code) => readsGravity(axes, of(code)));
    const gyr = known.filter((code) => !acc.includes(code) && restsAtZero(axes, of(code)));
    if (acc.length !== 1) continue;
    if (gyr.length > 1) {
      throw new LayoutQuestion(file, {
        about: 'rows',
        found: because('found_codes', { name, codes: known, rates: gyr }),
        choices: [],
        hint: because('do_write_quantity'),
      });
    }
    const sensor: WovenValues = { side: 'unknown', acc_value: acc[0], gyr_value: gyr[0] ?? null };
    evidence.push({
      about: 'rows',
      decided: tookQuantities({ name, index }, [sensor]),
      because: because('by_rest_of_rows', { acc: sensor.acc_value, gyr: sensor.gyr_value }),
      source: 'measured',
    });
    return { column: index, sensors: [sensor] };
  }
  return null;
}

function headOf(head: HeadTable, rows: number[]): HeadTable {
  const numbers = head.numbers.map((column) => Float64Array.from(rows, (row) => column[row]));
  return { rows: rows.length, numbers, text: rows.map((row) => head.text[row]) };
}

/** Rows of the head whose quantity cell is `value`. */
export function rowsWith(head: HeadTable, column: number, value: string | null, among: number[] | null): number[] {
  const rows = among ?? Array.from(head.text.keys());
  return rows.filter((row) => head.text[row]?.[column] === value);
}

/**
 * The columns of a sensor whose rows are told by a quantity column: three axes that both share, or three for each.
 * @param rows rows of acceleration and of angular rate
 * @throws FaultError COLUMN_MISSING
 */
export function wovenSensor(
  names: ColumnName[],
  head: HeadTable,
  woven: QuantityColumn,
  rows: Record<Quantity, number[]>,
  file: string,
  evidence: Evidence[],
): SensorFound {
  const [values] = woven.sensors;
  const shared = axesOf(names, [null, 'acc', 'gyr']) ?? threeNumbers(names, head, rows.acc);
  const acc = axesOf(names, ['acc']) ?? axesOf(names, [null]) ?? shared;
  if (!acc) throw noAxes(names, file);
  const gyr = values.gyr_value === null ? null : (axesOf(names, ['gyr']) ?? axesOf(names, [null]) ?? shared);
  const unit = (kind: Quantity, value: string | null) => unitOfRows(names, head, rows[kind], kind, value);
  const found = {
    side: 'unknown' as const,
    acc: withUnit(acc, 'acc', unit('acc', values.acc_value)),
    gyr: gyr && withUnit(gyr, 'gyr', unit('gyr', values.gyr_value)),
  };
  for (const [about, triple] of [
    ['acceleration', found.acc],
    ['gyroscope', found.gyr],
  ] as const) {
    const decided = triple ? because('took_columns', { columns: toldColumns(triple) }) : because('took_none');
    evidence.push({ about, decided, because: because('by_axes_of_rows'), source: 'written' });
  }
  return found;
}

function axesOf(names: ColumnName[], kinds: (ColumnName['kind'] | null)[]): Triple | null {
  const axes = AXES.map((axis) => names.filter((name) => name.axis === axis && kinds.includes(name.kind)));
  return axes.every((found) => found.length === 1) ? (axes.map(([found]) => found) as Triple) : null;
}

/** Where no name tells an axis: the only three columns of changing numbers, in their order. */
function threeNumbers(names: ColumnName[], head: HeadTable, rows: number[]): Triple | null {
  const changing = names.filter((name) => {
    if (name.kind === 'time' || name.kind === 'counter' || timeFacts(name, head, rows)) return false;
    const values = rows.map((row) => head.numbers[name.index][row]).filter((value) => !Number.isNaN(value));
    return values.length > 0.9 * rows.length && values.some((value) => value !== values[0]);
  });
  return changing.length === 3 ? (changing as Triple) : null;
}

/** A unit stands with the quantity ("acc [g]"), or in a column of its own beside the values. */
function unitOfRows(
  names: ColumnName[],
  head: HeadTable,
  rows: number[],
  kind: UnitKind,
  value: string | null,
): Unit | null {
  const beside = value === null ? null : nameColumn(0, value, '').unit;
  if (beside?.kind === kind) return beside;
  for (const { index } of names) {
    const words = new Set(rows.map((row) => head.text[row]?.[index] ?? ''));
    const unit = words.size === 1 ? readUnit([...words][0]) : null;
    if (unit?.kind === kind) return unit;
  }
  return null;
}

function withUnit(triple: Triple, kind: Quantity, unit: Unit | null): Triple {
  return triple.map((column) => ({
    ...column,
    unit: unit ?? (column.unit?.kind === kind ? column.unit : null),
  })) as Triple;
}

/**
 * True where acceleration stands in some rows and angular rate in others, the other's cells empty: two streams woven into one
 * table without a column that says so.
 */
export function rowsAlternate({ acc, gyr }: SensorFound, head: HeadTable): boolean {
  if (!gyr) return false;
  const [held, turned] = [heldIn(head, acc), heldIn(head, gyr)];
  let [accAlone, gyrAlone] = [0, 0];
  for (let row = 0; row < head.rows; row++) {
    if (held[row] > turned[row]) accAlone++;
    if (turned[row] > held[row]) gyrAlone++;
  }
  return accAlone >= 0.2 * head.rows && gyrAlone >= 0.2 * head.rows;
}

/** Rows of the head in which a triple has a value. */
export function rowsHolding(head: HeadTable, triple: Triple): number[] {
  const held = heldIn(head, triple);
  return Array.from(held.keys()).filter((row) => held[row] === 1);
}

/** 1 for each row of the head in which one of the three columns has a value, 0 for any other. */
function heldIn(head: HeadTable, triple: Triple): Uint8Array {
  const [x, y, z] = triple.map(({ index }) => head.numbers[index]);
  const held = new Uint8Array(head.rows);
  for (let row = 0; row < head.rows; row++) {
    if (!Number.isNaN(x[row]) || !Number.isNaN(y[row]) || !Number.isNaN(z[row])) held[row] = 1;
  }
  return held;
}

/** Without a time in every row, nothing says which acceleration belongs to which rate. */
export function refuseWovenWithoutTime(file: string): FaultError {
  return new FaultError(fault('ROWS_BY_QUANTITY.no_time', { file }, { file }));
}

function noAxes(names: ColumnName[], file: string): FaultError {
  const found = names.map(({ name, index }) => name || `column ${index + 1}`);
  return new FaultError(
    fault('COLUMN_MISSING.axes_beside', { file, columns: found.slice(0, 12).join(', ') }, { file, column: 'x, y, z' }),
  );
}

import type { Clock } from './clocks.ts';
import type { Damage, DamagedRows } from './damage.ts';
import type { Draw } from './draw.ts';
import type { ExtraColumn } from './extra-columns.ts';
import type { FileUnits, NameStyle, Quantity } from './headers.ts';
import type { Language } from './languages.ts';
import { oddityOf } from './oddities.ts';
import type { TrueSensor } from './true-sensor.ts';
import type { Samples } from './motions.ts';

/** How a file holds two feet, where it does. */
export type Feet =
  | 'one'
  | 'a set of columns each'
  | 'a set of columns each, titled'
  | 'rows in turn'
  | 'rows in turn, numbered';

export interface TableToWrite {
  draw: Draw;
  language: Language;
  clock: Clock;
  feet: Feet;
  sides: readonly ('left' | 'right' | 'unknown')[];
  whole: Samples[];
  units: FileUnits;
  hasGyr: boolean;
  style: NameStyle;
  damage: Damage;
  rows: DamagedRows;
  extras: ExtraColumn[];
}

interface Column {
  name: string;
  unit: string;
  cell: (row: number, sensor: number) => string;
}

const DIALECTS = [
  [',', '.'],
  [';', '.'],
  [';', ','],
  ['\t', '.'],
  ['\t', ','],
  ['|', '.'],
  [', ', '.'],
] as const;

/** The text of the file, and what a perfect reader gives back. */
export function writeTable(table: TableToWrite): { text: string; sensors: TrueSensor[]; oddity: string } {
  const { draw, clock, feet, sides, units, extras, rows } = table;
  const [delimiter, mark] = draw.weighed(DIALECTS.map((dialect, i) => [dialect, [8, 3, 4, 3, 1, 0.5, 1][i]] as const));
  const newline = draw.weighed([
    ['\n', 5],
    ['\r\n', 4],
    ['\r', 0.4],
  ] as const);
  const time: Column[] = clock.names.map((name, i) => ({
    name,
    unit: clock.unit,
    cell: (row) => clock.cells(table.whole[0].time_s[row], row)[i],
  }));
  const measured = sides.map((side, sensor) =>
    sensorColumns(table, feet === 'a set of columns each' ? sideWord(table, side) : '', sensor),
  );
  const inTurn = feet.startsWith('rows in turn');
  const own = inTurn ? [measured[0]] : measured;
  const from = draw.pick([0, 1]);
  const sideColumn: Column[] = inTurn
    ? [
        {
          name: draw.pick(['side', 'foot', 'sensor', 'Seite']),
          unit: '',
          cell: (_row, sensor) => (feet === 'rows in turn' ? sideWord(table, sides[sensor]) : String(from + sensor)),
        },
      ]
    : [];
  const extra: Column[] = extras.map(({ name, unit, cell }) => ({
    name,
    unit,
    cell: (row) => cell(row, table.whole[0].time_s[row]),
  }));
  const titled = feet === 'a set of columns each, titled';
  const columns = draw.weighed([
    [[...time, ...sideColumn, ...own.flat(), ...extra], titled ? 1e9 : 6],
    [[...time, ...sideColumn, ...extra, ...own.flat()], 1],
    [[...sideColumn, ...own.flat(), ...extra, ...time], 1],
  ]);
  const quoted = draw.chance(0.06);
  const oddity = oddityOf(draw, quoted, rows.empty.size > 0);
  const write = (cell: string) => {
    if (!/^-?\d+(\.\d+)?$/.test(cell)) return cell;
    const spelled = oddity.spell(cell);
    return mark === ',' ? spelled.replace('.', ',') : spelled;
  };
  const quote = quoted
    ? (cell: string) => `"${cell}"`
    : (cell: string) => (cell.includes(delimiter) ? `"${cell}"` : cell);
  const names = [columns.map((column) => quote(column.name)).join(delimiter)];
  const row = (r: number, sensor: number) =>
    columns.map((column) => quote(write(column.cell(r, sensor) || oddity.missing))).join(delimiter);
  if (units.inRow) names.push(columns.map((column) => column.unit).join(delimiter));
  const body = rows.order.flatMap((r) => (inTurn ? [0, 1] : [0]).map((sensor) => row(r, sensor)));
  const head = preamble(table);
  if (titled) head.push(titleLine(table, time.length, own, extra.length, delimiter));
  const odd = rows.cutLastRow ? { head, names, body } : oddity.lines({ head, names, body }, delimiter);
  const lines = [...odd.head, ...odd.names, ...odd.body];
  if (rows.cutLastRow) {
    const last = lines[lines.length - 1];
    lines[lines.length - 1] = last.slice(0, Math.floor(last.length * 0.45));
  }
  const end = rows.cutLastRow || draw.chance(0.1) ? '' : newline;
  return { text: lines.join(newline) + end, sensors: truth(table), oddity: oddity.kind };
}

/** The side of each block of columns, in a line of its own over the names. */
function titleLine(table: TableToWrite, times: number, own: Column[][], extras: number, delimiter: string): string {
  const blocks = own.flatMap((columns, sensor) => [
    sideWord(table, table.sides[sensor]),
    ...columns.slice(1).map(() => ''),
  ]);
  return [...Array(times).fill(''), ...blocks, ...Array(extras).fill('')].join(delimiter);
}

const words = new WeakMap<TableToWrite, Record<string, string>>();
/** A person keeps to one word for a side. */
function sideWord(table: TableToWrite, side: 'left' | 'right' | 'unknown'): string {
  const chosen = words.get(table) ?? {};
  words.set(table, chosen);
  const { left, right } = table.language;
  const which = Math.floor(table.draw.next() * Math.min(left.length, right.length));
  chosen.left ??= left[which];
  chosen.right ??= right[which];
  return chosen[side] ?? '';
}

function preamble({ draw, clock, units }: TableToWrite): string[] {
  const lines = [...clock.preamble, ...units.preamble];
  const chatter = [
    'Device: MK-7',
    'Subject: 014',
    'Firmware 2.1.4',
    'Notes: windy, second run',
    '# exported by logger 3.2',
    'Serial number: 00B4-77',
  ];
  if (draw.chance(0.25)) lines.unshift(draw.pick(chatter));
  if (draw.chance(0.12)) lines.push(draw.pick(chatter));
  return lines;
}

function sensorColumns(table: TableToWrite, side: string, own: number): Column[] {
  const { draw, units, style, hasGyr, damage } = table;
  const column = (quantity: Quantity, axis: number): Column => ({
    name:
      damage.kind === 'gravity taken off' && quantity === 'acc'
        ? `linear ${style.name(quantity, axis, side)}`
        : style.name(quantity, axis, side),
    unit: units.inRow?.[quantity] ?? '',
    cell: (row, sensor) => cell(table, quantity, axis, row, table.feet.startsWith('rows in turn') ? sensor : own),
  });
  const triple = (quantity: Quantity) => [0, 1, 2].map((axis) => column(quantity, axis));
  let acc = triple('acc');
  const gyr = hasGyr ? triple('gyr') : [];
  if (damage.kind === 'an axis missing') acc = acc.slice(0, 2);
  // Which order both feet use is one person's habit; it may differ from file to file.
  const order = ((table.whole.length * 7 + style.kind.length + units.kind.length) % 10) / 10;
  if (order < 0.15) return [...gyr, ...acc];
  if (order < 0.25 && acc.length === 3) return [2, 1, 0].flatMap((axis) => [acc[axis], ...(hasGyr ? [gyr[axis]] : [])]);
  void draw;
  return [...acc, ...gyr];
}

function cell(table: TableToWrite, quantity: Quantity, axis: number, row: number, sensor: number): string {
  const { units, rows, damage } = table;
  const unit = units[quantity];
  if (rows.empty.get(row) === (quantity === 'acc' ? axis : axis + 3)) return '';
  const filled = rows.filled.get(row);
  let from = row;
  while (filled === 'held' && rows.filled.has(from)) from--;
  if (filled === 'zero') return (0).toFixed(unit.decimals);
  if (damage.kind === 'gyroscope of zeros' && quantity === 'gyr') return (0).toFixed(unit.decimals);
  if (damage.kind === 'gyroscope axis stuck' && quantity === 'gyr' && axis === 1) return (0).toFixed(unit.decimals);
  if (damage.kind === 'acceleration axis stuck' && quantity === 'acc' && axis === 2) return (0).toFixed(unit.decimals);
  const radians = damage.kind === 'degrees named, radians written' && quantity === 'gyr';
  let value = table.whole[sensor][quantity][from][axis];
  if (damage.kind === 'gravity taken off' && quantity === 'acc') value -= table.whole[sensor].acc[0][axis];
  return (value * (radians ? (Math.abs(unit.per_si - 1) < 0.01 ? 180 / Math.PI : 1) : unit.per_si)).toFixed(
    radians ? 4 : unit.decimals,
  );
}

function truth({ sides, whole, rows, hasGyr, damage, feet }: TableToWrite): TrueSensor[] {
  const kept = [...new Set(rows.order)].sort((a, b) => a - b).filter((row) => !rows.filled.has(row));
  if (rows.cutLastRow) kept.pop();
  void feet;
  return sides.map((side, sensor) => {
    const first = whole[sensor].time_s[kept[0]];
    return {
      side,
      rows: kept.map((row) => {
        const empty = rows.empty.get(row);
        const lost = (values: number[], from: number) =>
          values.map((value, axis) => (empty === from + axis ? null : value));
        return {
          t: whole[sensor].time_s[row] - first,
          acc: lost(whole[sensor].acc[row], 0),
          gyr: hasGyr && !/gyroscope/.test(damage.kind) ? lost(whole[sensor].gyr[row], 3) : null,
        };
      }),
    };
  });
}

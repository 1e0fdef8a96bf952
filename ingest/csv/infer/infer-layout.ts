import { type Fault, FaultError, fault } from '../../../shared/fault.ts';
import { because, type CodedReason } from '../../../shared/reason.ts';
import {
  type AxisTriple,
  type Layout,
  type LayoutCorrection,
  MOST_COLUMNS,
  type SensorColumns,
  type TimeColumns,
} from '../../../shared/schemas/layout.ts';
import type { Side } from '../../../shared/words.ts';
import type { Evidence } from '../columns/evidence.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';
import { type ColumnName, nameColumn } from '../columns/name-column.ts';
import {
  axesByLetter,
  axesUnderOneName,
  countFromZero,
  numberedSensors,
  rightBesideLeft,
} from '../columns/names-together.ts';
import { sideInWords } from '../columns/side-in-words.ts';
import { toldColumn } from '../columns/told-columns.ts';
import { gravityByRotation } from '../motion/gravity-by-rotation.ts';
import { type HeadTable, readHeadTable } from '../text/head-table.ts';
import { type Preamble, readNumbersInNames, readPreamble } from '../text/read-preamble.ts';
import { sniffTable, type TableShape } from '../text/sniff-table.ts';
import type { Encoding } from '../text/text-blocks.ts';
import { headPeriod } from '../time/head-period.ts';
import { inferTime } from '../time/infer-time.ts';
import { timeFacts } from '../time/time-facts.ts';
import { checkAngles } from './check-angles.ts';
import { checkWrittenRates } from './check-written-rates.ts';
import { fingerprint, fittingLayout } from './fit-saved-layout.ts';
import { accelerationScale, gyroscopeScale, likelyGyroscopeScale, type Scale } from './infer-scale.ts';
import { inferSensors } from './infer-sensors.ts';
import { inferSideColumn, type SideColumn } from './infer-sides.ts';
import {
  inferCodedRows,
  inferQuantityColumn,
  type QuantityColumn,
  refuseWovenWithoutTime,
  rowsAlternate,
  rowsHolding,
  rowsWith,
  wovenSensor,
} from './infer-woven-rows.ts';
import { linesOf, refuseSeveralPeople } from './infer-people.ts';
import { samplesSideBySide } from './samples-side-by-side.ts';
import { knownMotion } from './known-motion.ts';
import type { SensorFound, Triple } from './sensor-found.ts';
import { zeroTriples } from './unknown-triples.ts';

export interface LayoutFound {
  layout: Layout;
  evidence: Evidence[];
  /** 0-based line of the first row; what lies above is preamble, names and units. */
  first_row_line: number;
  preamble: Preamble;
  head: HeadTable;
  remarks: Fault[];
}

export interface LayoutHints {
  file_name: string;
  encoding: Encoding;
  told: LayoutCorrection | undefined;
  /** Saved layouts: the one made for files of this shape is used when nothing is told. */
  saved?: Layout[];
  rate_hz: number | undefined;
  side: Side | undefined;
}

/**
 * Finds how a file is laid out from its first lines, and says for every decision what it rests on.
 * @param lines first lines of the file, without their ends
 * @throws LayoutQuestion where the file does not tell; FaultError where it is no recording or lacks what is needed
 */
export function inferLayout(lines: string[], hints: LayoutHints): LayoutFound {
  const { file_name: file } = hints;
  const evidence: Evidence[] = [];
  const remarks: Fault[] = [];
  const saved = hints.told ? null : fittingLayout(lines, file, hints.saved ?? [], evidence);
  const told: LayoutCorrection | undefined = hints.told ?? saved?.layout;
  const shape = saved?.shape ?? sniffTable(lines, file, hints.told?.text, evidence);
  const preamble = readPreamble(shape.preamble);
  readNumbersInNames(shape.header, preamble);
  const columns = Array.from({ length: Math.min(shape.column_count, MOST_COLUMNS) }, (_, index) =>
    nameColumn(index, shape.header[index] ?? '', shape.units[index] ?? ''),
  );
  const rowsAsked = linesOf(lines, shape, told?.rows_of, (reference) =>
    columnIndex(reference, shape.header, shape.column_count, file),
  );
  const head = readHeadTable(rowsAsked, shape);
  const each = samplesSideBySide(columns, head) ? columns : numberedSensors(columns);
  const names = rightBesideLeft(axesByLetter(countFromZero(axesUnderOneName(each))));
  if (!told?.rows_of && !told?.sensors) refuseSeveralPeople(names, lines, shape, file);
  const quantities = told?.sensors
    ? null
    : (inferQuantityColumn(names, head, evidence) ?? inferCodedRows(names, head, file, evidence));
  const others = names.filter(({ index }) => index !== quantities?.column);
  const sideColumn =
    told?.sensors && told.side_column !== undefined
      ? toldSideColumn(told.sensors, told.side_column, shape, file)
      : inferSideColumn(others, head, file, evidence, shape.preamble, told?.side_values);
  const oneSide = sideColumn ? rowsOf(head, sideColumn) : null;
  const woven = quantities ? wovenRows(quantities, head, oneSide) : null;
  const named = woven ? wovenSensor(others, head, quantities!, woven, file, evidence) : null;
  let rows = woven?.acc ?? oneSide;
  const inTime = { file, head, names, rows, told, rate_hz: hints.rate_hz, preamble, decimal_mark: shape.decimal_mark };
  const period = (time: TimeColumns) => headPeriod(time, names, head, rows, shape.decimal_mark);
  // Nameless columns are told by how they turn together, which needs the interval; the evidence comes with the time itself.
  const found = told?.sensors
    ? null
    : named
      ? [named]
      : sayMisfit(shape, () =>
          inferSensors(names, head, file, evidence, told, preamble.counts_per_g, () =>
            period(inferTime({ ...inTime, evidence: [] })),
          ),
        );
  const alternate = told?.rows_alternate ?? (!woven && found !== null && rowsAlternate(found[0], head));
  const gyrRows = alternate && found ? rowsHolding(head, found[0].gyr!) : (woven?.gyr ?? null);
  if (alternate && found) rows = rowsHolding(head, found[0].acc);
  const motion = () =>
    found && !alternate && !woven ? knownMotion(found[0], head, rows, { file, told, preamble, evidence }) : null;
  const time = inferTime({ ...inTime, rows, evidence, motion });
  const wovenLayout = {
    ...(quantities ? { quantity_column: quantities.column } : {}),
    ...(alternate ? { rows_alternate: true } : {}),
  };
  if (gyrRows && found?.[0].gyr) sayWoven(time, file, evidence);
  const sensors = found
    ? scaledSensors(found, {
        head,
        rows,
        gyrRows,
        preamble,
        hints: { ...hints, told },
        evidence,
        remarks,
        sideColumn,
        quantities,
        period_s: headPeriod(time, names, head, rows, shape.decimal_mark),
      })
    : toldSensors(told!.sensors!, names, preamble, hints, evidence);
  if (found?.some(({ gyr }) => !gyr)) {
    for (const zeros of zeroTriples(names, head))
      remarks.push(fault('GYROSCOPE_DEAD', { file, columns: zeros.map(({ name }) => name) }, { file }));
  }
  const counter =
    told?.counter !== undefined ? told.counter : findCounter(names, head, rows, time.columns as number[], evidence);
  const layout: Layout = {
    layout_version: 1,
    name: told?.name ?? file.replace(/\.gz$/i, '').replace(/\.[a-z]+$/i, ''),
    fingerprint: fingerprint(shape),
    text: {
      encoding: hints.encoding,
      delimiter: shape.delimiter,
      decimal_mark: shape.decimal_mark,
      header_row: shape.header.length > 0,
      units_row: shape.units.length > 0,
      missing_values: told?.text?.missing_values ?? [],
      ...(told?.text?.rows_from_line ? { rows_from_line: told.text.rows_from_line } : {}),
    },
    column_names: shape.header.slice(0, MOST_COLUMNS),
    column_count: shape.column_count,
    time,
    counter,
    side_column: told?.side_column !== undefined ? told.side_column : (sideColumn?.column ?? null),
    ...rowsOfOthersLeft(told, sideColumn),
    ...toldWoven(told),
    ...wovenLayout,
    sensors,
  };
  return { layout, evidence, first_row_line: shape.first_row_line, preamble, head, remarks };
}

/** Names of columns that a fault lists. */
const NAMES_TOLD = 40;

/** Position of a column given by number or by name. */
export function columnIndex(reference: number | string, names: string[], count: number, file: string): number {
  const index =
    typeof reference === 'number'
      ? reference
      : names.findIndex((name) => name.toLowerCase() === reference.toLowerCase());
  if (index < 0 || index >= Math.min(count, MOST_COLUMNS)) {
    const told = names.slice(0, NAMES_TOLD);
    throw new FaultError(
      fault('LAYOUT_DOES_NOT_FIT', { file, column: reference, names: told, count }, { file, column: reference }),
    );
  }
  return index;
}

/** The column of a layout that says whose row it is, with the values it names. */
function toldSideColumn(
  sensors: SensorColumns[],
  column: number | string | null,
  shape: TableShape,
  file: string,
): SideColumn | null {
  if (column === null) return null;
  return {
    column: columnIndex(column, shape.header, shape.column_count, file),
    values: sensors.map(({ side, side_value }) => ({ value: side_value ?? '', side })),
  };
}

/** Sensors of a layout. Its side belongs to the file it was made from: what this file or the user says comes first. */
function toldSensors(
  sensors: SensorColumns[],
  names: ColumnName[],
  preamble: Preamble,
  hints: LayoutHints,
  evidence: Evidence[],
): SensorColumns[] {
  if (sensors.length > 1 || sensors[0].side_value !== null) return sensors;
  const [sensor] = sensors;
  const first = sensor.acc.columns[0];
  const column = names.find((name) => name.index === first || name.name === first);
  if (column && column.side !== 'unknown') return sensors;
  const settled = settleSide('unknown', preamble, hints, evidence);
  return [{ ...sensor, side: settled === 'unknown' ? sensor.side : settled }];
}

function rowsOf(head: HeadTable, side: SideColumn): number[] {
  const wanted = side.values[0].value;
  return head.text.flatMap((cells, row) => (cells[side.column] === wanted ? [row] : []));
}

/** A question about columns without names is a question about their names where a line of them does not fit. */
function sayMisfit<Found>({ misfit, column_count }: TableShape, find: () => Found): Found {
  try {
    return find();
  } catch (error) {
    if (!misfit || !(error instanceof LayoutQuestion) || error.about !== 'columns') throw error;
    const { where, choices } = error;
    throw new LayoutQuestion(String(where.file), {
      about: 'columns',
      found: because('found_misfit_names', { names: misfit.names, line: misfit.line, columns: column_count }),
      choices,
      hint: because('do_correct_names'),
    });
  }
}

/** Rows of acceleration and of angular rate of the first sensor. */
function wovenRows({ column, sensors }: QuantityColumn, head: HeadTable, among: number[] | null) {
  return {
    acc: rowsWith(head, column, sensors[0].acc_value, among),
    gyr: rowsWith(head, column, sensors[0].gyr_value, among),
  };
}

/** Whose rows are read, where a file holds those of more people, or of more sensors than the feet. */
function rowsOfOthersLeft(told: LayoutCorrection | undefined, sides: SideColumn | null): Pick<Layout, 'rows_of'> {
  if (told?.rows_of) return { rows_of: told.rows_of };
  if (!sides?.others) return {};
  return { rows_of: { column: sides.column, values: sides.values.map(({ value }) => value) } };
}

function toldWoven(told: LayoutCorrection | undefined): Pick<Layout, 'quantity_column' | 'rows_alternate'> {
  return {
    ...(told?.quantity_column === undefined ? {} : { quantity_column: told.quantity_column }),
    ...(told?.rows_alternate === undefined ? {} : { rows_alternate: told.rows_alternate }),
  };
}

function sayWoven(time: TimeColumns, file: string, evidence: Evidence[]): void {
  if (time.kind === 'rows') throw refuseWovenWithoutTime(file);
  evidence.push({
    about: 'angular rate',
    decided: because('took_interpolated'),
    because: because('by_rows_apart'),
    source: 'measured',
  });
}

interface Scaling {
  head: HeadTable;
  rows: number[] | null;
  /** Rows of angular rate, where they are not those of the acceleration. */
  gyrRows: number[] | null;
  quantities: QuantityColumn | null;
  preamble: Preamble;
  hints: LayoutHints;
  evidence: Evidence[];
  remarks: Fault[];
  sideColumn: SideColumn | null;
  period_s: number;
}

function scaledSensors(found: SensorFound[], scaling: Scaling): SensorColumns[] {
  const { head, rows, gyrRows, quantities, preamble, hints, evidence, remarks, sideColumn, period_s } = scaling;
  const { file_name: file, told } = hints;
  const sensors = found.map((sensor) => {
    const pick = (triple: Triple, of: number[] | null) =>
      triple.map(({ index }) => (of ? Float64Array.from(of, (row) => head.numbers[index][row]) : head.numbers[index]));
    const acc = pick(sensor.acc, rows);
    if (sensor.plus) {
      sameUnit([sensor.acc[0], ...sensor.plus.slice(0, 2)] as Triple, file);
      for (const [axis, column] of pick(sensor.plus, rows).entries())
        acc[axis] = acc[axis].map((v, i) => v + column[i]);
    }
    const turning = sensor.gyr && pick(sensor.gyr, gyrRows ?? rows);
    const dead = turning?.every((axis) => axis.every((value) => value === 0 || Number.isNaN(value))) ?? false;
    if (dead) {
      evidence.push({
        about: 'gyroscope',
        decided: because('took_none'),
        because: because('by_only_zeros'),
        source: 'measured',
      });
      remarks.push(fault('GYROSCOPE_DEAD', { file, columns: sensor.gyr!.map(({ name }) => name) }, { file }));
    }
    const gyr = dead ? null : turning;
    // Woven streams of one rate are near enough side by side for this.
    const sideBySide = !gyrRows || Math.abs(gyrRows.length / rows!.length - 1) < 0.01;
    const common = { file, told, preamble, evidence };
    const gyrSituation = { ...common, written: sensor.gyr && sameUnit(sensor.gyr, file), gravity: null };
    const likely = gyr && likelyGyroscopeScale(gyr, gyrSituation);
    const gravity =
      gyr && likely && sideBySide
        ? gravityByRotation(
            acc,
            gyr.map((axis) => axis.map((v) => v * likely)),
            period_s,
          )
        : null;
    const accScale = accelerationScale(acc, { ...common, written: sameUnit(sensor.acc, file), gravity });
    const gyrScale = gyr ? gyroscopeScale(gyr, acc, accScale, gyrSituation) : null;
    if (gyr && gyrScale && sideBySide)
      checkAngles(gyr, acc, sensor.gyr!, { accScale, gyrScale, period_s }, gyrSituation);
    if (gyr && gyrScale && sideBySide)
      checkWrittenRates(gyr, acc, { accScale, gyrScale, gravity, period_s }, gyrSituation);
    return {
      side: sensor.side,
      side_value: null,
      acc: {
        ...axes(sensor.acc, accScale),
        ...(sensor.plus ? { plus: sensor.plus.map(({ index }) => index) as [number, number, number] } : {}),
      },
      gyr: sensor.gyr && gyrScale ? axes(sensor.gyr, gyrScale) : null,
    };
  });
  if (quantities) {
    const { acc_value, gyr_value } = quantities.sensors[0];
    Object.assign(sensors[0], { acc_value }, gyr_value === null ? {} : { gyr_value });
  }
  if (sideColumn) return sideColumn.values.map(({ value, side }) => ({ ...sensors[0], side, side_value: value }));
  if (quantities && quantities.sensors.length > 1) {
    return quantities.sensors.map(({ side, acc_value, gyr_value }) => ({
      ...sensors[0],
      side,
      acc_value,
      ...(gyr_value === null ? {} : { gyr_value }),
    }));
  }
  if (quantities) found[0].side = quantities.sensors[0].side;
  if (sensors.length === 1) sensors[0].side = settleSide(found[0].side, preamble, hints, evidence);
  return sensors;
}

function settleSide(inNames: Side, preamble: Preamble, hints: LayoutHints, evidence: Evidence[]): Side {
  const say = (side: Side, why: CodedReason, source: Evidence['source']): Side => {
    evidence.push({ about: 'side', decided: because('took_sides', { sides: [side] }), because: why, source });
    return side;
  };
  if (hints.side && hints.side !== 'unknown') return say(hints.side, because('by_user'), 'told');
  if (inNames !== 'unknown') return say(inNames, because('by_names_of_side'), 'written');
  if (preamble.side !== 'unknown')
    return say(preamble.side, because('by_line', { line: preamble.lines.side ?? '' }), 'written');
  const inName = sideInWords(hints.file_name.replace(/\.(csv|txt|tsv|dat)?(\.gz)?$/i, ''));
  if (inName !== 'unknown') return say(inName, because('by_file_name', { file: hints.file_name }), 'written');
  return say('unknown', because('by_nothing_of_side'), 'measured');
}

/** The unit that all three columns carry; a triple of mixed units is refused. */
function sameUnit(triple: Triple, file: string) {
  const units = new Set(triple.map((name) => name.unit?.unit ?? ''));
  if (units.size > 1) {
    throw new LayoutQuestion(file, {
      about: 'unit',
      found: because('found_mixed_units', { names: triple.map(({ name }) => name) }),
      choices: [],
      hint: because('do_correct_header'),
    });
  }
  return triple[0].unit;
}

function axes(triple: Triple, scale: Scale): AxisTriple {
  return {
    columns: triple.map((name) => name.index) as [number, number, number],
    signs: triple.map((name) => name.sign) as [number, number, number],
    unit: scale.unit,
    to_si: scale.to_si,
  };
}

/** A counter grows by one nearly always; it tells lost samples. */
function findCounter(
  names: ColumnName[],
  head: HeadTable,
  rows: number[] | null,
  timeColumns: number[],
  evidence: Evidence[],
): number | null {
  for (const name of names) {
    if (timeColumns.includes(name.index) || (name.kind !== 'counter' && name.kind !== null)) continue;
    const facts = timeFacts(name, head, rows);
    if (!facts?.whole || !facts.counts) continue;
    evidence.push({
      about: 'counter',
      decided: because('took_columns', { columns: [toldColumn(name)] }),
      because: because('by_growing'),
      source: 'measured',
    });
    return name.index;
  }
  return null;
}

import { FaultError } from '../../shared/fault.ts';
import type { Side } from '../../shared/words.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { Evidence } from './evidence.ts';
import { gravityByRotation } from './gravity-by-rotation.ts';
import type { HeadTable } from './head-table.ts';
import { LayoutQuestion } from './layout-question.ts';
import type { Axis, ColumnName } from './name-column.ts';
import { normFacts, peakAbsolute } from './rest-norm.ts';
import { timeFacts } from './infer-time.ts';

export type Triple = [ColumnName, ColumnName, ColumnName];
/** The columns of one sensor, before their units are known. */
export interface SensorFound {
  side: Side;
  acc: Triple;
  gyr: Triple | null;
}

const AXES: Axis[] = ['x', 'y', 'z'];

/**
 * Groups named columns into sensors: three axes of acceleration each, and three of angular rate where there are.
 * @throws FaultError COLUMN_MISSING, ACCELERATION_WITHOUT_GRAVITY; LayoutQuestion when several sensors claim one side
 */
export function inferSensors(
  names: ColumnName[],
  head: HeadTable,
  file: string,
  evidence: Evidence[],
  period_s: () => number,
): SensorFound[] {
  const anonymous = names.every((name) => name.name === '');
  if (anonymous) return [sensorByNumbers(names, head, file, evidence, period_s)];
  const accs = triples(names, 'acc');
  let complete = accs.filter((group) => group.triple !== null);
  if (complete.length === 0 && accs.length === 0) {
    const plain = plainTriple(names, head, evidence);
    if (plain) complete = [{ side: plain[0].side, group: plain[0].group, triple: plain, found: [] }];
  }
  const named = names.some((name) => name.kind !== null && name.kind !== 'time' && name.kind !== 'counter');
  if (complete.length === 0 && accs.length === 0 && !named)
    return [sensorByNumbers(names, head, file, evidence, period_s)];
  if (complete.length === 0) throw missing(names, accs, file);
  const withGravity = complete.filter((group) => !group.triple![0].without_gravity);
  if (withGravity.length === 0) throw withoutGravity(complete[0].triple!, file);
  const gyrs = triples(names, 'gyr').filter(
    (group) => group.triple !== null && !sameColumns(group.triple, withGravity[0].triple!),
  );
  const sides = new Set(withGravity.map((group) => group.side));
  if (sides.size < withGravity.length) throw severalSensors(withGravity, gyrs, file);
  if (sides.size > 1) {
    evidence.push({
      about: 'side',
      decided: [...sides].join(' and '),
      because: 'the column names carry the side',
      source: 'written',
    });
  }
  return withGravity.map((group) => {
    const sameSide = gyrs.filter((candidate) => candidate.side === group.side);
    const gyr =
      sameSide.find((candidate) => candidate.group === group.group) ??
      (sameSide.length === 1 ? sameSide[0] : undefined);
    const named = group.triple!.map((column) => `"${column.name}"`).join(', ');
    evidence.push({
      about: 'acceleration',
      decided: named,
      because: 'names, units and letters of the axes',
      source: 'written',
    });
    if (gyr) refuseRowsByQuantity(group.triple!, gyr.triple!, head, file);
    evidence.push({
      about: 'gyroscope',
      decided: gyr ? gyr.triple!.map((column) => `"${column.name}"`).join(', ') : 'none',
      because: gyr ? 'names, units and letters of the axes' : 'no three columns of angular rate',
      source: 'written',
    });
    return { side: group.side, acc: group.triple!, gyr: gyr?.triple ?? null };
  });
}

/** Acceleration in some rows and angular rate in others: two streams woven into one table. */
function refuseRowsByQuantity(acc: Triple, gyr: Triple, head: HeadTable, file: string): void {
  let accAlone = 0;
  let gyrAlone = 0;
  for (let row = 0; row < head.rows; row++) {
    const [hasAcc, hasGyr] = [acc, gyr].map((triple) =>
      triple.some(({ index }) => !Number.isNaN(head.numbers[index][row])),
    );
    if (hasAcc && !hasGyr) accAlone++;
    if (hasGyr && !hasAcc) gyrAlone++;
  }
  if (accAlone < 0.2 * head.rows || gyrAlone < 0.2 * head.rows) return;
  throw new FaultError({
    code: 'ROWS_BY_QUANTITY',
    message: `${file}: acceleration ("${acc[0].name}") and angular rate ("${gyr[0].name}") stand in rows of their own; expected both in every row. The file was refused.`,
    where: { file },
    hint: 'Export both side by side, at one rate.',
  });
}

interface Group {
  side: Side;
  group: string;
  triple: Triple | null;
  found: ColumnName[];
}

function triples(names: ColumnName[], kind: 'acc' | 'gyr'): Group[] {
  const groups = new Map<string, Group>();
  for (const name of names) {
    if (name.kind !== kind || name.axis === null) continue;
    const key = `${name.side}|${name.group}`;
    const entry = groups.get(key) ?? { side: name.side, group: name.group, triple: null, found: [] };
    entry.found.push(name);
    groups.set(key, entry);
  }
  for (const entry of groups.values()) {
    const axes = AXES.map((axis) => entry.found.find((name) => name.axis === axis));
    if (axes.every((axis) => axis !== undefined)) entry.triple = axes as Triple;
  }
  return [...groups.values()];
}

function sameColumns(a: Triple, b: Triple): boolean {
  return a[0].index === b[0].index;
}

/** Columns called just x, y, z, or gx, gy, gz where no other acceleration is: the data must show 1 g. */
function plainTriple(names: ColumnName[], head: HeadTable, evidence: Evidence[]): Triple | null {
  const plain = names.filter((name) => name.axis !== null && (name.kind === null || name.doubtful_g));
  const axes = AXES.map((axis) => plain.filter((name) => name.axis === axis));
  if (axes.some((found) => found.length !== 1)) return null;
  const triple = axes.map((found) => found[0]) as Triple;
  if (!readsGravity(triple, head)) return null;
  evidence.push({
    about: 'acceleration',
    decided: triple.map((name) => `"${name.name}"`).join(', '),
    because: 'the only three axes, and their norm at rest is 1 g',
    source: 'measured',
  });
  return triple;
}

function readsGravity(triple: Triple, head: HeadTable): boolean {
  const resting = normFacts(
    ...(triple.map((name) => head.numbers[name.index]) as [Float64Array, Float64Array, Float64Array]),
  ).resting;
  return resting !== null && [1, 9.80665, 1000].some((oneG) => Math.abs(resting / oneG - 1) < 0.06);
}

/** No names at all: acceleration is the three columns whose norm at rest is 1 g, the gyroscope the three that rest at zero. */
function sensorByNumbers(
  names: ColumnName[],
  head: HeadTable,
  file: string,
  evidence: Evidence[],
  period_s: () => number,
): SensorFound {
  const sensorColumns = names.filter((name) => {
    const column = head.numbers[name.index];
    return column.some((value) => !Number.isNaN(value)) && !isConstant(column) && timeFacts(name, head, null) === null;
  });
  const starts: Triple[] = [];
  for (let i = 0; i + 2 < sensorColumns.length; i += 3) {
    const triple = sensorColumns.slice(i, i + 3) as Triple;
    if (triple[2].index - triple[0].index === 2) starts.push(triple);
  }
  const gravity = starts.filter((triple) => readsGravity(triple, head));
  const label = (triple: Triple) => `columns ${triple[0].index + 1} to ${triple[2].index + 1}`;
  const turning = gravity.length === 0 ? turnTogether(starts, head, period_s()) : null;
  if (turning) {
    const because = 'without names: turned back by the others, their mean is 1 g';
    evidence.push({ about: 'acceleration', decided: label(turning.acc), because, source: 'measured' });
    evidence.push({ about: 'gyroscope', decided: label(turning.gyr), because, source: 'measured' });
    return { side: 'unknown', ...turning };
  }
  if (gravity.length !== 1) {
    throw new LayoutQuestion(file, {
      about: 'columns',
      found: `${names.length} columns without names, of which ${gravity.length === 0 ? 'no three in a row have a norm of 1 g at rest' : `${gravity.map(label).join(' and ')} all have a norm of 1 g at rest`}`,
      choices: [],
      hint: 'Add a line of column names to the file, or give a layout that says which columns are acceleration and gyroscope.',
    });
  }
  const others = starts.filter((triple) => triple !== gravity[0] && restsAtZero(triple, head));
  evidence.push({
    about: 'acceleration',
    decided: label(gravity[0]),
    because: 'without names: the three columns whose norm at rest is 1 g',
    source: 'measured',
  });
  evidence.push({
    about: 'gyroscope',
    decided: others.length === 1 ? label(others[0]) : 'none',
    because:
      others.length === 1
        ? 'without names: the three columns that rest at zero'
        : 'no single three columns rest at zero',
    source: 'measured',
  });
  return { side: 'unknown', acc: gravity[0], gyr: others.length === 1 ? others[0] : null };
}

/** The one pair of columns in which turning the first back by the second leaves 1 g; null where none or several do. */
function turnTogether(starts: Triple[], head: HeadTable, period_s: number): { acc: Triple; gyr: Triple } | null {
  const columns = (triple: Triple) => triple.map((name) => head.numbers[name.index]);
  const fitting = starts.flatMap((acc) =>
    starts.flatMap((gyr) => {
      if (gyr === acc) return [];
      const scale = peakAbsolute(columns(gyr)) > 75 ? RADIANS_PER_DEGREE : 1;
      const turned = columns(gyr).map((axis) => axis.map((value) => value * scale));
      const norm = gravityByRotation(columns(acc), turned, period_s) ?? 0;
      return [1, STANDARD_GRAVITY_MPS2].some((oneG) => Math.abs(norm / oneG - 1) < 0.25) ? [{ acc, gyr }] : [];
    }),
  );
  return fitting.length === 1 ? fitting[0] : null;
}

function isConstant(column: Float64Array): boolean {
  return column.every((value) => value === column[0] || Number.isNaN(value));
}

function restsAtZero(triple: Triple, head: HeadTable): boolean {
  const columns = triple.map((name) => head.numbers[name.index]);
  const peak = peakAbsolute(columns);
  return columns.every((column) => Math.abs(column.slice().sort()[column.length >> 1]) < 0.1 * peak);
}

function missing(names: ColumnName[], accs: Group[], file: string): FaultError {
  const found = names.map((name) => name.name).filter((name) => name !== '');
  const partial = accs[0]?.found.map((name) => `"${name.name}"`).join(', ');
  const lacking = accs[0] ? AXES.filter((axis) => !accs[0].found.some((name) => name.axis === axis)).join(', ') : '';
  return new FaultError({
    code: 'COLUMN_MISSING',
    message: partial
      ? `${file}: found acceleration in ${partial} but no axis ${lacking}; all of x, y and z are needed. The file was refused.`
      : `${file}: found the columns ${found.slice(0, 12).join(', ')}${found.length > 12 ? ', ...' : ''}; expected acceleration in x, y and z. The file was refused.`,
    where: { file, column: partial ? `acceleration ${lacking}` : 'acceleration' },
    hint: 'Export the recording with all three axes of acceleration, or name the columns in a layout.',
  });
}

function withoutGravity(triple: Triple, file: string): FaultError {
  return new FaultError({
    code: 'ACCELERATION_WITHOUT_GRAVITY',
    message: `${file}: found only "${triple[0].name}", acceleration from which gravity was taken off; expected what the sensor itself reads, gravity included. The file was refused.`,
    where: { file, column: triple[0].name },
    hint: 'Export the raw acceleration.',
  });
}

function severalSensors(groups: Group[], gyrs: Group[], file: string): LayoutQuestion {
  const toAxes = (triple: Triple, kind: 'acc' | 'gyr') => ({
    columns: triple.map((name) => name.name) as [string, string, string],
    signs: triple.map((name) => name.sign) as [number, number, number],
    unit: triple[0].unit?.unit ?? (kind === 'acc' ? 'm/s2' : 'rad/s'),
    to_si: triple[0].unit?.to_si || 1,
  });
  return new LayoutQuestion(file, {
    about: 'sensor',
    found: `${groups.length} sensors or versions of the acceleration in one file (${groups.map((group) => `"${group.triple![0].name}"`).join(', ')})`,
    choices: groups.map((group) => {
      const gyr =
        gyrs.find((candidate) => candidate.side === group.side && candidate.group === group.group) ??
        (gyrs.length === 1 ? gyrs[0] : undefined);
      return {
        label: `"${group.triple![0].name}"`,
        correction: {
          sensors: [
            {
              side: group.side,
              side_value: null,
              acc: toAxes(group.triple!, 'acc'),
              gyr: gyr ? toAxes(gyr.triple!, 'gyr') : null,
            },
          ],
        },
      };
    }),
  });
}

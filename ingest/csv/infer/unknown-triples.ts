import { because } from '../../../shared/reason.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import type { Evidence } from '../columns/evidence.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';
import type { Axis, ColumnName } from '../columns/name-column.ts';
import { toldColumns } from '../columns/told-columns.ts';
import { fitOfPeriod } from '../motion/period-by-motion.ts';
import type { HeadTable } from '../text/head-table.ts';
import { timeFacts } from '../time/time-facts.ts';
import { readsGravity } from './infer-nameless-sensor.ts';
import { normFacts } from './rest-norm.ts';
import type { SensorFound, Triple } from './sensor-found.ts';

const AXES: Axis[] = ['x', 'y', 'z'];
const columnsOf = (triple: Triple, head: HeadTable) => triple.map(({ index }) => head.numbers[index]);

/**
 * Sets of three columns of changing numbers whose names say nothing that is known: by their axes, else three in a row whose names
 * begin alike.
 * @param alone leaves out names that more than one set of three share
 */
export function unknownTriples(names: ColumnName[], head: HeadTable, alone = false): Triple[] {
  const unknown = names.filter(
    (name) =>
      (name.kind === null || name.kind === 'side') &&
      (name.axis !== null || changes(head.numbers[name.index])) &&
      timeFacts(name, head, null) === null,
  );
  const groups = new Map<string, ColumnName[]>();
  for (const name of unknown) {
    const key = name.axis === null ? `row of ${stem(name.name)}` : `${name.side}|${name.group}`;
    groups.set(key, [...(groups.get(key) ?? []), name]);
  }
  return [...groups].flatMap(([key, found]) =>
    // Two sensors of the same names come one after the other.
    (alone && found.length > 3 ? [] : inThrees(found, key.startsWith('row of'))).filter(
      // One axis may be stuck; three that never change are no sensor.
      (triple) => triple.filter(({ index }) => changes(head.numbers[index])).length >= 2,
    ),
  );
}

/** Three columns side by side, of unknown names that end in x, y, z, which hold nothing but zeros: a sensor that was off. */
export function zeroTriples(names: ColumnName[], head: HeadTable): Triple[] {
  return names.flatMap((_, i) => {
    const three = names.slice(i, i + 3);
    const alike =
      three.map(({ name }) => name.trim().slice(-1).toLowerCase()).join('') === 'xyz' &&
      three.every(({ name, kind }) => kind === null && stem(name) === stem(three[0].name));
    const zeros = ({ index }: ColumnName) => !changes(head.numbers[index]) && head.numbers[index].includes(0);
    return alike && three.every(zeros) ? [three as Triple] : [];
  });
}

/** Parts columns of one group into sets of three: by their axes, or three that stand side by side. */
function inThrees(found: ColumnName[], sideBySide: boolean): Triple[] {
  if (found.length === 0 || found.length % 3 !== 0) return [];
  const threes = Array.from({ length: found.length / 3 }, (_, n) => found.slice(3 * n, 3 * n + 3));
  return threes.flatMap((three) => {
    if (sideBySide) return three[2].index - three[0].index === 2 ? [three as Triple] : [];
    const axes = AXES.map((axis) => three.find((name) => name.axis === axis));
    return axes.every((axis) => axis !== undefined) ? [axes as Triple] : [];
  });
}

/** A name without its unit and without the last letter or digit, by which three columns of one quantity differ. */
function stem(name: string): string {
  return name
    .replace(/[[({][^[({\])}]{0,60}[\])}]/g, '')
    .trim()
    .slice(0, -1)
    .toLowerCase();
}

function changes(column: Float64Array): boolean {
  const first = column.find((value) => !Number.isNaN(value));
  return first !== undefined && column.some((value) => value !== first && !Number.isNaN(value));
}

/** The acceleration of every side among columns of unknown names: the only three whose norm at rest is 1 g. */
export function accelerationByGravity(
  names: ColumnName[],
  head: HeadTable,
  evidence: Evidence[],
  counts_per_g: number | null,
): Triple[] {
  // Several sets under one name are told by how they rest, not by this alone.
  const candidates = unknownTriples(names, head, true).filter((triple) => readsGravity(triple, head, counts_per_g));
  const sides = new Set(candidates.map(([{ side }]) => side));
  if (sides.size < candidates.length) return [];
  for (const triple of candidates) {
    evidence.push({
      about: 'acceleration',
      decided: because('took_columns', { columns: toldColumns(triple) }),
      because: because('by_gravity_unknown'),
      source: 'measured',
    });
  }
  return candidates;
}

/**
 * Gives every sensor without angular rate the columns that are it by how they turn the acceleration.
 * @throws LayoutQuestion where columns of unknown names, or in a unit of rotation, may be angular rate and nothing settles it
 */
export function withUnknownRates(
  sensors: SensorFound[],
  names: ColumnName[],
  head: HeadTable,
  file: string,
  evidence: Evidence[],
  period_s: () => number,
): SensorFound[] {
  const used = new Set(
    sensors.flatMap(({ acc, gyr, plus }) => [...acc, ...(gyr ?? []), ...(plus ?? [])].map(({ index }) => index)),
  );
  const free = names.filter(({ index }) => !used.has(index));
  const candidates = [...inUnitOfRotation(free, head), ...unknownTriples(free, head)];
  if (candidates.length === 0) return sensors;
  return sensors.map((sensor) => {
    if (sensor.gyr) return sensor;
    // A sensor is told from the others by the words that its own columns share, whatever side it was given.
    const [{ side, group }] = sensor.acc;
    const beside = candidates.filter(([column]) => sensors.length === 1 || column.side === side);
    const alike = sensors.filter(({ acc: [other] }) => other.side === side && other.group === group);
    const own =
      alike.length > 1 && beside.length === alike.length
        ? [beside[alike.indexOf(sensor)]]
        : beside.length > 1 && sensors.length > 1
          ? sameGroup(beside, group)
          : beside;
    if (own.length === 0) return sensor;
    const turning = own.filter((triple) => turns(sensor.acc, triple, head, period_s()));
    if (turning.length === 1) {
      evidence.push({
        about: 'gyroscope',
        decided: because('took_columns', { columns: toldColumns(turning[0]) }),
        because: because('by_turning_unknown'),
        source: 'measured',
      });
      return { ...sensor, gyr: turning[0] };
    }
    throw new LayoutQuestion(file, {
      about: 'gyroscope',
      found: because('found_unknown_rates', { acc: toldColumns(sensor.acc), rates: own.map(toldColumns) }),
      choices: [
        ...own.map((triple) => ({
          label: because('choice_rates', { columns: toldColumns(triple) }),
          correction: { gyr_columns: triple.map(({ index }) => index) as [number, number, number] },
        })),
        { label: because('choice_no_rates'), correction: { gyr_columns: null } },
      ],
    });
  });
}

function sameGroup(candidates: Triple[], group: string): Triple[] {
  const same = candidates.filter(([column]) => column.group === group);
  return same.length > 0 ? same : candidates;
}

/** Columns in a unit of rotation that no word placed: three of one side, in the order of their axes. */
function inUnitOfRotation(names: ColumnName[], head: HeadTable): Triple[] {
  const rotating = names.filter(
    ({ unit, kind, index }) => unit?.kind === 'gyr' && kind !== 'other' && changes(head.numbers[index]),
  );
  return [...new Set(rotating.map(({ side }) => side))].flatMap((side) => {
    const own = rotating.filter((name) => name.side === side);
    const byAxis = inThrees(own, false);
    return byAxis.length > 0 || own.length !== 3 ? byAxis : [own as Triple];
  });
}

function turns(acc: Triple, gyr: Triple, head: HeadTable, period_s: number): boolean {
  const columns = columnsOf(acc, head);
  const resting = normFacts(columns[0], columns[1], columns[2]).resting;
  const units =
    acc[0].unit?.kind === 'acc'
      ? [STANDARD_GRAVITY_MPS2 / acc[0].unit.to_si]
      : resting
        ? [resting]
        : [1, STANDARD_GRAVITY_MPS2, 1000];
  const scales = gyr[0].unit?.kind === 'gyr' ? [gyr[0].unit.to_si] : [1, RADIANS_PER_DEGREE, RADIANS_PER_DEGREE / 1000];
  return units.some((one_g) =>
    scales.some((scale) => {
      const rates = columnsOf(gyr, head).map((axis) => axis.map((value) => value * scale));
      return fitOfPeriod({ acc: columns, one_g, gyr: rates }, period_s) === 'fits';
    }),
  );
}

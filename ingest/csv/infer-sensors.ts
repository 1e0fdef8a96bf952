import { FaultError } from '../../shared/fault.ts';
import type { Side } from '../../shared/words.ts';
import type { Evidence } from './evidence.ts';
import type { HeadTable } from './head-table.ts';
import { readsGravity, sensorByNumbers } from './infer-nameless-sensor.ts';
import { LayoutQuestion } from './layout-question.ts';
import type { Axis, ColumnName } from './name-column.ts';

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
    evidence.push({
      about: 'gyroscope',
      decided: gyr ? gyr.triple!.map((column) => `"${column.name}"`).join(', ') : 'none',
      because: gyr ? 'names, units and letters of the axes' : 'no three columns of angular rate',
      source: 'written',
    });
    return { side: group.side, acc: group.triple!, gyr: gyr?.triple ?? null };
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

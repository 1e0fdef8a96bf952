import { isDeepStrictEqual } from 'node:util';
import { because } from '../../../shared/reason.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';
import type { Side } from '../../../shared/words.ts';
import type { Evidence } from '../columns/evidence.ts';
import type { Axis, ColumnName } from '../columns/name-column.ts';
import { toldColumn, toldColumns } from '../columns/told-columns.ts';
import type { HeadTable } from '../text/head-table.ts';
import { readsGravity, sensorByNumbers } from './infer-nameless-sensor.ts';
import type { SensorFound, Triple } from './sensor-found.ts';
import {
  askForAngles,
  type Group,
  missing,
  orAsk,
  ratesInOtherUnit,
  severalSensors,
  whichAcceleration,
  whichRates,
  withoutGravity,
} from './sensor-questions.ts';
import { accelerationByGravity, unknownTriples, withUnknownRates } from './unknown-triples.ts';

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
  told: Pick<LayoutCorrection, 'acc_columns' | 'gyr_columns' | 'sensor_sides'> | undefined,
  counts_per_g: number | null,
  period_s: () => number,
): SensorFound[] {
  const anonymous = names.every((name) => name.name === '');
  const toldAcc = told?.acc_columns ? toldTriple(told.acc_columns, names) : null;
  if (anonymous && !toldAcc)
    return [sensorByNumbers(names, head, file, evidence, period_s, told?.gyr_columns === null)];
  const accs = triples(names, 'acc');
  let complete = chosenVersion(
    accs.filter((group) => group.triple !== null),
    'acc',
    told?.acc_columns,
    evidence,
  );
  if (complete.length === 0 && toldAcc) complete = [groupOf(toldAcc)];
  if (complete.length === 0 && accs.length === 0) {
    const plain = plainTriple(names, head, evidence);
    const byGravity = plain ? [plain] : accelerationByGravity(names, head, evidence, counts_per_g);
    complete = byGravity.map(groupOf);
  }
  const named = names.some((name) => name.kind !== null && name.kind !== 'time' && name.kind !== 'counter');
  if (complete.length === 0 && accs.length === 0) {
    const unknown = unknownTriples(names, head);
    const byNumbers = () => [sensorByNumbers(names, head, file, evidence, period_s, told?.gyr_columns === null)];
    const ask = () => (unknown.length > 0 ? whichAcceleration(unknown, file) : missing(names, accs, file));
    if (!named) return orAsk(byNumbers, ask);
    if (unknown.length > 0) throw whichAcceleration(unknown, file);
  }
  if (complete.length === 0) throw missing(names, accs, file);
  let withGravity = complete.filter((group) => !group.triple![0].without_gravity);
  const gravity = withGravity.length === 0 && complete.length === 1 ? gravityColumns(names) : null;
  if (gravity) {
    withGravity = [{ ...complete[0], plus: gravity }];
    evidence.push({
      about: 'gravity',
      decided: because('took_sum', { columns: toldColumns(gravity) }),
      because: because('by_gravity_apart'),
      source: 'written',
    });
  }
  // A name may be wrong, 1 g at rest is not: some programs call 'linear' what is not turning.
  if (withGravity.length === 0) withGravity = complete.filter(({ triple }) => readsGravity(triple!, head));
  if (withGravity.length === 0) throw withoutGravity(complete[0].triple!, file);
  const gyrs = chosenVersion(
    triples(names, 'gyr').filter(
      (group) => group.triple !== null && !sameColumns(group.triple, withGravity[0].triple!),
    ),
    'gyr',
    undefined,
    evidence,
  );
  const toldGyr = told?.gyr_columns ? toldTriple(told.gyr_columns, names) : null;
  const settled = told?.gyr_columns !== undefined;
  if (!settled && gyrs.length === 0) askForAngles(names, file);
  withGravity = sidesTold(withGravity, told?.sensor_sides, evidence);
  const sides = new Set(withGravity.map(sideOf));
  if (sides.size < withGravity.length) throw severalSensors(withGravity, file);
  if (sides.size > 1) {
    evidence.push({
      about: 'side',
      decided: because('took_sides', { sides: [...sides] }),
      because: because('by_names_of_side'),
      source: 'written',
    });
  }
  const sensors = withGravity.map((group) => {
    const sameSide = gyrs.filter((candidate) => candidate.side === group.side);
    const sameGroup = sameSide.filter((candidate) => candidate.group === group.group);
    // Where two sensors carry the same names, the first of one belongs to the first of the other.
    const alike = withGravity.filter((other) => other.side === group.side && other.group === group.group);
    const own = sameGroup.length > 0 ? sameGroup : sameSide;
    const gyr = own.length === 1 || own.length === alike.length ? own[alike.indexOf(group) % own.length] : undefined;
    if (!gyr && own.length > 0 && !settled)
      throw whichRates(
        group.triple!,
        own.map(({ triple }) => triple!),
        file,
      );
    evidence.push({
      about: 'acceleration',
      decided: because('took_columns', { columns: toldColumns(group.triple!) }),
      because: because('by_names'),
      source: 'written',
    });
    return {
      side: sideOf(group),
      acc: group.triple!,
      gyr: settled ? toldGyr : (gyr?.triple ?? null),
      plus: group.plus,
    };
  });
  if (!settled && sensors.every(({ gyr }) => gyr === null)) askForOtherUnit(names, sensors[0].acc, file);
  const found = settled ? sensors : withUnknownRates(sensors, names, head, file, evidence, period_s);
  for (const { gyr } of found) sayRates(gyr, evidence);
  return found;
}

/** Columns named as angular rate in a unit of something else are asked about, never left out unsaid. */
function askForOtherUnit(names: ColumnName[], acc: Triple, file: string): void {
  const rates = triples(
    names.filter(({ rate_by_words }) => rate_by_words).map((name) => ({ ...name, kind: 'gyr' as const })),
    'gyr',
  ).flatMap(({ triple }) => triple ?? []);
  if (rates.length > 0) throw ratesInOtherUnit(acc, rates.slice(0, 3) as Triple, file);
}

function sayRates(gyr: Triple | null, evidence: Evidence[]): void {
  const decided = gyr ? because('took_columns', { columns: toldColumns(gyr) }) : because('took_none');
  if (evidence.some((entry) => entry.about === 'gyroscope' && isDeepStrictEqual(entry.decided, decided))) return;
  const why = gyr ? because('by_names') : because('by_no_rate_columns');
  evidence.push({ about: 'gyroscope', decided, because: why, source: 'written' });
}

const FILTERED_WORDS =
  /(^| )(filt|filtered|smooth|smoothed|lowpass|lp|butter|butterworth|kalman|corrected|gefiltert)( |$)/;

/** Of one quantity given twice, the one that is told, that has a unit, or that nobody filtered. */
function chosenVersion(
  groups: Group[],
  kind: 'acc' | 'gyr',
  told: (number | string)[] | undefined,
  evidence: Evidence[],
): Group[] {
  const about = kind === 'acc' ? 'acceleration' : 'gyroscope';
  if (told) {
    return groups.filter(({ triple }) =>
      told.every((reference, axis) => reference === triple![axis].index || reference === triple![axis].name),
    );
  }
  const counts = groups.filter(({ triple }) => triple![0].unit?.unit === 'counts');
  const scaled = groups.filter((group) => group.triple![0].unit?.kind === kind);
  if (counts.length > 0 && scaled.length > 0 && counts.length + scaled.length === groups.length) {
    evidence.push({
      about,
      decided: because('took_columns', { columns: scaled.map(({ triple }) => toldColumn(triple![0])) }),
      because: because('by_unit_beside_counts'),
      source: 'written',
    });
    return scaled;
  }
  const raw = groups.filter(({ group }) => !FILTERED_WORDS.test(group));
  if (raw.length === 0 || raw.length === groups.length) return groups;
  evidence.push({
    about,
    decided: because('took_columns', { columns: raw.map(({ triple }) => toldColumn(triple![0])) }),
    because: because('by_filtered_beside'),
    source: 'written',
  });
  return raw;
}

const groupOf = (triple: Triple): Group => ({ side: triple[0].side, group: triple[0].group, triple, found: [] });
const sideOf = ({ side, told_side }: Group): Side => told_side ?? side;

/** Gives sensors the sides that a layout says, in the order of their columns. */
function sidesTold(groups: Group[], told: Side[] | undefined, evidence: Evidence[]): Group[] {
  if (!told || told.length !== groups.length) return groups;
  const inOrder = [...groups].sort((a, b) => a.triple![0].index - b.triple![0].index);
  const read = inOrder.flatMap((group, i) => (told[i] === 'unknown' ? [] : [{ ...group, told_side: told[i] }]));
  evidence.push({
    about: 'side',
    decided: because('took_sides', { sides: read.map((group) => group.told_side) }),
    because: because('by_layout'),
    source: 'told',
  });
  return read;
}

/** The only three axes of gravity alone; null where there are none. */
function gravityColumns(names: ColumnName[]): Triple | null {
  const named = names.filter(
    ({ name, axis, without_gravity }) =>
      axis !== null && !without_gravity && /gravity|grav\b|schwerkraft|gravedad|gravit/i.test(name),
  );
  const axes = AXES.map((axis) => named.filter((name) => name.axis === axis));
  return axes.every((found) => found.length === 1) ? (axes.map(([found]) => found) as Triple) : null;
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
  for (const [key, entry] of [...groups]) {
    const parted = partDoubles(entry);
    if (parted.length < 2) continue;
    groups.delete(key);
    for (const [n, part] of parted.entries()) groups.set(`${key}|${n}`, part);
  }
  for (const entry of groups.values()) {
    const axes = AXES.map((axis) => entry.found.find((name) => name.axis === axis));
    if (axes.every((axis) => axis !== undefined)) entry.triple = axes as Triple;
  }
  return [...groups.values()];
}

/** A group that has an axis twice holds two versions: told apart by their units, else by the order of the columns. */
function partDoubles(group: Group): Group[] {
  const doubled = AXES.some((axis) => group.found.filter((name) => name.axis === axis).length > 1);
  if (!doubled) return [group];
  const units = [...new Set(group.found.map((name) => name.unit?.unit ?? ''))];
  const parts =
    units.length > 1
      ? units.map((unit) => group.found.filter((name) => (name.unit?.unit ?? '') === unit))
      : group.found.reduce<ColumnName[][]>((sets, name) => {
          const free = sets.find((set) => set.every(({ axis }) => axis !== name.axis));
          if (free) free.push(name);
          else sets.push([name]);
          return sets;
        }, []);
  return parts.map((found) => ({ ...group, found }));
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
    decided: because('took_columns', { columns: toldColumns(triple) }),
    because: because('by_gravity_axes'),
    source: 'measured',
  });
  return triple;
}

function toldTriple(columns: (number | string)[], names: ColumnName[]): Triple | null {
  const found = columns.map((reference) => names.find(({ index, name }) => index === reference || name === reference));
  return found.every((column) => column !== undefined) ? (found as Triple) : null;
}

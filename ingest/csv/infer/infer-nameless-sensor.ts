import { because } from '../../../shared/reason.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import type { Evidence } from '../columns/evidence.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';
import type { ColumnName } from '../columns/name-column.ts';
import { gravityByRotation } from '../motion/gravity-by-rotation.ts';
import type { HeadTable } from '../text/head-table.ts';
import { timeFacts } from '../time/time-facts.ts';
import { normFacts, peakAbsolute } from './rest-norm.ts';
import type { SensorFound, Triple } from './sensor-found.ts';

/** No names at all: acceleration is the three columns whose norm at rest is 1 g, the gyroscope the three that rest at zero. */
export function sensorByNumbers(
  names: ColumnName[],
  head: HeadTable,
  file: string,
  evidence: Evidence[],
  period_s: () => number,
  /** True where somebody said that there is no angular rate. */
  no_rates = false,
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
  const span = (triple: Triple) => ({ from: triple[0].index + 1, to: triple[2].index + 1 });
  const took = (triple: Triple) => because('took_span', span(triple));
  const turning = gravity.length === 0 ? turnTogether(starts, head, period_s()) : null;
  if (turning) {
    const why = because('by_turning_nameless');
    evidence.push({ about: 'acceleration', decided: took(turning.acc), because: why, source: 'measured' });
    evidence.push({ about: 'gyroscope', decided: took(turning.gyr), because: why, source: 'measured' });
    return { side: 'unknown', ...turning };
  }
  if (gravity.length !== 1) {
    throw new LayoutQuestion(file, {
      about: 'columns',
      found: because('found_nameless', {
        columns: names.length,
        gravity: gravity.map(span),
      }),
      choices: [],
      hint: because('do_add_names'),
    });
  }
  const others = starts.filter((triple) => triple !== gravity[0] && restsAtZero(triple, head));
  const left = sensorColumns.filter((name) => !gravity[0].includes(name));
  if (!no_rates && others.length === 0 && left.length >= 2 && left.every((name) => centred(head.numbers[name.index])))
    throw new LayoutQuestion(file, {
      about: 'gyroscope',
      found: because('found_nameless_left', { columns: left.map(({ index }) => index + 1) }),
      choices: [{ label: because('choice_no_rates'), correction: { gyr_columns: null } }],
      hint: because('do_add_names'),
    });
  evidence.push({
    about: 'acceleration',
    decided: took(gravity[0]),
    because: because('by_gravity_nameless'),
    source: 'measured',
  });
  evidence.push({
    about: 'gyroscope',
    decided: others.length === 1 ? took(others[0]) : because('took_none'),
    because: others.length === 1 ? because('by_zero_nameless') : because('by_no_zero_nameless'),
    source: 'measured',
  });
  return { side: 'unknown', acc: gravity[0], gyr: others.length === 1 ? others[0] : null };
}

/** Every pair of triples is tried, so that there may not be many. */
const MOST_TURNED = 12;

/** The one pair of columns in which turning the first back by the second leaves 1 g; null where none or several do. */
function turnTogether(starts: Triple[], head: HeadTable, period_s: number): { acc: Triple; gyr: Triple } | null {
  const columns = (triple: Triple) => triple.map((name) => head.numbers[name.index]);
  if (starts.length > MOST_TURNED) return null;
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

/** Whether three columns rest at zero. */
export function restsAtZero(triple: Triple, head: HeadTable): boolean {
  const columns = triple.map((name) => head.numbers[name.index]);
  const peak = peakAbsolute(columns);
  return columns.every((column) => Math.abs(column.slice().sort()[column.length >> 1]) < 0.1 * peak);
}

/** Goes up and down about zero, as angular rates do. */
function centred(column: Float64Array): boolean {
  const peak = column.reduce((most, value) => Math.max(most, Math.abs(value) || 0), 0);
  return Math.abs(column.slice().sort()[column.length >> 1]) < 0.1 * peak && column.some((value) => value < 0);
}

/** Whether three columns have a norm of 1 g at rest, in g, m/s2, mg, or the counts that the file tells. */
export function readsGravity(triple: Triple, head: HeadTable, counts_per_g: number | null = null): boolean {
  const resting = normFacts(
    ...(triple.map((name) => head.numbers[name.index]) as [Float64Array, Float64Array, Float64Array]),
  ).resting;
  return (
    resting !== null &&
    [1, STANDARD_GRAVITY_MPS2, 1000, ...(counts_per_g ? [counts_per_g] : [])].some(
      (oneG) => Math.abs(resting / oneG - 1) < 0.06,
    )
  );
}

import { because } from '../../../shared/reason.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { type LayoutChoice, LayoutQuestion } from '../columns/layout-question.ts';
import { fitOfPeriod, strideRows } from '../motion/period-by-motion.ts';
import type { Scale, Situation } from './infer-scale.ts';
import { normFacts, peakAbsolute } from './rest-norm.ts';
import type { Triple } from './sensor-found.ts';

interface Known {
  accScale: Scale;
  gyrScale: Scale;
  period_s: number;
}

/** What angles are written in, and a whole turn of it. */
const ANGLE_UNITS = [
  { word: 'degrees', to_si: RADIANS_PER_DEGREE, turn: 360 },
  { word: 'radians', to_si: 1, turn: 2 * Math.PI },
];

/**
 * Angles under the names of rates. Either physics tells: turned back by the columns as they are the acceleration leaves no 1 g, turned
 * back by their change from row to row it does. Or their size and pace do: no value goes beyond half a turn although the sensor is
 * shaken hard, and they change as slowly as angles do.
 * @param found the columns of angular rate
 * @throws LayoutQuestion whose first choice reads the file without them
 */
export function checkAngles(
  gyr: Float64Array[],
  acc: Float64Array[],
  found: Triple,
  known: Known,
  { told, file, written }: Pick<Situation, 'told' | 'file' | 'written'>,
): void {
  if (told?.gyr_unit || told?.gyr_columns || told?.gyr_counts_per_dps || told?.sensors) return;
  const unit = ANGLE_UNITS.find((one) => {
    const rates = gyr.map((axis) => changes(axis, one.to_si / known.period_s, one.turn));
    if (turnsAs(gyr, rates, acc, known)) return true;
    const other = written?.kind === 'gyr' && Math.abs(written.to_si / one.to_si - 1) > 1e-6;
    return !other && paced(gyr, rates, acc, known, one, written?.kind === 'gyr');
  });
  if (!unit) return;
  throw new LayoutQuestion(file, {
    about: 'gyroscope',
    found: because('found_angles', { names: found.map(({ name }) => name), unit: unit.word }),
    choices: [{ label: because('choice_no_rates'), correction: { gyr_columns: null } }, ...asNamed(known.gyrScale)],
    hint: because('do_export_rates'),
  });
}

function asNamed({ unit, to_si }: Scale): LayoutChoice[] {
  const label = because('choice_rates_as_named');
  if (unit === 'deg/s' || unit === 'rad/s' || unit === 'mdeg/s') return [{ label, correction: { gyr_unit: unit } }];
  return [{ label, correction: { gyr_counts_per_dps: RADIANS_PER_DEGREE / to_si } }];
}

/** Change from row to row, a jump by whole turns taken out. */
function changes(axis: Float64Array, scale: number, turn: number): Float64Array {
  return axis.map((value, row) => {
    const change = row > 0 ? value - axis[row - 1] : 0;
    return (change - turn * Math.round(change / turn)) * scale;
  });
}

function turnsAs(
  gyr: Float64Array[],
  rates: Float64Array[],
  acc: Float64Array[],
  { accScale, gyrScale, period_s }: Known,
): boolean {
  const one_g = STANDARD_GRAVITY_MPS2 / accScale.to_si;
  const fit = (turning: Float64Array[]) => fitOfPeriod({ acc, one_g, gyr: turning }, period_s);
  return fit(gyr.map((axis) => axis.map((value) => value * gyrScale.to_si))) === 'not' && fit(rates) === 'fits';
}

/** Shaken harder than this a leg turns faster than 400 deg/s: feet and shanks of 18 runners from 2.5 m/s on, and two sprinters. */
const HARD_G = 5;
/** No angle lies beyond half a turn; a range from 0 to a whole one is as common. */
const HALF_TURN = 1.003;
/**
 * How fast a signal changes against its own size, 1/s: angles of those legs 8 to 19, rates 19 to 50. Where the unit says that no value
 * goes beyond half a turn, that alone tells nearly all.
 */
const PACE_OF_ANGLES = { written: 25, by_stride: 16.5, alone: 15 };
/** The same in turns a stride: angles 0.8 to 2.0, rates 2.2 to 4.5. */
const TURNS_A_STRIDE = 2.1;
/** A leg's stride, seconds: what else comes again is none. */
const STRIDE_S = [0.35, 1.6];
/** The largest changes are those of an angle that jumps where two axes fall together. */
const JUMPS_SHARE = 0.02;
/** Some strides: less says nothing of a pace. */
const SHORTEST_LOOK_S = 2;
/** Slower than this nothing turned at all. */
const LEAST_TURNING_RADPS = 300 * RADIANS_PER_DEGREE;

function paced(
  gyr: Float64Array[],
  rates: Float64Array[],
  acc: Float64Array[],
  { accScale, period_s }: Known,
  { to_si, turn }: (typeof ANGLE_UNITS)[number],
  asUnit: boolean,
): boolean {
  if (acc[0].length * period_s < SHORTEST_LOOK_S) return false;
  const shaken_g = (normFacts(acc[0], acc[1], acc[2]).peak * accScale.to_si) / STANDARD_GRAVITY_MPS2;
  if (shaken_g < HARD_G) return false;
  const positive = gyr.every((axis) => axis.every((value) => !(value < 0)));
  if (peakAbsolute(gyr) > HALF_TURN * (positive ? turn : turn / 2)) return false;
  const changing = rates.map((axis) => trimmedSquare(axis)).reduce((a, b) => a + b, 0);
  const size = gyr.map((axis) => variance(axis)).reduce((a, b) => a + b, 0) * to_si * to_si;
  const fast = rates.some((axis) => axis.some((rate) => Math.abs(rate) > LEAST_TURNING_RADPS));
  return fast && slowAsAngles(Math.sqrt(changing / size), asUnit, (strideRows(acc) ?? 0) * period_s);
}

function slowAsAngles(pace: number, asUnit: boolean, stride_s: number): boolean {
  if (asUnit) return pace < PACE_OF_ANGLES.written;
  if (!(stride_s > STRIDE_S[0] && stride_s < STRIDE_S[1])) return pace < PACE_OF_ANGLES.alone;
  return pace < PACE_OF_ANGLES.by_stride && (pace * stride_s) / (2 * Math.PI) < TURNS_A_STRIDE;
}

/** Mean square without the largest values. */
function trimmedSquare(values: Float64Array): number {
  const squares = Float64Array.from(values, (value) => value * value)
    .filter((value) => !Number.isNaN(value))
    .sort();
  const kept = squares.subarray(0, Math.ceil(squares.length * (1 - JUMPS_SHARE)));
  return kept.reduce((sum, value) => sum + value, 0) / Math.max(1, kept.length);
}

function variance(values: Float64Array): number {
  let [n, sum, squares] = [0, 0, 0];
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    n++;
    sum += value;
    squares += value * value;
  }
  return n > 0 ? squares / n - (sum / n) ** 2 : 0;
}

import type { AxisColumns } from '../../shared/sample-block.ts';
import { RADIANS_PER_DEGREE } from '../../shared/units.ts';
import { principalEigenvector } from '../signals/sagittal-axis.ts';
import type { Vector3 } from '../numeric/rotation.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import { swingCycles } from '../events/swing-cycles.ts';
import { added, dot, length, scaled, unit } from '../numeric/rotation.ts';
import { MAD_TO_SD, mean, median, quantile } from '../numeric/statistics.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

/** How the axis of the swing moved in the sensor's own axes: a firm sensor keeps it. */
export interface AxisCourse {
  /** Turned at one instant, or little by little, whichever describes the strides better. */
  how: 'at once' | 'slowly';
  /** 0 to 90: an axis is a line, so a turn by more shows as what it lacks to half a turn. */
  angle_deg: number;
  /** What the angle would have to exceed, for the scatter of these strides. */
  limit_deg: number;
  /** Sensor clock: between which strides it turned; the middle where it went slowly. */
  at_s: number;
  strides: number;
}

/** A long recording is split at no more places than this. */
const MOST_SPLITS = 100;

interface StrideAxis {
  at_s: number;
  axis: Vector3;
}

/**
 * Whether a sensor turned on the leg during the recording. The axis of every stride's rotation is found by itself. Two courses are laid
 * through them, one step and one straight drift, and the better one counts. Turning about the axis of the swing itself does not
 * show here; it leaves contact times as they are.
 * @returns null without gyroscope or with too few strides
 */
export function axisCourse(signals: SensorSignals, settings: AnalysisSettings): AxisCourse | null {
  const { least_strides, limit_deg, scatter_factor } = settings.mounting.turning;
  const strides = strideAxes(signals, settings);
  if (strides.length < 2 * least_strides) return null;
  const axes = strides.map(({ axis }) => axis);
  const at_s = strides.map((stride) => stride.at_s);
  const step = bestStep(axes, least_strides);
  const drift = straightDrift(axes, at_s);
  const slowly = drift.scatter < step.scatter;
  const found = slowly ? drift : step;
  return {
    how: slowly ? 'slowly' : 'at once',
    angle_deg: found.angle / RADIANS_PER_DEGREE,
    limit_deg: limit_deg + (scatter_factor * found.scatter) / RADIANS_PER_DEGREE,
    at_s: slowly ? mean(at_s) : (at_s[step.split - 1] + at_s[step.split]) / 2,
    strides: strides.length,
  };
}

/**
 * One axis a stride length, one stride length after the other: over a whole stride it does not matter where it begins, so a sensor
 * that turned too far for its strides to be found is still seen.
 */
function strideAxes(signals: SensorSignals, settings: AnalysisSettings): StrideAxis[] {
  const { gyr_radps: gyr, axis: overall, rate_hz, start_s, length: n } = signals;
  if (!gyr || !overall) return [];
  const { most_stride_s, least_rate_part } = settings.mounting.turning;
  const cycles = swingCycles(signals, settings)
    .filter(({ whole }) => whole)
    .map(({ from, to }) => to - from)
    .filter((samples) => samples < most_stride_s * rate_hz);
  if (cycles.length === 0) return [];
  const width = Math.round(median(cycles));
  const moments: { from: number; moment: number[] }[] = [];
  for (let from = 0; from + width <= n; from += width) {
    const moment = secondMoment(gyr, from, from + width);
    if (moment.every(Number.isFinite)) moments.push({ from, moment });
  }
  const power = ([xx, , , yy, , zz]: number[]): number => xx + yy + zz;
  const least =
    least_rate_part ** 2 *
    quantile(
      moments.map(({ moment }) => power(moment)),
      0.9,
    );
  let previous = overall;
  return moments
    .filter(({ moment }) => power(moment) > least)
    .map(({ from, moment }) => {
      const found = principalEigenvector(moment);
      previous = scaled(found, dot(found, previous) < 0 ? -1 : 1);
      return { axis: previous, at_s: start_s + from / rate_hz };
    });
}

function secondMoment({ x, y, z }: AxisColumns, from: number, to: number): number[] {
  const m = [0, 0, 0, 0, 0, 0];
  for (let i = from; i < to; i++) {
    m[0] += x[i] * x[i];
    m[1] += x[i] * y[i];
    m[2] += x[i] * z[i];
    m[3] += y[i] * y[i];
    m[4] += y[i] * z[i];
    m[5] += z[i] * z[i];
  }
  return m;
}

const angleBetween = (a: Vector3, b: Vector3): number => Math.acos(Math.max(-1, Math.min(1, dot(a, b))));

function middle(axes: Vector3[]): Vector3 {
  return unit([0, 1, 2].map((k) => median(axes.map((axis) => axis[k]))) as Vector3);
}

/** Robust standard deviation of the strides about their course, rad. */
function scatterOf(residuals: number[]): number {
  return (MAD_TO_SD * median(residuals)) / Math.SQRT2;
}

/** The split into before and after that leaves the least scatter. */
function bestStep(axes: Vector3[], least: number): { split: number; angle: number; scatter: number } {
  let best = { split: least, angle: 0, scatter: Number.POSITIVE_INFINITY };
  const every = Math.ceil(axes.length / MOST_SPLITS);
  for (let split = least; split <= axes.length - least; split += every) {
    const [before, after] = [middle(axes.slice(0, split)), middle(axes.slice(split))];
    const scatter = scatterOf(axes.map((axis, k) => angleBetween(axis, k < split ? before : after)));
    if (scatter < best.scatter) best = { split, angle: angleBetween(before, after), scatter };
  }
  return best;
}

/** A straight line in time through the axes (they are close to each other, so their components may be fitted one by one). */
function straightDrift(axes: Vector3[], at_s: number[]): { angle: number; scatter: number } {
  const [t, centre] = [mean(at_s), scaled(axes.reduce(added), 1 / axes.length)];
  const spread = at_s.reduce((sum, time) => sum + (time - t) ** 2, 0);
  const slope = scaled(axes.map((axis, k) => scaled(axis, at_s[k] - t)).reduce(added), 1 / spread);
  const along = (time: number): Vector3 => unit(added(centre, scaled(slope, time - t)));
  return {
    angle: length(slope) > 0 ? angleBetween(along(at_s[0]), along(at_s[at_s.length - 1])) : 0,
    scatter: scatterOf(axes.map((axis, k) => angleBetween(axis, along(at_s[k])))),
  };
}

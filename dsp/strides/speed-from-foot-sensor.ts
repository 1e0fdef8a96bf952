import type { Contact } from '../../shared/analysis.ts';
import { leastSquares } from '../numeric/least-squares.ts';
import type { StrideSettings } from '../settings-strides.ts';
import type { MeasuredStride } from './foot-sensor-evidence.ts';

/**
 * Speed and step length from the foot sensors alone, by the strides around each step. Only rows without a speed are
 * filled; changed in place.
 * @param strides of both feet in order of time
 * @param why the reason of a step without strides around it
 */
export function fillFromFootSensor(
  rows: Contact[],
  strides: MeasuredStride[],
  why: string,
  settings: StrideSettings,
): void {
  let first = 0;
  for (const row of rows) {
    while (first < strides.length && strides[first].to_s < row.touchdown_s - WINDOW_S) first++;
    if (row.speed_mps !== null) continue;
    const step_s = row.step_time_ms === null ? null : row.step_time_ms / 1000;
    if (step_s === null) {
      row.reasons.step_length_m ??= row.reasons.step_time_ms ?? 'no step time';
      continue;
    }
    const estimate = speedOver(strides, first, row.touchdown_s, row.touchdown_s + step_s, settings);
    if (!estimate) {
      row.reasons.step_length_m ??= why;
      continue;
    }
    row.speed_mps = estimate.speed;
    row.speed_mps_u = estimate.u;
    row.step_length_m = estimate.speed * step_s;
    row.step_length_m_u = Math.hypot(estimate.u * step_s, (estimate.speed * (row.step_time_ms_u ?? 0)) / 1000);
    row.spatial_source = 'foot_sensor';
    delete row.reasons.step_length_m;
  }
}

/** No stride this far from a step is near it, s. */
const WINDOW_S = 2;

/**
 * Speed in the middle of a step: a straight line through the mean speeds of the strides around it, each at its own middle,
 * so that speeding up and slowing down leave no bias; their mean where there are too few for a line.
 */
function speedOver(
  strides: MeasuredStride[],
  first: number,
  from: number,
  to: number,
  settings: StrideSettings,
): { speed: number; u: number } | null {
  const middle = (from + to) / 2;
  let end = first;
  while (end < strides.length && strides[end].from_s < to + WINDOW_S) end++;
  const near = strides.slice(first, end).flatMap(({ from_s, to_s, length_m, length_m_u }) => {
    const time = to_s - from_s;
    const offset = (from_s + to_s) / 2 - middle;
    const closeness = 1 - Math.abs(offset) / (settings.foot.speed_reach_strides * time);
    // A step outside all strides is not measured, however near they are.
    const covers = Math.min(to, to_s) > Math.max(from, from_s);
    return closeness > 0 ? [{ offset, covers, closeness, speed: length_m / time, u: length_m_u / time }] : [];
  });
  if (!near.some((stride) => stride.covers)) return null;
  const rows = near.map(({ u, closeness }) => Math.sqrt(closeness) / u);
  const scaled = (values: number[]): number[] => values.map((v, i) => v * rows[i]);
  const ones = near.map(() => 1);
  const line =
    near.length >= 3 &&
    leastSquares([scaled(ones), scaled(near.map((s) => s.offset))], scaled(near.map((s) => s.speed)));
  const fit = line || leastSquares([scaled(ones)], scaled(near.map((s) => s.speed)));
  if (!fit) return null;
  const speed = fit.coefficients[0];
  return { speed, u: Math.hypot(Math.sqrt(fit.unscaled_covariance[0][0]), settings.foot.common_share_u * speed) };
}

/**
 * Distance of every row as the sum of the ways from contact to contact before it, where no clock gives it. With one foot
 * alone the next contact is a stride away. Ends at the first step without a speed. Rows are changed in place.
 */
export function fillDistanceFromSteps(rows: Contact[], settings: StrideSettings): void {
  let [distance, variance, systematic] = [0, 0, 0];
  for (const [i, row] of rows.entries()) {
    if (row.distance_m !== null) {
      [distance, variance, systematic] = [row.distance_m, (row.distance_m_u ?? 0) ** 2, 0];
    } else {
      row.distance_m = distance;
      row.distance_m_u = Math.hypot(Math.sqrt(variance), systematic);
    }
    const next = rows[i + 1];
    if (!next || row.speed_mps === null) return;
    const time_s = next.touchdown_s - row.touchdown_s;
    const way = row.speed_mps * time_s;
    distance += way;
    const common = settings.foot.common_share_u * way;
    systematic += common;
    variance += Math.max(0, ((row.speed_mps_u ?? 0) * time_s) ** 2 - common ** 2);
  }
}

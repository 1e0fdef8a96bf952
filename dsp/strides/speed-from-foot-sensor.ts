import type { Contact } from '../../shared/analysis.ts';
import { COMMON_SCALE_U, type MeasuredStride } from './foot-sensor-evidence.ts';

/**
 * Speed and step length from the foot sensors alone: over each step the mean of the speeds of the strides that cover
 * it, weighted by uncertainty and overlap. Only rows without a speed are filled; changed in place.
 */
export function fillFromFootSensor(rows: Contact[], strides: MeasuredStride[], why: string): void {
  for (const row of rows) {
    if (row.speed_mps !== null) continue;
    const step_s = row.step_time_ms === null ? null : row.step_time_ms / 1000;
    if (step_s === null) {
      row.reasons.step_length_m ??= row.reasons.step_time_ms ?? 'no step time';
      continue;
    }
    const estimate = speedOver(strides, row.touchdown_s, row.touchdown_s + step_s);
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

/** Share of the step that a stride must cover to say something of it. */
const LEAST_OVERLAP = 0.3;

function speedOver(strides: MeasuredStride[], from: number, to: number): { speed: number; u: number } | null {
  let [weights, weighted] = [0, 0];
  let variance = 0;
  for (const stride of strides) {
    const overlap = (Math.min(to, stride.to_s) - Math.max(from, stride.from_s)) / (to - from);
    if (overlap < LEAST_OVERLAP) continue;
    const time = stride.to_s - stride.from_s;
    const [speed, u] = [stride.length_m / time, stride.length_m_u / time];
    const weight = Math.min(1, overlap) / (u * u);
    weights += weight;
    weighted += weight * speed;
    variance += weight * weight * u * u;
  }
  if (weights === 0) return null;
  const speed = weighted / weights;
  return { speed, u: Math.hypot(Math.sqrt(variance) / weights, COMMON_SCALE_U * speed) };
}

/**
 * Distance of every row as the sum of the ways from contact to contact before it, where no clock gives it. With one foot
 * alone the next contact is a stride away. Ends at the first step without a speed. Rows are changed in place.
 */
export function fillDistanceFromSteps(rows: Contact[]): void {
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
    const common = COMMON_SCALE_U * way;
    systematic += common;
    variance += Math.max(0, ((row.speed_mps_u ?? 0) * time_s) ** 2 - common ** 2);
  }
}

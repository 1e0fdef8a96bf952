import { because, type Reason } from '../../shared/reason.ts';
import type { Contact } from '../../shared/analysis.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { fillSpeedOfStep } from './fill-speed-of-step.ts';
import type { MeasuredStride } from './foot-sensor-evidence.ts';
import { type SpeedBetween, smoothSpeed } from './smooth-speed.ts';

/** What all strides of the foot sensors have in common: their scale, as far as times over known distances told it. */
export interface StrideScale {
  /** Measured over true length, less 1. */
  scale: number;
  scale_u: number;
}

/**
 * Speed and step length from the foot sensors alone, by the strides around each step. Only rows without a speed are
 * filled; changed in place.
 * @param strides of both feet in order of time
 * @param known the strides' scale
 * @param why the reason of a step without strides around it
 */
export function fillFromFootSensor(
  rows: Contact[],
  strides: MeasuredStride[],
  known: StrideScale,
  why: Reason,
  settings: StrideSettings,
): void {
  const speeds = new Map<number, SpeedBetween>();
  for (const edges of runsOfSteps(rows, strides, settings.foot.longest_stride_s)) {
    for (const speed of smoothSpeed(edges, strides, settings.foot.speed_bend_mps_u)) {
      if (speed) speeds.set(speed.from_s, speed);
    }
  }
  for (const row of rows) {
    if (row.speed_mps !== null) continue;
    if (row.step_time_ms === null) {
      row.reasons.step_length_m ??= row.reasons.step_time_ms ?? because('no_step_time');
      continue;
    }
    const found = speeds.get(row.touchdown_s);
    const speed = found && found.speed_mps / (1 + known.scale);
    if (!found || !speed || !(speed > 0)) {
      row.reasons.step_length_m ??= why;
      continue;
    }
    fillSpeedOfStep(row, speed, Math.hypot(found.speed_mps_u, known.scale_u * speed), 'foot_sensor');
    delete row.reasons.step_length_m;
  }
}

/** Ends of the steps, and of the strides where they reach beyond, in stretches without a break. */
function runsOfSteps(rows: Contact[], strides: MeasuredStride[], longest_s: number): number[][] {
  const edges = rows.flatMap(({ touchdown_s, step_time_ms }, i) => {
    const end_s = touchdown_s + (step_time_ms ?? 0) / 1000;
    // With one foot alone a step ends between its contacts.
    const between = step_time_ms !== null && !(Math.abs((rows[i + 1]?.touchdown_s ?? 0) - end_s) < SAME_S);
    return between ? [touchdown_s, end_s] : [touchdown_s];
  });
  const runs: number[][] = [];
  for (const t of edges) {
    const run = runs[runs.length - 1];
    if (run && t - run[run.length - 1] < longest_s) run.push(t);
    else runs.push([t]);
  }
  return runs.map((run) => {
    const [from, to] = [run[0], run[run.length - 1]];
    const own = strides.filter((stride) => stride.to_s > from && stride.from_s < to);
    const [first, last] = [Math.min(from, ...own.map((s) => s.from_s)), Math.max(to, ...own.map((s) => s.to_s))];
    return [...(first < from - SAME_S ? [first] : []), ...run, ...(last > to + SAME_S ? [last] : [])];
  });
}

/** The end of a step and the next touchdown are the same instant but for rounding. */
const SAME_S = 1e-6;

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

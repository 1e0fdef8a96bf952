import { because } from '../../shared/reason.ts';
import type { Contact, Course } from '../../shared/analysis.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { fillSpeedOfStep } from './fill-speed-of-step.ts';

/** A flying course runs at full speed between two gates: its mean speed is the speed of the steps between them. */
export interface FlyingCourse {
  speed_mps: number;
  speed_mps_u: number;
  /** Where the timed stretch is taken to lie, on the rows' clock. */
  from_s: number;
  to_s: number;
}

/**
 * Speed over a flying course. No clock ties the gates to the sensors, so the timed stretch is taken to be the one with
 * the shortest contacts (or steps, where contact times are missing): athletes are timed where they are fastest.
 * @returns null without length and time, when the run is shorter than the time, or when nobody runs as fast
 */
export function flyingCourse(rows: Contact[], course: Course, settings: StrideSettings): FlyingCourse | null {
  const { distance_m, time_s, start_style, timing_method } = course;
  const { flying_share_u, time_s_u, fastest_mps } = settings.timing;
  if (start_style !== 'flying' || distance_m === null || time_s === null) return null;
  const pace = (row: Contact): number | null => row.contact_time_ms ?? row.step_time_ms;
  let best: { from_s: number; mean: number } | null = null;
  for (const first of rows) {
    const within = rows.filter((r) => r.touchdown_s >= first.touchdown_s && r.touchdown_s < first.touchdown_s + time_s);
    const values = within.map(pace).filter((v) => v !== null);
    if (values.length < 2 || rows[rows.length - 1].touchdown_s < first.touchdown_s + time_s * 0.9) continue;
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    if (!best || mean < best.mean) best = { from_s: first.touchdown_s, mean };
  }
  const speed_mps = distance_m / time_s;
  if (!best || speed_mps > fastest_mps) return null;
  return {
    speed_mps,
    speed_mps_u: speed_mps * Math.hypot(flying_share_u, time_s_u[timing_method ?? 'other'] / time_s),
    from_s: best.from_s,
    to_s: best.from_s + time_s,
  };
}

/** Speed, step length and distance of the steps within the flying course. Rows are changed in place. */
export function fillFromFlyingCourse(rows: Contact[], { speed_mps, speed_mps_u, from_s, to_s }: FlyingCourse): void {
  for (const row of rows) {
    if (row.touchdown_s < from_s || row.touchdown_s >= to_s) {
      row.reasons.step_length_m = because('outside_timed_stretch');
      continue;
    }
    fillSpeedOfStep(row, speed_mps, speed_mps_u, 'timing');
    row.distance_m = speed_mps * (row.touchdown_s - from_s);
    // The stretch begins somewhere within a step of where it is taken to begin.
    row.distance_m_u = Math.hypot(
      speed_mps_u * (row.touchdown_s - from_s),
      (speed_mps * (row.step_time_ms ?? 0)) / 2000,
    );
    row.reasons.distance_m_u = because('no_clock_to_gates');
  }
}

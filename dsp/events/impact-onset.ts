import { ramp } from '../numeric/ramp.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

/** Where an impact begins, and how sharply. */
export interface ImpactOnset {
  /** Fractional sample index of the first motion of the impact. */
  at: number;
  /** Samples from there to the first strong change of acceleration. */
  rise: number;
  /** First strong change of acceleration over the root mean square of the swing before it. */
  contrast: number;
}

/** An impact counts as begun where the change of acceleration reaches this part of its first strong value. */
const ONSET_PART = 0.2;
/** Straps ring: the first change of at least this part of the strongest counts, not the strongest. */
const FIRST_PART = 0.35;

/**
 * First motion of an impact: from the first strong change of acceleration back to where it rises out of the swing.
 * @param jerk size of the change of acceleration, m/s3 (the length of the vector: the same however the sensor is turned)
 * @param from start of the window, in the swing before touchdown
 * @param search where to start looking for the impact
 * @param to end of the window
 * @returns null where the window is too short, or the change is strong from its start on
 */
export function impactOnset(jerk: Float64Array, from: number, search: number, to: number): ImpactOnset | null {
  const a = Math.max(0, Math.round(from));
  const s = Math.max(a + 2, Math.round(search));
  const b = Math.min(jerk.length - 1, Math.round(to));
  if (b - s < 2) return null;
  let strongest = s;
  for (let i = s; i <= b; i++) if (jerk[i] > jerk[strongest]) strongest = i;
  let first = s;
  while (first < strongest && !(jerk[first] >= FIRST_PART * jerk[strongest] && jerk[first] >= jerk[first + 1])) first++;
  const level = ONSET_PART * jerk[first];
  let i = first;
  while (i > a && jerk[i] > level) i--;
  if (i === a || !Number.isFinite(jerk[first])) return null;
  const at = i + (level - jerk[i]) / (jerk[i + 1] - jerk[i]);
  let power = 0;
  for (let k = a; k < i; k++) power += jerk[k] * jerk[k];
  return { at, rise: first - at, contrast: jerk[first] / Math.sqrt(power / Math.max(1, i - a)) };
}

/**
 * How far an onset stands out, 0 to 1: contrast over the swing before it, per rise time. A stiff strap and enough bandwidth
 * show the first millisecond of contact; a soft one, or a low rate, smears it.
 * @param rate_hz samples a second
 * @returns 0 where there is no onset
 */
export function standout(onset: ImpactOnset | null, rate_hz: number, settings: AnalysisSettings): number {
  if (!onset) return 0;
  const { standout_from, standout_to, rise_s } = settings.impact;
  const value = onset.contrast / Math.max(1, onset.rise / rate_hz / rise_s);
  return ramp(value, standout_from, standout_to);
}

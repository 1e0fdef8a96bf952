import { sampleAt } from '../signals/sensor-time.ts';
import { because } from '../../shared/reason.ts';
import type { Contact } from '../../shared/analysis.ts';
import { RADIANS_PER_DEGREE } from '../../shared/units.ts';
import { designLowPass } from '../filters/design.ts';
import { filterSegments } from '../filters/filter-segments.ts';
import type { StrideSettings } from '../settings/strides.ts';
import type { StrideContext } from './stride-context.ts';

/**
 * What the rotation about the axis of leg swing says of each step, for foot and shank: rotation of the shank over the
 * contact, fold in swing, peak rates. Rows of the sensor's side are changed in place.
 * @param rotates_over_foot whether the segment's rotation over the contact is told
 */
export function fillSwingShape(
  rows: Contact[],
  { recording, signals }: StrideContext['sensors'][number],
  settings: StrideSettings,
  rotates_over_foot: boolean,
): void {
  const { peak_cutoff_hz, angle_deg_u } = settings.swing_shape;
  const rate = signals.sagittal_rate;
  if (!rate) return;
  const { rate_hz } = signals;
  const smooth =
    peak_cutoff_hz < 0.45 * rate_hz ? filterSegments(designLowPass(peak_cutoff_hz, rate_hz, 2), rate) : rate;
  const angle = cumulative(rate, rate_hz);
  const toIndex = (common_s: number): number => sampleAt(common_s, { recording, signals });
  const mine = rows.filter((row) => row.side === recording.side);
  mine.forEach((row, i) => {
    if (row.toe_off_s === null) return;
    const [on, off] = [toIndex(row.touchdown_s), toIndex(row.toe_off_s)];
    if (on < 0 || off > rate.length - 1) return;
    const clippedBetween = (from: number, to: number): boolean => {
      for (let k = Math.floor(from); k <= Math.ceil(to); k++) if (signals.gyr_clipped[k]) return true;
      return false;
    };
    const contactClipped = clippedBetween(on, off);
    if (contactClipped) row.reasons.peak_contact_rate_dps = because('gyroscope_range');
    else [row.peak_contact_rate_dps, row.peak_contact_rate_dps_u] = peak(smooth, on, off, -1, settings);
    if (rotates_over_foot && !contactClipped) {
      const turned = -(valueAt(angle, off) - valueAt(angle, on));
      if (Number.isFinite(turned)) {
        row.shank_rotation_deg = turned;
        row.shank_rotation_deg_u = Math.hypot(
          angle_deg_u,
          rateError(smooth, on, row.touchdown_s_u),
          rateError(smooth, off, row.toe_off_s_u),
        );
      }
    }
    const next = mine[i + 1];
    if (!next || row.stride_time_ms === null) return;
    const landing = toIndex(next.touchdown_s);
    if (clippedBetween(off, landing)) row.reasons.peak_swing_rate_dps = because('gyroscope_range');
    else [row.peak_swing_rate_dps, row.peak_swing_rate_dps_u] = peak(smooth, off, landing, 1, settings);
    fillFold(row, angle, (on + off) / 2, off, landing, clippedBetween, settings.swing_shape);
  });
}

/** Greatest backward rotation between toe-off and the next touchdown, from the angle at mid-contact. */
function fillFold(
  row: Contact,
  angle: Float64Array,
  middle: number,
  off: number,
  landing: number,
  clippedBetween: (from: number, to: number) => boolean,
  { angle_deg_u, axis_share_u }: StrideSettings['swing_shape'],
): void {
  let lowest = Math.ceil(off);
  for (let k = lowest; k <= landing; k++) if (angle[k] < angle[lowest]) lowest = k;
  const fold = valueAt(angle, middle) - angle[lowest];
  if (!(fold > 0)) return;
  if (clippedBetween(middle, lowest)) {
    row.reasons.swing_fold_deg = because('gyroscope_range');
    return;
  }
  row.swing_fold_deg = fold;
  row.swing_fold_deg_u = Math.hypot(angle_deg_u, axis_share_u * fold);
}

/** Running integral of a rate, deg; NaN from a gap on. */
function cumulative(rate_radps: Float64Array, rate_hz: number): Float64Array {
  const angle = new Float64Array(rate_radps.length);
  const factor = 1 / (2 * rate_hz * RADIANS_PER_DEGREE);
  for (let i = 1; i < angle.length; i++) {
    const step = (rate_radps[i] + rate_radps[i - 1]) * factor;
    // After a gap the count starts anew: only differences within a stretch are used, and those across are NaN.
    angle[i] = Number.isNaN(rate_radps[i]) ? Number.NaN : (Number.isNaN(angle[i - 1]) ? 0 : angle[i - 1]) + (step || 0);
  }
  return angle;
}

function valueAt(x: Float64Array, index: number): number {
  const below = Math.floor(index);
  const share = index - below;
  return share === 0 ? x[below] : x[below] * (1 - share) + x[below + 1] * share;
}

/**
 * Size of the largest (sign 1) or smallest (sign -1) value between two fractional samples, deg/s, and its standard uncertainty: scale of
 * the gyroscope, axis of swing, and what a peak between two samples may have over both (an eighth of the bend there; as a rectangle).
 * @returns nulls where the segment does not turn that way
 */
function peak(
  x: Float64Array,
  from: number,
  to: number,
  sign: 1 | -1,
  { swing_shape, foot_shape }: StrideSettings,
): [number, number] | [null, null] {
  let best = -1;
  for (let k = Math.ceil(from); k <= to; k++) if (best < 0 || !(sign * x[k] <= sign * x[best])) best = k;
  const size = (sign * x[best]) / RADIANS_PER_DEGREE;
  if (!(size > 0)) return [null, null];
  const bend = Math.abs(x[best - 1] - 2 * x[best] + x[best + 1]) / RADIANS_PER_DEGREE;
  const between = Number.isFinite(bend) ? bend / 8 / Math.sqrt(3) : 0;
  return [size, Math.hypot(Math.hypot(foot_shape.scale_share_u, swing_shape.axis_share_u) * size, between)];
}

/** What the event's own uncertainty makes of the angle there, deg. */
function rateError(rate: Float64Array, index: number, event_u_s: number | null): number {
  return Math.abs((valueAt(rate, index) / RADIANS_PER_DEGREE) * (event_u_s ?? 0));
}

import { derivative } from '../../filters/index.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { FootFeatures } from './foot-features.ts';
import { type Estimate, type Fused, fuse } from '../../numeric/fuse.ts';
import { best, localMinima, vertex } from '../../numeric/peaks.ts';
import type { ShankFeatures } from './shank-features.ts';
import type { StrideFrame } from '../stride-frame.ts';

/**
 * Toe-off of one contact, as a fractional index of the frame.
 * @param touchdown_at touchdown, index of the frame
 * @param toes_leave index at which the toes' speed reaches its share of the running speed (foot only); null when unknown
 * @returns raw: the main feature before any offset; fused: all features with their offsets (settings.toe_off)
 */
export function toeOff(
  frame: StrideFrame,
  features: FootFeatures | ShankFeatures,
  touchdown_at: number,
  toes_leave: number | null,
  settings: AnalysisSettings,
): { raw: number; fused: Fused } | null {
  const { rate_hz, stride_s } = frame;
  if (features.mounting === 'foot') return footToeOff(frame, features, touchdown_at, toes_leave, settings);
  const m = settings.toe_off.shank;
  const { rate_fall, fall_begins, rate_maximum } = features;
  const fused = fuse([
    {
      name: 'fall begins',
      at: fall_begins + m.begin_offset_strides * stride_s * rate_hz,
      sd: Math.hypot(m.begin_sd_part * (rate_fall - rate_maximum), m.begin_sd_s * rate_hz),
    },
    { name: 'rate fall', at: rate_fall + m.fall_offset_strides * stride_s * rate_hz, sd: m.fall_sd_s * rate_hz },
  ]);
  if (!fused) return null;
  // In long contacts some knees begin to fold well before the toes leave, and others do not.
  const beyond = Math.max(0, fused.at - touchdown_at - m.long_contact_s * rate_hz);
  // Offsets were measured on longer strides; how the knee folds in sprints is known from generators only, which differ.
  const shorter = Math.max(0, m.measured_stride_s / stride_s - 1) * m.shorter_sd_s * rate_hz;
  return { raw: fall_begins, fused: { ...fused, u: Math.hypot(fused.u, m.long_sd_part * beyond, shorter) } };
}

/**
 * Toe-off of a foot: the fastest heel rise, the toes leaving, the ground letting go. Each is far off for some runners and shoes, rarely two of them
 * together: with the small Huber threshold two that agree outvote the third, and where all differ the fastest heel rise, the
 * most certain, weighs most.
 */
function footToeOff(
  frame: StrideFrame,
  { push_minimum }: FootFeatures,
  touchdown_at: number,
  toes_leave: number | null,
  settings: AnalysisSettings,
): { raw: number; fused: Fused } | null {
  const { rate_hz, stride_s } = frame;
  const m = settings.toe_off.foot;
  const contact = push_minimum - touchdown_at;
  const push: Estimate = {
    name: 'push minimum',
    at: push_minimum + m.push_offset_contacts * contact,
    sd: Math.hypot(m.push_sd_contacts * contact, m.push_sd_s * rate_hz),
  };
  const others: Estimate[] = [];
  // Toes that seem to leave well before the heel rises fastest tell of a wrong velocity.
  if (toes_leave !== null && toes_leave > push_minimum - m.toes_before_strides * stride_s * rate_hz) {
    const sd = Math.hypot(m.toes_sd_contacts * contact, m.toes_sd_s * rate_hz);
    others.push({ name: 'toes leave', at: toes_leave + m.toes_offset_s * rate_hz, sd });
  }
  const unloading = unloadingNear(frame, [push, ...others], settings);
  if (unloading) others.push(unloading);
  const alone = others.length === 0 ? m.push_alone_factor : 1;
  const fused = fuse([{ ...push, sd: alone * push.sd }, ...others], m.outvote_sd);
  return fused && { raw: push_minimum, fused };
}

/** The steep fall of the foot's vertical acceleration that agrees best with one of the other features: the ground lets go. */
function unloadingNear(
  { up, rate_hz, stride_s }: StrideFrame,
  others: readonly Estimate[],
  settings: AnalysisSettings,
): Estimate | null {
  const m = settings.toe_off.foot;
  const stride = stride_s * rate_hz;
  const slope = derivative(up, rate_hz);
  const from = Math.min(...others.map(({ at }) => at)) - m.unloading_before_strides * stride;
  const to = Math.max(...others.map(({ at }) => at)) + m.unloading_after_strides * stride;
  const falls = localMinima(slope, from, to).filter((i) => slope[i] < 0);
  const steepest = best(falls, (i) => -slope[i]);
  const steep = falls.filter((i) => slope[i] <= m.unloading_part * slope[steepest]);
  const offset = m.unloading_offset_strides * stride;
  const distance = (i: number): number => Math.min(...others.map(({ at, sd }) => Math.abs(i + offset - at) / sd));
  const fall = best(steep, (i) => -distance(i));
  if (fall < 0) return null;
  return { name: 'unloading', at: vertex(slope, fall) + offset, sd: m.unloading_sd_strides * stride };
}

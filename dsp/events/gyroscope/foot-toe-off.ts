import { derivative } from '../../filters/index.ts';
import { type Estimate, fuse } from '../../numeric/fuse.ts';
import { best, localMinima, vertex } from '../../numeric/peaks.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { StrideFrame } from '../stride-frame.ts';
import type { FootFeatures } from './foot-features.ts';
import type { Instant } from './segment.ts';

/**
 * Toe-off of a foot: the fastest heel rise, the toes leaving, the ground letting go. Each is far off for some runners and shoes, rarely two of them
 * together: with the small Huber threshold two that agree outvote the third, and where all differ the fastest heel rise, the
 * most certain, weighs most.
 * @param touchdown_at touchdown, index of the frame
 * @param toes_leave index at which the toes' speed reaches its share of the running speed; null when unknown
 * @returns fractional indices of the frame; null where the features make none
 */
export function footToeOff(
  frame: StrideFrame,
  { push_minimum }: FootFeatures,
  touchdown_at: number,
  toes_leave: number | null,
  settings: AnalysisSettings,
): Instant | null {
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

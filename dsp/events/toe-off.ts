import { derivative } from '../filters/index.ts';
import type { AnalysisSettings } from '../settings.ts';
import type { FootFeatures } from './foot-features.ts';
import { type Estimate, type Fused, fuse } from './fuse.ts';
import { best, localMinima, vertex } from './peaks.ts';
import type { ShankFeatures } from './shank-features.ts';
import type { StrideFrame } from './stride-frame.ts';

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
  const estimates: Estimate[] = [];
  if (features.mounting === 'foot') {
    const m = settings.toe_off.foot;
    const contact = features.push_minimum - touchdown_at;
    const sd = Math.hypot(m.push_sd_contacts * contact, m.push_sd_s * rate_hz);
    estimates.push({
      name: 'push minimum',
      at: features.push_minimum + m.push_offset_contacts * contact,
      // Toes that do not leave when they should tell of an unusual push-off.
      sd: toes_leave === null ? m.push_alone_factor * sd : sd,
    });
    // Toes that seem to leave well before the heel rises fastest tell of a wrong velocity.
    if (toes_leave !== null && toes_leave > features.push_minimum - m.toes_before_strides * stride_s * rate_hz) {
      // The share was measured on contacts longer than that of `toes_contact_s`; shorter ones are outside it.
      const beyond = Math.max(0, (m.toes_contact_s * rate_hz) / contact - 1);
      estimates.push({
        name: 'toes leave',
        at: toes_leave + m.toes_offset_s * rate_hz,
        sd: (m.toes_sd_s + m.toes_sd_beyond_s * beyond) * rate_hz,
      });
    }
  } else {
    const m = settings.toe_off.shank;
    const { rate_fall, fall_begins, rate_maximum } = features;
    estimates.push(
      {
        name: 'fall begins',
        at: fall_begins + m.begin_offset_strides * stride_s * rate_hz,
        sd: Math.hypot(m.begin_sd_part * (rate_fall - rate_maximum), m.begin_sd_s * rate_hz),
      },
      { name: 'rate fall', at: rate_fall + m.fall_offset_strides * stride_s * rate_hz, sd: m.fall_sd_s * rate_hz },
    );
  }
  const rough = fuse(estimates);
  if (!rough) return null;
  if (features.mounting === 'foot') {
    const unloading = unloadingNear(frame, rough.at, settings);
    if (unloading) estimates.push(unloading);
  }
  const fused = fuse(estimates) ?? rough;
  return { raw: features.mounting === 'foot' ? features.push_minimum : features.fall_begins, fused };
}

/** The steep fall of the foot's vertical acceleration nearest to a rough toe-off: the ground lets go. */
function unloadingNear(
  { up, rate_hz, stride_s }: StrideFrame,
  rough: number,
  settings: AnalysisSettings,
): Estimate | null {
  const m = settings.toe_off.foot;
  const stride = stride_s * rate_hz;
  const slope = derivative(up, rate_hz);
  const [from, to] = [rough - m.unloading_before_strides * stride, rough + m.unloading_after_strides * stride];
  const falls = localMinima(slope, from, to).filter((i) => slope[i] < 0);
  const steepest = best(falls, (i) => -slope[i]);
  const expected = rough - m.unloading_offset_strides * stride;
  const steep = falls.filter((i) => slope[i] <= m.unloading_part * slope[steepest]);
  const fall = best(steep, (i) => -Math.abs(i - expected));
  if (fall < 0) return null;
  return {
    name: 'unloading',
    at: vertex(slope, fall) + m.unloading_offset_strides * stride,
    sd: m.unloading_sd_strides * stride,
  };
}

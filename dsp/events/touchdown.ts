import type { AnalysisSettings } from '../settings.ts';
import type { FootFeatures } from './foot-features.ts';
import { type Estimate, type Fused, fuse } from './fuse.ts';
import type { Landing } from './landing.ts';
import type { ShankFeatures } from './shank-features.ts';
import type { StrideFrame } from './stride-frame.ts';

/**
 * Touchdown of one contact, as a fractional index of the frame. Where the impact is sharp, its onset is the touchdown. Where
 * it is not, slower features of the landing are used, with offsets from force plates (settings.touchdown).
 * @returns raw: before the offsets; corrected: with them
 */
export function touchdown(
  frame: StrideFrame,
  features: FootFeatures | ShankFeatures,
  { rise, onset, sharp, borrowed }: Landing,
  settings: AnalysisSettings,
): { raw: number; fused: Fused } | null {
  const { rate_hz, stride_s } = frame;
  const model = settings.touchdown[features.mounting];
  const soft: Estimate[] = [];
  // Soft landings were measured on strides longer than this; on shorter ones the offsets are an extrapolation.
  const { soft_stride_s, soft_sd_beyond } = settings.touchdown;
  const wider = 1 + soft_sd_beyond * Math.max(0, soft_stride_s / stride_s - 1);
  let raw: number;
  if (features.mounting === 'foot') {
    const m = settings.touchdown.foot;
    const floor = m.least_lag_strides * stride_s * rate_hz;
    raw = rise === null ? features.rate_minimum : rise + Math.max((features.rate_minimum - rise) / 2, floor);
    const sd_s = rise === null ? m.without_impact_sd_s : m.landing_sd_s;
    soft.push({ name: 'landing', at: raw + m.landing_offset_strides * stride_s * rate_hz, sd: wider * sd_s * rate_hz });
  } else {
    const m = settings.touchdown.shank;
    if (rise === null && !onset) return null;
    raw = rise ?? onset!.at;
    if (rise !== null) {
      const offset = m.rise_offset_strides * stride_s * rate_hz;
      const sd = (borrowed ? m.borrowed_factor : 1) * wider * m.rise_sd_s * rate_hz;
      soft.push({ name: 'impact rise', at: rise + offset, sd });
    }
    if (onset && onset.contrast > m.onset_contrast) {
      const at = onset.at + m.onset_offset_s * rate_hz;
      // One far from the jolt belongs to something else.
      const near = soft.every((jolt) => Math.abs(at - jolt.at) <= m.onset_reach_s * rate_hz);
      if (near) soft.push({ name: 'impact onset', at, sd: wider * m.onset_sd_s * rate_hz });
    }
  }
  const slow = fuse(soft);
  if (!slow) return null;
  if (!onset || sharp === 0) return { raw, fused: slow };
  const onset_at = onset.at + model.sharp_offset_s * rate_hz;
  const onset_u = Math.hypot(
    model.sharp_sd_s * rate_hz,
    settings.impact.onset_part * onset.rise,
    settings.impact.onset_intervals,
  );
  return {
    raw: sharp * onset.at + (1 - sharp) * raw,
    fused: {
      at: sharp * onset_at + (1 - sharp) * slow.at,
      // Of a mixture: the spread of its parts and the distance between them.
      u: Math.sqrt(sharp * onset_u ** 2 + (1 - sharp) * slow.u ** 2 + sharp * (1 - sharp) * (onset_at - slow.at) ** 2),
      disagreement: (1 - sharp) * slow.disagreement,
    },
  };
}

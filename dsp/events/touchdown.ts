import type { AnalysisSettings } from '../settings.ts';
import type { FootFeatures } from './foot-features.ts';
import { type Estimate, type Fused, fuse } from './fuse.ts';
import type { ImpactOnset } from './impact-onset.ts';
import type { ShankFeatures } from './shank-features.ts';
import type { StrideFrame } from './stride-frame.ts';

/**
 * How sharp an impact stands out, 0 to 1: contrast over the swing before it, per rise time. A stiff strap and enough
 * bandwidth show the first millisecond of contact; a soft one, or a low rate, smears it.
 */
export function sharpness(onset: ImpactOnset | null, rate_hz: number, settings: AnalysisSettings): number {
  if (!onset) return 0;
  const { sharp_from, sharp_to, rise_s } = settings.impact;
  const value = onset.contrast / Math.max(1, onset.rise / rate_hz / rise_s);
  return Math.min(1, Math.max(0, (value - sharp_from) / (sharp_to - sharp_from)));
}

/**
 * Touchdown of one contact, as a fractional index of the frame. Where the impact is sharp, its onset is the touchdown. Where
 * it is not, slower features of the landing are used, with offsets from force plates (settings.touchdown).
 * @param onset impact onset, index of the frame
 * @returns raw: before the offsets; corrected: with them
 */
export function touchdown(
  frame: StrideFrame,
  features: FootFeatures | ShankFeatures,
  onset: ImpactOnset | null,
  settings: AnalysisSettings,
): { raw: number; fused: Fused } | null {
  const { rate_hz, stride_s } = frame;
  const sharp = sharpness(onset, rate_hz, settings);
  const model = settings.touchdown[features.mounting];
  const soft: Estimate[] = [];
  let raw: number;
  if (features.mounting === 'foot') {
    const m = settings.touchdown.foot;
    raw = features.impact_rise === null ? features.rate_minimum : (features.rate_minimum + features.impact_rise) / 2;
    const sd_s = features.impact_rise === null ? m.without_impact_sd_s : m.landing_sd_s;
    soft.push({ name: 'landing', at: raw + m.landing_offset_strides * stride_s * rate_hz, sd: sd_s * rate_hz });
  } else {
    const m = settings.touchdown.shank;
    raw = features.impact_rise;
    soft.push({
      name: 'impact rise',
      at: raw + m.rise_offset_strides * stride_s * rate_hz,
      sd: m.rise_sd_s * rate_hz,
    });
    if (onset && onset.contrast > m.onset_contrast) {
      soft.push({ name: 'impact onset', at: onset.at + m.onset_offset_s * rate_hz, sd: m.onset_sd_s * rate_hz });
    }
  }
  const slow = fuse(soft);
  if (!slow) return null;
  if (!onset || sharp === 0) return { raw, fused: slow };
  const onset_at = onset.at + model.onset_offset_s * rate_hz;
  const onset_u = Math.hypot(model.sharp_sd_s * rate_hz, settings.impact.rise_part * onset.rise, 0.3);
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

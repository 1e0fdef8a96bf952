import type { AnalysisSettings } from '../../settings/settings.ts';
import type { FootFeatures } from './foot-features.ts';
import { type Estimate, type Fused, fuse } from '../../numeric/fuse.ts';
import type { Landing } from './landing.ts';
import type { SharpOnset } from './sharp-landing.ts';
import type { ShankFeatures } from './shank-features.ts';
import type { StrideFrame } from '../stride-frame.ts';

/**
 * Touchdown of one contact, as a fractional index of the frame. Where impacts are sharp, their onset is the touchdown. Where
 * they are not, slower features of the landing are used, with offsets from force plates (settings.touchdown). Between the two
 * both are asked, and the more certain counts.
 * @returns raw: the main feature before any offset; fused: all features with their offsets
 */
export function touchdown(
  frame: StrideFrame,
  features: FootFeatures | ShankFeatures,
  landing: Landing,
  settings: AnalysisSettings,
): { raw: number; fused: Fused } | null {
  const { sudden, sharp } = landing;
  // Soft landings were measured on strides longer than this; on shorter ones the offsets are an extrapolation.
  const { soft_stride_s, soft_sd_beyond } = settings.touchdown;
  const wider = 1 + soft_sd_beyond * Math.max(0, soft_stride_s / frame.stride_s - 1);
  const estimates =
    features.mounting === 'foot'
      ? softFoot(frame, features, landing, wider, settings)
      : softShank(frame, landing, wider, settings);
  if (!sudden || sharp === 0) {
    const fused = fuse(estimates);
    return fused && { raw: rawOf(features, landing, frame, settings), fused };
  }
  const onset = suddenEstimate(sudden, sharp, features.mounting, frame.rate_hz, settings);
  const fused = fuse(sharp === 1 ? [onset] : [onset, ...estimates], settings.touchdown.outvote_sd);
  return fused && { raw: sudden.at, fused };
}

/** The onset of a sharp impact; the less sharp, the less certain. */
function suddenEstimate(
  { at, rise, doubt_sd }: SharpOnset,
  sharp: number,
  mounting: 'foot' | 'shank',
  rate_hz: number,
  settings: AnalysisSettings,
): Estimate {
  const { sharp_offset_s, sharp_sd_s } = settings.touchdown[mounting];
  const { onset_part, onset_intervals } = settings.impact;
  const sd = Math.hypot(sharp_sd_s * rate_hz, onset_part * rise, onset_intervals, doubt_sd);
  return { name: 'sudden onset', at: at + sharp_offset_s * rate_hz, sd: sd / sharp };
}

/** Mean of the slap and the jolt: one is late where the other is early (heel or forefoot first). */
function softFoot(
  frame: StrideFrame,
  features: FootFeatures,
  landing: Landing,
  wider: number,
  settings: AnalysisSettings,
): Estimate[] {
  const m = settings.touchdown.foot;
  const { rate_hz, stride_s } = frame;
  const at = rawOf(features, landing, frame, settings) + m.landing_offset_strides * stride_s * rate_hz;
  const sd_s = landing.rise === null ? m.without_impact_sd_s : m.landing_sd_s;
  return [{ name: 'landing', at, sd: wider * sd_s * rate_hz }];
}

/** The jolt's rise, and the onset near it. */
function softShank(
  { rate_hz, stride_s }: StrideFrame,
  { rise, onset, borrowed }: Landing,
  wider: number,
  settings: AnalysisSettings,
): Estimate[] {
  const m = settings.touchdown.shank;
  const estimates: Estimate[] = [];
  if (rise !== null) {
    const sd = (borrowed ? m.borrowed_factor : 1) * wider * m.rise_sd_s * rate_hz;
    estimates.push({ name: 'impact rise', at: rise + m.rise_offset_strides * stride_s * rate_hz, sd });
  }
  if (onset && onset.contrast > m.onset_contrast) {
    const at = onset.at + m.onset_offset_s * rate_hz;
    // One far from the jolt belongs to something else.
    const near = estimates.every((jolt) => Math.abs(at - jolt.at) <= m.onset_reach_s * rate_hz);
    if (near) estimates.push({ name: 'impact onset', at, sd: wider * m.onset_sd_s * rate_hz });
  }
  return estimates;
}

/** The main feature of a soft landing, before any offset. */
function rawOf(
  features: FootFeatures | ShankFeatures,
  { rise, onset }: Landing,
  { rate_hz, stride_s }: StrideFrame,
  settings: AnalysisSettings,
): number {
  if (features.mounting === 'shank') return rise ?? onset!.at;
  if (rise === null) return features.rate_minimum;
  const floor = settings.touchdown.foot.least_lag_strides * stride_s * rate_hz;
  return rise + Math.max((features.rate_minimum - rise) / 2, floor);
}

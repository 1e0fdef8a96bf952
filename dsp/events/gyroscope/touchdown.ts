import type { Mounting } from '../../../shared/words.ts';
import { type Estimate, fuse } from '../../numeric/fuse.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { Instant, Landing, SegmentStride } from './segment.ts';
import type { SharpOnset } from './sharp-landing.ts';

/**
 * Touchdown of one contact, as a fractional index of the frame. Where impacts are sharp, their onset is the touchdown. Where
 * they are not, slower features of the landing are used, with offsets from force plates (settings.touchdown). Between the two
 * both are asked, and the more certain counts.
 * @returns raw: the main feature before any offset; fused: all features with their offsets
 */
export function touchdown(
  stride: SegmentStride,
  landing: Landing,
  mounting: Mounting,
  settings: AnalysisSettings,
): Instant | null {
  const { stride_s, rate_hz } = stride.frame;
  const { sudden, sharp } = landing;
  // Soft landings were measured on strides longer than this; on shorter ones the offsets are an extrapolation.
  const { soft_stride_s, soft_sd_beyond } = settings.touchdown;
  const wider = 1 + soft_sd_beyond * Math.max(0, soft_stride_s / stride_s - 1);
  const estimates = stride.softTouchdown(landing, wider);
  if (!sudden || sharp === 0) {
    const fused = fuse(estimates);
    return fused && { raw: stride.softRaw(landing), fused };
  }
  const onset = suddenEstimate(sudden, sharp, mounting, rate_hz, settings);
  const fused = fuse(sharp === 1 ? [onset] : [onset, ...estimates], settings.touchdown.outvote_sd);
  return fused && { raw: sudden.at, fused };
}

/** The onset of a sharp impact; the less sharp, the less certain. */
function suddenEstimate(
  { at, rise, doubt_sd }: SharpOnset,
  sharp: number,
  mounting: Mounting,
  rate_hz: number,
  settings: AnalysisSettings,
): Estimate {
  const { sharp_offset_s, sharp_sd_s } = settings.touchdown[mounting];
  const { onset_part, onset_intervals } = settings.impact;
  const sd = Math.hypot(sharp_sd_s * rate_hz, onset_part * rise, onset_intervals, doubt_sd);
  return { name: 'sudden onset', at: at + sharp_offset_s * rate_hz, sd: sd / sharp };
}

import type { Estimate } from '../../numeric/fuse.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { StrideFrame } from '../stride-frame.ts';
import type { Candidates } from './delay-of-neighbours.ts';
import { risesBeforePeaks } from './impact-rise.ts';
import type { Landing, Segment } from './segment.ts';
import { type ShankFeatures, shankFeatures } from './shank-features.ts';
import { joltRise } from './shank-jolt.ts';
import { shankToeOff } from './shank-toe-off.ts';

/** How contacts show on a shank: it is jolted, turns over the foot, and the knee folds. */
export const SHANK_SEGMENT: Segment = {
  stride(frame, slow_rate, settings) {
    const features = shankFeatures(frame, slow_rate, settings);
    if (!features) return null;
    return {
      frame,
      features,
      rises: (soft_jerk) => rises(frame, features, soft_jerk, settings),
      softRaw: ({ rise, onset }) => rise ?? onset!.at,
      softTouchdown: (landing, wider) => softTouchdown(frame, landing, wider, settings),
      pushOff: null,
      toesLeave: () => null,
      toeOff: (touchdown_at) => shankToeOff(frame, features, touchdown_at, settings),
    };
  },
  rise_follows_neighbours: true,
};

/** Rises before the peaks of vertical acceleration; the one that the jolt without regard to directions is nearest to is the likeliest. */
function rises(
  frame: StrideFrame,
  features: ShankFeatures,
  soft_jerk: Float64Array,
  settings: AnalysisSettings,
): Candidates | null {
  const { up, rate_hz, stride_s } = frame;
  const { soft_from, soft_to } = features;
  const { rise_part, first_peak_part } = settings.impact;
  const reach = settings.shank_windows.rise_before_peak * stride_s * rate_hz;
  const found = risesBeforePeaks(up, rate_hz, soft_from, soft_to, rise_part, first_peak_part, reach);
  const jolt = found && joltRise(frame, features, soft_jerk, settings);
  if (!found || jolt === null) return found;
  const distance = (k: number): number => Math.abs(found.at[k] - jolt);
  return { at: found.at, likely: found.at.reduce((near, _, k) => (distance(k) < distance(near) ? k : near), 0) };
}

/** The jolt's rise, and the onset near it. */
function softTouchdown(
  { rate_hz, stride_s }: StrideFrame,
  { rise, onset, from_neighbours }: Landing,
  wider: number,
  settings: AnalysisSettings,
): Estimate[] {
  const m = settings.touchdown.shank;
  const estimates: Estimate[] = [];
  if (rise !== null) {
    const sd = (from_neighbours ? m.from_neighbours_factor : 1) * wider * m.rise_sd_s * rate_hz;
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

import type { Estimate } from '../../numeric/fuse.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { StrideFrame } from '../stride-frame.ts';
import { type FootFeatures, footFeatures } from './foot-features.ts';
import { footToeOff } from './foot-toe-off.ts';
import { steepRises } from './impact-rise.ts';
import type { Landing, Segment } from './segment.ts';
import { pushOffMotion, toesLeave } from './toe-speed.ts';

/** How contacts show on a foot: it slaps down, rests, and turns about the toes until they leave. */
export const FOOT_SEGMENT: Segment = {
  stride(frame, slow_rate, settings) {
    const features = footFeatures(frame, slow_rate, settings);
    if (!features) return null;
    const { rise_part, first_rise_part } = settings.impact;
    const { toes_reach_strides, toes_share, usual_lever_m } = settings.toe_off.foot;
    const { up, rate_hz, stride_s } = frame;
    const pushOff = pushOffMotion(frame, features.mid, features.push_minimum, settings.toe_off.foot);
    const toes_until = features.push_minimum + toes_reach_strides * stride_s * rate_hz;
    return {
      frame,
      features,
      rises: () => steepRises(up, rate_hz, features.soft_from, features.soft_to, rise_part, first_rise_part),
      softRaw: (landing) => softRaw(frame, features, landing, settings),
      softTouchdown: (landing, wider) => softTouchdown(frame, features, landing, wider, settings),
      pushOff,
      toesLeave: (lever) =>
        pushOff && lever ? toesLeave(pushOff, lever, toes_share, usual_lever_m, toes_until) : null,
      toeOff: (touchdown_at, toes_leave) => footToeOff(frame, features, touchdown_at, toes_leave, settings),
    };
  },
  rise_follows_neighbours: false,
};

/** Mean of the slap and the jolt: one is late where the other is early (heel or forefoot first). */
function softTouchdown(
  frame: StrideFrame,
  features: FootFeatures,
  landing: Landing,
  wider: number,
  settings: AnalysisSettings,
): Estimate[] {
  const m = settings.touchdown.foot;
  const { rate_hz, stride_s } = frame;
  const at = softRaw(frame, features, landing, settings) + m.landing_offset_strides * stride_s * rate_hz;
  const sd_s = landing.rise === null ? m.without_impact_sd_s : m.landing_sd_s;
  return [{ name: 'landing', at, sd: wider * sd_s * rate_hz }];
}

function softRaw(
  { rate_hz, stride_s }: StrideFrame,
  { rate_minimum }: FootFeatures,
  { rise }: Landing,
  settings: AnalysisSettings,
): number {
  if (rise === null) return rate_minimum;
  const floor = settings.touchdown.foot.least_lag_strides * stride_s * rate_hz;
  return rise + Math.max((rate_minimum - rise) / 2, floor);
}

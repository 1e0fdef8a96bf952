import { fuse } from '../../numeric/fuse.ts';
import { ramp } from '../../numeric/ramp.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { StrideFrame } from '../stride-frame.ts';
import type { Instant } from './segment.ts';
import type { ShankFeatures } from './shank-features.ts';

/**
 * Toe-off of a shank: the fold of the knee, where the tangent of the rate's fall begins and where it is steepest.
 * @param touchdown_at touchdown, index of the frame
 * @returns fractional indices of the frame
 */
export function shankToeOff(
  { rate_hz, stride_s }: StrideFrame,
  { rate_fall, fall_begins, rate_maximum }: ShankFeatures,
  touchdown_at: number,
  settings: AnalysisSettings,
): Instant | null {
  const m = settings.toe_off.shank;
  const running = ramp(stride_s, m.sprint.stride_s, m.run.stride_s);
  const offset = (of: 'begin_offset_s' | 'fall_offset_s'): number =>
    (m.sprint[of] + running * (m.run[of] - m.sprint[of])) * rate_hz;
  const fused = fuse([
    {
      name: 'fall begins',
      at: fall_begins + offset('begin_offset_s'),
      sd: Math.hypot(m.begin_sd_part * (rate_fall - rate_maximum), m.begin_sd_s * rate_hz),
    },
    { name: 'rate fall', at: rate_fall + offset('fall_offset_s'), sd: m.fall_sd_s * rate_hz },
  ]);
  if (!fused) return null;
  // In long contacts some knees begin to fold well before the toes leave, and others do not.
  const beyond = Math.max(0, fused.at - touchdown_at - m.long_contact_s * rate_hz);
  // Between sprinters the knee folds differently; few were measured.
  const shorter = Math.max(0, m.measured_stride_s / stride_s - 1) * m.shorter_sd_s * rate_hz;
  const fold = rate_fall - rate_maximum;
  const twofold = fold > m.twofold_strides * stride_s * rate_hz ? fold / 2 : 0;
  const u = Math.hypot(fused.u, m.long_sd_part * beyond, shorter, twofold);
  return { raw: fall_begins, fused: { ...fused, u } };
}

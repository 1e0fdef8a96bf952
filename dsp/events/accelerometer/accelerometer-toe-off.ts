import { fuse } from '../../numeric/fuse.ts';
import type { Dated } from './accelerometer-landing.ts';
import { steadyPath } from './accelerometer-path.ts';
import type { AccelerometerContext, AccelerometerSegment } from './accelerometer-segment.ts';
import type { AnchoredStride } from './accelerometer-strides.ts';
import { pushOffColumns } from './push-off-columns.ts';

/**
 * Toe-off of every stride without a gyroscope.
 * Foot: the lengthwise push ends while the backward pull lets go. Shank: the ankle is pulled back until the push ends, lashes forward, and is pulled back again by the
 * folding knee: the trough before toe-off and the steepest fall after it.
 * Several places in a stride may look like that; which it is, the strides around say (`steadyPath`).
 * @param landed touchdowns, sample indices
 * @returns one entry a stride, null where no toe-off shows clearly
 */
export function accelerometerToeOffs(
  segment: AccelerometerSegment,
  strides: AnchoredStride[],
  landed: (Dated | null)[],
  { frame, rate_hz, usual_s, settings }: AccelerometerContext,
): (Dated | null)[] {
  const s = settings.accelerometer;
  const columns = pushOffColumns(frame, rate_hz, usual_s, settings);
  const candidates = strides.map(({ stride_s }, k) => {
    const down = landed[k];
    return down ? segment.toeOffs(columns, down.at, stride_s * rate_hz, settings) : [];
  });
  return steadyPath(candidates, s.path).map((chosen, k) => {
    const down = landed[k];
    if (!chosen || !down || chosen.margin < s.path.least_margin) return null;
    const stride = strides[k].stride_s * rate_hz;
    const pause = !(strides[k + 1]?.anchor - strides[k].anchor <= s.toe_off.pause * stride);
    if (pause && !segment.toe_off_before_pause) return null;
    const estimates = segment.toeOffEstimates(columns, chosen.candidate.at, down.at, stride, settings);
    const fused = fuse(estimates);
    // Offsets were measured on longer strides; how push-off looks in sprints differs more between runners than their shares say.
    const { measured_stride_s, beyond_sd_s } = s.toe_off;
    const beyond = beyond_sd_s * Math.max(0, measured_stride_s / strides[k].stride_s - 1) * rate_hz;
    return fused && { ...fused, u: Math.hypot(fused.u, beyond), raw: estimates[0].at };
  });
}

import type { Estimate } from '../../numeric/fuse.ts';
import { argMax, localMaxima, vertex } from '../../numeric/peaks.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { lowPass } from '../../signals/sensor-signals.ts';
import { swingRatio } from './accelerometer-frame.ts';
import type { Candidate } from './accelerometer-path.ts';
import type { AccelerometerSegment } from './accelerometer-segment.ts';
import { anchoredStrides } from './accelerometer-strides.ts';
import { type PushOffColumns, spread, unusual } from './push-off-columns.ts';

/** A foot without a gyroscope: its braking in late swing anchors a stride, and its push-off may jerk as much as its landing. */
export const ACCELEROMETER_FOOT: AccelerometerSegment = {
  repeating: ({ across }) => across,
  strides(_bursts, times, { frame, rate_hz, usual_s, settings }) {
    const { cutoff, least_swing, period_cutoff_hz } = settings.accelerometer;
    const anchored = anchoredStrides(frame.across, cutoff.anchor / usual_s, times, rate_hz, settings);
    return anchored.filter(({ anchor, stride_s }) => {
      const half = Math.round(0.6 * stride_s * rate_hz);
      return swingRatio(frame, rate_hz, period_cutoff_hz, anchor - half, anchor + half) >= least_swing;
    });
  },
  burstCentres(jerk, strides, { rate_hz, usual_s, settings }) {
    const { cutoff, burst: m } = settings.accelerometer;
    const jolt = lowPass(jerk, cutoff.burst / usual_s, rate_hz);
    return strides.map(({ anchor, stride_s }) => {
      const stride = stride_s * rate_hz;
      return argMax(jolt, anchor + m.after_anchor_from * stride, anchor + m.after_anchor_to * stride);
    });
  },
  jolts: (_bursts, strides) => strides.map(() => []),
  toeOffs,
  toeOffEstimates,
  toe_off_before_pause: true,
};

/**
 * Where the lengthwise push falls away, with how steeply it does and how far the pull across lets go about it. In fast steps
 * the fall may only be a slower rise, so every local maximum of it counts.
 * @param down touchdown, sample index
 * @param stride samples a stride
 */
function toeOffs(c: PushOffColumns, down: number, stride: number, settings: AnalysisSettings): Candidate[] {
  const { toe_off: w, foot: m } = settings.accelerometer;
  const length = spread(c.along, down, stride, settings);
  const width = spread(c.mid, down, stride, settings);
  return localMaxima(c.fall, down + w.foot.from * stride, down + w.foot.to * stride)
    .map((i) => {
      const share = (i - down) / stride;
      const steepness = (c.fall[i] * stride) / c.rate_hz / length.sd;
      const release =
        largestRise(c.mid, i - m.release_from * stride, i + m.release_to * stride, m.release_length * stride) /
        width.sd;
      const looks = w.fall_weight.foot * steepness + w.pull_weight.foot * release;
      return { at: i, share, score: looks - unusual(share, stride / c.rate_hz, 'foot', settings) };
    })
    .filter(({ score }) => Number.isFinite(score));
}

function toeOffEstimates(
  c: PushOffColumns,
  chosen: number,
  _down: number,
  stride: number,
  settings: AnalysisSettings,
): Estimate[] {
  const { foot: m } = settings.accelerometer;
  const quick = argMax(c.quickFall, chosen - m.quick_reach * stride, chosen + m.quick_reach * stride);
  const release = argMax(c.acrossRise, chosen - m.release_from * stride, chosen + m.release_to * stride);
  const at = (name: string, x: Float64Array, i: number, { offset, sd }: { offset: number; sd: number }) => ({
    name,
    at: vertex(x, i) + offset * stride,
    sd: sd * stride,
  });
  return [
    at('push ends', c.fall, chosen, m.toe_fall),
    at('push ends, quick', c.quickFall, quick, m.toe_fall_quick),
    at('pull lets go', c.acrossRise, release, m.pull_release),
  ];
}

/** Largest rise over `length` samples that begins in [from, to - length]. */
function largestRise(x: Float64Array, from: number, to: number, length: number): number {
  const step = Math.round(length);
  let largest = Number.NEGATIVE_INFINITY;
  for (let i = Math.max(0, Math.round(from)); i + step <= Math.min(x.length - 1, to); i++) {
    largest = Math.max(largest, x[i + step] - x[i]);
  }
  return largest;
}

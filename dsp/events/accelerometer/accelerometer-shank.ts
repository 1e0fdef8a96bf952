import { derivative } from '../../filters/index.ts';
import type { Estimate } from '../../numeric/fuse.ts';
import { argMax, argMin, localMaxima, localMinima, vertex } from '../../numeric/peaks.ts';
import { mean } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { lowPass } from '../../signals/sensor-signals.ts';
import type { Candidate } from './accelerometer-path.ts';
import type { AccelerometerContext, AccelerometerSegment } from './accelerometer-segment.ts';
import type { AnchoredStride } from './accelerometer-strides.ts';
import { placesOfNeighbours } from './places-of-neighbours.ts';
import { type PushOffColumns, spread, unusual } from './push-off-columns.ts';

/** A shank without a gyroscope: the burst of its landing anchors a stride, and the folding knee ends the contact. */
export const ACCELEROMETER_SHANK: AccelerometerSegment = {
  repeating: ({ norm }) => norm,
  strides: (bursts) => bursts,
  burstCentres: (_jerk, strides) => strides.map(({ anchor }) => anchor),
  jolts,
  toeOffs,
  toeOffEstimates,
  toe_off_before_pause: false,
};

/**
 * The rise of the jolt in the length of a shank's acceleration: where it begins, is steepest, and the trough before it.
 * @param bursts touchdown as the burst of change dates it: a swing brakes as steeply as a landing jolts, but more smoothly
 */
function jolts(
  bursts: number[],
  strides: AnchoredStride[],
  { frame, rate_hz, usual_s, settings }: AccelerometerContext,
): Estimate[][] {
  const { cutoff, shank: m, neighbours, near_usual } = settings.accelerometer;
  const low = (x: Float64Array, cycles: number): Float64Array => lowPass(x, cycles / usual_s, rate_hz);
  const norm = low(frame.norm, cutoff.middle);
  const rise = derivative(norm, rate_hz);
  const slowRise = derivative(low(frame.norm, cutoff.slow), rate_hz);
  const slowChange = derivative(slowRise, rate_hz);
  const near = (k: number, stride: number): [number, number] => [
    bursts[k] - m.jolt_before * stride,
    bursts[k] + m.jolt_after * stride,
  ];
  const rough = strides.map(({ stride_s }, k) => argMax(rise, ...near(k, stride_s * rate_hz)));
  const expected = placesOfNeighbours(strides, rough, rate_hz, neighbours);
  return strides.map(({ stride_s }, k) => {
    const stride = stride_s * rate_hz;
    const usual = expected[k];
    const [from, to] = near(k, stride);
    const steepest =
      usual === null
        ? -1
        : argMax(rise, Math.max(from, usual - near_usual * stride), Math.min(to, usual + near_usual * stride));
    if (steepest < 0) return [];
    const at = (name: string, x: Float64Array, i: number, { offset, sd }: { offset: number; sd: number }) =>
      i < 0 ? [] : [{ name, at: vertex(x, i) + offset * stride, sd: sd * stride }];
    const begin = argMax(slowChange, steepest - m.begin_before * stride, steepest + m.begin_after * stride);
    const slow = argMax(slowRise, steepest - m.slow_reach * stride, steepest + m.slow_reach * stride);
    return [
      ...at('jolt begins', slowChange, begin, m.begin),
      ...at('jolt rises, slow', slowRise, slow, m.slow_rise),
      ...at('jolt rises', rise, steepest, m.rise),
      ...at('trough before the jolt', norm, argMin(norm, steepest - m.begin_before * stride, steepest + 1), m.trough),
    ];
  });
}

/** Where the shank falls back after its lash forward, with how far it is pulled back shortly before and after toe-off. */
function toeOffs(c: PushOffColumns, down: number, stride: number, settings: AnalysisSettings): Candidate[] {
  const { toe_off: w, shank: m } = settings.accelerometer;
  const width = spread(c.mid, down, stride, settings);
  return localMaxima(c.acrossFall, down + w.shank.from * stride, down + w.shank.to * stride)
    .map((i) => {
      const share = (i - down) / stride;
      const contact = m.fold_fall.part * (i - down);
      const pulls = m.pulled_at.map((part) => (width.mean - valueAt(c.mid, down + part * contact)) / width.sd);
      const steepness = (c.acrossFall[i] * stride) / c.rate_hz / width.sd;
      const looks = w.fall_weight.shank * steepness + w.pull_weight.shank * mean(pulls);
      return { at: i, share, score: looks - unusual(share, stride / c.rate_hz, 'shank', settings) };
    })
    .filter(({ score }) => Number.isFinite(score));
}

function toeOffEstimates(
  c: PushOffColumns,
  chosen: number,
  down: number,
  stride: number,
  settings: AnalysisSettings,
): Estimate[] {
  const { shank: m } = settings.accelerometer;
  const fall = down + m.fold_fall.part * (vertex(c.acrossFall, chosen) - down);
  const near = fall + m.pull_trough.place * stride;
  const troughs = localMinima(c.mid, near - m.pull_trough.reach * stride, near + m.pull_trough.reach * stride);
  const estimates = [{ name: 'knee folds', at: fall, sd: m.fold_fall.sd * stride }];
  if (troughs.length > 0) {
    const trough = troughs.reduce((a, b) => (Math.abs(b - near) < Math.abs(a - near) ? b : a));
    const at = down + m.pull_trough.part * (vertex(c.mid, trough) - down);
    estimates.push({ name: 'pull ends', at, sd: m.pull_trough.sd * stride });
  }
  return estimates;
}

/** Value at the nearest sample; NaN outside. */
function valueAt(x: Float64Array, index: number): number {
  return x[Math.round(index)] ?? Number.NaN;
}

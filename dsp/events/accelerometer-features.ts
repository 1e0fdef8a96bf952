import { derivative } from '../filters/index.ts';
import type { AnalysisSettings } from '../settings.ts';
import type { AccelerometerFrame } from './accelerometer-frame.ts';
import type { AnchoredStride } from './accelerometer-strides.ts';
import type { Estimate } from './fuse.ts';
import { argMax, argMin, best, firstCrossing, localMaxima, vertex } from './peaks.ts';
import { lowPass } from './sensor-signals.ts';

/** An offset from a feature to the event and its spread between runners, both in strides. */
interface Offset {
  offset: number;
  sd: number;
}

/** Estimates of one contact's touchdown and toe-off; fractional sample indices. */
export interface ContactEstimates {
  touchdown: Estimate[];
  toe_off: Estimate[];
}

/**
 * Gives the estimates of one stride.
 * @param expected where the touchdown should be by the strides around, as a sample index; null: not yet known
 */
export type StrideEstimates = (stride: AnchoredStride, expected: number | null) => ContactEstimates;

/** Landing and push-off of a foot; columns are filtered once for the whole recording. */
export function footEstimates(
  frame: AccelerometerFrame,
  rate_hz: number,
  usual_s: number,
  settings: AnalysisSettings,
): StrideEstimates {
  const { cutoff, foot: m } = settings.accelerometer;
  const low = (x: Float64Array, cycles: number): Float64Array => lowPass(x, cycles / usual_s, rate_hz);
  const slope = (x: Float64Array): Float64Array => derivative(x, rate_hz);
  const slowFall = slope(low(frame.along, cutoff.slow));
  const fall = slope(low(frame.along, cutoff.middle));
  const pull = low(frame.across, cutoff.slow);
  const quickFall = slope(low(frame.along, cutoff.quick));
  const brakeChange = slope(slope(low(frame.across, cutoff.quick)));
  const brakeFall = slope(low(frame.across, cutoff.sharp));
  const normFall = slope(low(frame.norm, cutoff.sharp));
  const negative = (x: Float64Array): Float64Array => x.map((v) => -v);
  const landing: [string, Float64Array, Offset, number][] = [
    ['lengthwise fall', negative(slowFall), m.slow_fall, m.landing_from],
    ['end of braking', brakeChange, m.brake_end, 0],
    ['fall of braking', negative(brakeFall), m.brake_fall, 0],
    ['fall of the acceleration', negative(normFall), m.norm_fall, 0],
  ];
  return ({ anchor, stride_s }, expected) => {
    const u = stride_s * rate_hz;
    const at = (name: string, x: Float64Array, i: number, { offset, sd }: Offset): Estimate | null =>
      i < 0 ? null : { name, at: vertex(x, i) + offset * u, sd: sd * u };
    const touchdown = landing
      .map(([name, x, offset, from]) => {
        const window = { from: anchor + from * u, to: anchor + m.landing_to * u };
        return at(
          name,
          x,
          highestIn(x, window, expected, offset.offset * u, settings.accelerometer.settle * u),
          offset,
        );
      })
      .filter((e) => e !== null);
    const half = pushReleased(pull, anchor + m.landing_after_anchor * u, u, settings);
    if (half === null) return { touchdown, toe_off: [] };
    const near = (x: Float64Array): number => argMin(x, half + m.fall_from * u, half + m.fall_to * u);
    const toe_off = [
      { name: 'push released', at: half + m.half_rise.offset * u, sd: m.half_rise.sd * u },
      at('push ends', fall, near(fall), m.toe_fall),
      at('push ends, quick', quickFall, near(quickFall), m.toe_fall_quick),
    ].filter((e) => e !== null);
    return { touchdown, toe_off };
  };
}

/**
 * Half-way up from the backward pull of late contact to the top after it, in the acceleration across the foot: the toes let
 * go of the ground in between.
 * @param landed rough touchdown, samples
 * @param u samples a stride
 */
function pushReleased(pull: Float64Array, landed: number, u: number, settings: AnalysisSettings): number | null {
  const m = settings.accelerometer.foot;
  const bottomOf = (top: number): number =>
    argMin(pull, Math.max(landed + m.pull_from * u, top - m.release_longest * u), top);
  const tops = localMaxima(pull, landed + m.top_from * u, landed + m.top_to * u).filter((top) => bottomOf(top) >= 0);
  const top = best(tops, (i) => pull[i] - pull[bottomOf(i)]);
  if (top < 0) return null;
  const bottom = bottomOf(top);
  return firstCrossing(pull, bottom + 1, top + 1, (pull[top] + pull[bottom]) / 2, 'rising');
}

/** Index of the highest value in a window, narrowed to around where the strides around expect it. */
function highestIn(
  x: Float64Array,
  window: { from: number; to: number },
  expected: number | null,
  offset: number,
  settle: number,
): number {
  if (expected === null) return argMax(x, window.from, window.to);
  return argMax(x, expected - offset - settle, expected - offset + settle);
}

/** Of a shank: the jolt's rise in the length of the acceleration; the lengthwise push ends at toe-off. */
export function shankEstimates(
  frame: AccelerometerFrame,
  rate_hz: number,
  usual_s: number,
  settings: AnalysisSettings,
): StrideEstimates {
  const { cutoff, shank: m } = settings.accelerometer;
  const low = (x: Float64Array, cycles: number): Float64Array => lowPass(x, cycles / usual_s, rate_hz);
  const norm = low(frame.norm, cutoff.middle);
  const rise = derivative(norm, rate_hz);
  const slowRise = derivative(low(frame.norm, cutoff.slow), rate_hz);
  const slowChange = derivative(slowRise, rate_hz);
  const along = low(frame.along, cutoff.middle);
  return ({ anchor, stride_s }, expected) => {
    const u = stride_s * rate_hz;
    const at = (name: string, x: Float64Array, i: number, { offset, sd }: Offset): Estimate | null =>
      i < 0 ? null : { name, at: vertex(x, i) + offset * u, sd: sd * u };
    const window = { from: anchor - m.rise_before * u, to: anchor + m.rise_after * u };
    const steepest = highestIn(rise, window, expected, m.rise.offset * u, settings.accelerometer.settle * u);
    if (steepest < 0) return { touchdown: [], toe_off: [] };
    const begin = argMax(slowChange, steepest - 0.1 * u, steepest + 0.02 * u);
    const touchdown = [
      at('jolt begins', slowChange, begin, m.begin),
      at('jolt rises, slow', slowRise, argMax(slowRise, steepest - 0.06 * u, steepest + 0.06 * u), m.slow_rise),
      at('jolt rises', rise, steepest, m.rise),
      at('trough before the jolt', norm, argMin(norm, steepest - 0.1 * u, steepest + 1), m.trough),
    ].filter((e) => e !== null);
    const landed = steepest + m.rise.offset * u;
    const top = argMax(along, landed + m.toe_off_from * u, landed + m.toe_off_to * u);
    const bottom = argMin(along, top, top + m.toe_off_reach * u);
    if (top < 0 || bottom <= top || stride_s < m.shortest_stride_s) return { touchdown, toe_off: [] };
    const half = (along[top] + along[bottom]) / 2;
    let i = top;
    while (i < bottom && along[i] > half) i++;
    const crossing = i - (half - along[i]) / (along[i - 1] - along[i]);
    const gone = crossing + m.half_fall.offset * u;
    const share = (gone - landed) / u;
    if (share < m.shortest_contact || share > m.longest_contact) return { touchdown, toe_off: [] };
    return {
      touchdown,
      toe_off: [{ name: 'push half over', at: gone, sd: m.half_fall.sd * u }],
    };
  };
}

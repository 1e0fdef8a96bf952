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

/** Estimates of one contact's touchdown, and candidates for its toe-off; fractional sample indices. */
export interface ContactEstimates {
  touchdown: Estimate[];
  /** Each candidate: the estimates that belong to one possible toe-off. */
  toe_off: Estimate[][];
}

/** Returns a function that gives the estimates of one stride; columns are filtered once for the whole recording. */
export function footEstimates(frame: AccelerometerFrame, rate_hz: number, usual_s: number, settings: AnalysisSettings) {
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
  return ({ anchor, stride_s }: AnchoredStride): ContactEstimates => {
    const u = stride_s * rate_hz;
    const at = (name: string, x: Float64Array, i: number, { offset, sd }: Offset): Estimate | null =>
      i < 0 ? null : { name, at: vertex(x, i) + offset * u, sd: sd * u };
    const [from, to] = [anchor + m.landing_from * u, anchor + m.landing_to * u];
    const touchdown = [
      at('end of late-swing braking, slow', slowFall, argMin(slowFall, from, to), m.slow_fall),
      at('end of braking', brakeChange, argMax(brakeChange, anchor, to), m.brake_end),
      at('fall of braking', brakeFall, argMin(brakeFall, anchor, to), m.brake_fall),
      at('fall of the acceleration', normFall, argMin(normFall, anchor, to), m.norm_fall),
    ].filter((e) => e !== null);
    const half = pushReleased(pull, anchor + m.landing_after_anchor * u, u, settings);
    if (half === null) return { touchdown, toe_off: [] };
    const near = (x: Float64Array): number => argMin(x, half + m.fall_from * u, half + m.fall_to * u);
    const toe_off = [
      { name: 'push released', at: half + m.half_rise.offset * u, sd: m.half_rise.sd * u },
      at('push ends', fall, near(fall), m.toe_fall),
      at('push ends, quick', quickFall, near(quickFall), m.toe_fall_quick),
    ].filter((e) => e !== null);
    return { touchdown, toe_off: [toe_off] };
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

/** The same for a shank: the jolt's rise in the length of the acceleration; the lengthwise push ends at toe-off. */
export function shankEstimates(
  frame: AccelerometerFrame,
  rate_hz: number,
  usual_s: number,
  settings: AnalysisSettings,
) {
  const { cutoff, shank: m } = settings.accelerometer;
  const low = (x: Float64Array, cycles: number): Float64Array => lowPass(x, cycles / usual_s, rate_hz);
  const norm = low(frame.norm, cutoff.middle);
  const rise = derivative(norm, rate_hz);
  const slowRise = derivative(low(frame.norm, cutoff.slow), rate_hz);
  const slowChange = derivative(slowRise, rate_hz);
  const along = low(frame.along, cutoff.middle);
  return ({ anchor, stride_s }: AnchoredStride): ContactEstimates => {
    const u = stride_s * rate_hz;
    const at = (name: string, x: Float64Array, i: number, { offset, sd }: Offset): Estimate | null =>
      i < 0 ? null : { name, at: vertex(x, i) + offset * u, sd: sd * u };
    const steepest = argMax(rise, anchor - m.rise_before * u, anchor + m.rise_after * u);
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
    if (top < 0 || bottom <= top) return { touchdown, toe_off: [] };
    const half = (along[top] + along[bottom]) / 2;
    let i = top;
    while (i < bottom && along[i] > half) i++;
    const crossing = i - (half - along[i]) / (along[i - 1] - along[i]);
    const gone = crossing + m.half_fall.offset * u;
    const share = (gone - landed) / u;
    if (share < m.shortest_contact || share > m.longest_contact) return { touchdown, toe_off: [] };
    return {
      touchdown,
      toe_off: [[{ name: 'push half over', at: gone, sd: m.half_fall.sd * u }]],
    };
  };
}

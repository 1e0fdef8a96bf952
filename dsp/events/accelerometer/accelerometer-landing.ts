import { derivative } from '../../filters/index.ts';
import { median } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { AccelerometerFrame } from './accelerometer-frame.ts';
import type { AnchoredStride } from './accelerometer-strides.ts';
import { changeOfAcceleration } from '../../signals/change-of-acceleration.ts';
import { type Estimate, type Fused, fuse } from '../../numeric/fuse.ts';
import { type ImpactOnset, impactOnset, standout } from '../impact-onset.ts';
import { argMax, argMin, vertex } from '../../numeric/peaks.ts';
import { lowPass, type SensorSignals } from '../../signals/sensor-signals.ts';

/** An instant, fused and as its first feature shows it; fractional sample indices. */
export interface Dated extends Fused {
  raw: number;
  /** A sharp impact's own beginning dates it. */
  sharp?: boolean;
}

/**
 * Touchdown of every stride without a gyroscope. A landing is a burst of change of acceleration: where impacts come through
 * sharply its onset is the touchdown; else the burst's own beginning and end date it, of a shank together with the rise of
 * the acceleration's length.
 * @param jolts length of the change of acceleration, low-passed to what landings carry (settings.accelerometer.cutoff.jolt)
 * @param usual_s stride time that the filters are made for
 * @returns one entry a stride, null where no landing shows
 */
export function accelerometerLandings(
  signals: SensorSignals,
  frame: AccelerometerFrame,
  strides: AnchoredStride[],
  jolts: Float64Array,
  usual_s: number,
  settings: AnalysisSettings,
): (Dated | null)[] {
  const { rate_hz } = signals;
  const soft = softLandings(signals, frame, strides, jolts, usual_s, settings);
  const slow = soft.map(fuse).map((fused, k): Dated | null => fused && { ...fused, raw: soft[k][0].at });
  const dated = borrowed(strides, slow, rate_hz, settings);
  const onset = onsetFinder(signals, strides, settings);
  const { reach } = settings.accelerometer.onset;
  const first = dated.map((down, k) => (down ? onset(k, down.at - reach * strides[k].stride_s * rate_hz) : null));
  const sharp = first.map((found) => standout(found, rate_hz, settings));
  if (sharp.length === 0 || !(median(sharp) > settings.impact.sharp_at)) return dated;
  const quick = dated.map((down, k) => onsetDate(first[k], signals, settings) ?? down);
  // A burst before the landing's own is told by its neighbours: the onset is looked for again where they have it.
  const again = borrowed(strides, quick, rate_hz, settings).map((down, k) => {
    if (!down || down === quick[k]) return down;
    const u = strides[k].stride_s * rate_hz;
    const { most_apart } = settings.accelerometer.borrowed;
    const found = onset(k, down.at - most_apart * u, down.at + most_apart * u);
    return (found && Math.abs(found.at - down.at) < most_apart * u && onsetDate(found, signals, settings)) || down;
  });
  return again;
}

function onsetDate(
  onset: ImpactOnset | null,
  { rate_hz, mounting }: SensorSignals,
  settings: AnalysisSettings,
): Dated | null {
  if (!onset) return null;
  const { offset_s, least_sd_s, least_sd_samples } = settings.accelerometer.onset;
  const u = Math.hypot(least_sd_s[mounting] * rate_hz, settings.impact.onset_part * onset.rise, least_sd_samples);
  return { at: onset.at + offset_s[mounting] * rate_hz, raw: onset.at, u, disagreement: 0, sharp: true };
}

/** Finds the onset of stride k's impact from an index on; the swing before it is what it stands out from. */
function onsetFinder(
  signals: SensorSignals,
  strides: AnchoredStride[],
  settings: AnalysisSettings,
): (k: number, from: number, to?: number) => ImpactOnset | null {
  const jerk = changeOfAcceleration(signals, settings.impact.cutoff_hz);
  const { reach } = settings.accelerometer.onset;
  return (k, from, to = from + 2 * reach * strides[k].stride_s * signals.rate_hz) =>
    impactOnset(jerk, from - settings.impact.before_s * signals.rate_hz, from, to);
}

/**
 * Touchdowns far from where the strides around have theirs after the anchor, and less regular in time than those would be,
 * are misread: the neighbours' place stands instead, less certain.
 */
function borrowed(
  strides: AnchoredStride[],
  landed: (Dated | null)[],
  rate_hz: number,
  settings: AnalysisSettings,
): (Dated | null)[] {
  const { neighbours, borrowed: m, stride_tolerance } = settings.accelerometer;
  const found = landed.map((down) => down?.at ?? -1);
  const expected = placesOfNeighbours(strides, found, rate_hz, neighbours);
  return landed.map((down, k) => {
    const place = expected[k];
    const u = strides[k].stride_s * rate_hz;
    if (!down || place === null || Math.abs(down.at - place) <= m.most_apart * u) return down;
    const [before, after] = [landed[k - 1]?.at ?? Number.NaN, landed[k + 1]?.at ?? Number.NaN];
    const between = Math.abs(after - before - 2 * u) < stride_tolerance * 2 * u ? (before + after) / 2 : Number.NaN;
    const misread = Math.abs(down.at - between) > Math.abs(place - between) + m.margin * u;
    if (misread) return { ...down, at: place, u: m.sd * u, sharp: false };
    if (Number.isNaN(between) && Math.abs(down.at - place) > m.far * u)
      return { ...down, at: place, u: m.far_sd * u, sharp: false };
    return Number.isNaN(between) ? { ...down, u: Math.max(down.u, Math.abs(down.at - place) / 2) } : down;
  });
}

function softLandings(
  signals: SensorSignals,
  frame: AccelerometerFrame,
  strides: AnchoredStride[],
  change_of_jolts: Float64Array,
  usual_s: number,
  settings: AnalysisSettings,
): Estimate[][] {
  const { rate_hz, mounting } = signals;
  const { cutoff, burst: m } = settings.accelerometer;
  const jolt = mounting === 'foot' ? lowPass(change_of_jolts, cutoff.burst / usual_s, rate_hz) : null;
  const change = changeOfAcceleration(signals, cutoff.sharp / usual_s);
  const parts = m.parts[mounting];
  const { offset, sd } = m.middle[mounting];
  const bursts = strides.map(({ anchor, stride_s }) => {
    const u = stride_s * rate_hz;
    const centre = jolt ? argMax(jolt, anchor + m.after_anchor_from * u, anchor + m.after_anchor_to * u) : anchor;
    const middle = burstMiddle(change, centre - m.reach * u, centre + m.reach * u, parts);
    return middle === null
      ? null
      : { name: 'burst of the landing', at: middle + offset * u, sd: Math.hypot(sd * u, m.intervals) };
  });
  if (mounting === 'foot') return bursts.map((burst) => (burst ? [burst] : []));
  const jolts = shankJolts(
    frame,
    strides,
    bursts.map((burst) => burst?.at ?? Number.NaN),
    rate_hz,
    usual_s,
    settings,
  );
  return bursts.map((burst, k) => (burst ? [...jolts[k], burst] : jolts[k]));
}

/**
 * Middle between two quantiles of a burst's energy. Its beginning is late where its end is early: a heel lands in two
 * blows, a forefoot in one. No peak has to be chosen.
 * @param change length of the change of acceleration
 * @param parts shares of the energy in the window
 */
export function burstMiddle(change: Float64Array, from: number, to: number, parts: readonly number[]): number | null {
  const [a, b] = [Math.max(0, Math.round(from)), Math.min(change.length, Math.round(to))];
  const sums: number[] = [];
  let total = 0;
  for (let i = a; i < b; i++) {
    total += change[i] * change[i];
    sums.push(total);
  }
  if (!(total > 0)) return null;
  const at = parts.map((part) => {
    const k = sums.findIndex((sum) => sum >= part * total);
    const before = k > 0 ? sums[k - 1] : 0;
    return a + k - (sums[k] - part * total) / (sums[k] - before);
  });
  return at.reduce((sum, t) => sum + t, 0) / at.length;
}

/**
 * The rise of the jolt in the length of a shank's acceleration: where it begins, is steepest, and the trough before it.
 * @param bursts touchdown as the burst of change dates it: a swing brakes as steeply as a landing jolts, but more smoothly
 */
function shankJolts(
  frame: AccelerometerFrame,
  strides: AnchoredStride[],
  bursts: number[],
  rate_hz: number,
  usual_s: number,
  settings: AnalysisSettings,
): Estimate[][] {
  const { cutoff, shank: m, neighbours, settle } = settings.accelerometer;
  const low = (x: Float64Array, cycles: number): Float64Array => lowPass(x, cycles / usual_s, rate_hz);
  const norm = low(frame.norm, cutoff.middle);
  const rise = derivative(norm, rate_hz);
  const slowRise = derivative(low(frame.norm, cutoff.slow), rate_hz);
  const slowChange = derivative(slowRise, rate_hz);
  const near = (k: number, u: number): [number, number] => [
    bursts[k] - m.jolt_before * u,
    bursts[k] + m.jolt_after * u,
  ];
  const rough = strides.map(({ stride_s }, k) => argMax(rise, ...near(k, stride_s * rate_hz)));
  const expected = placesOfNeighbours(strides, rough, rate_hz, neighbours);
  return strides.map(({ stride_s }, k) => {
    const u = stride_s * rate_hz;
    const usual = expected[k];
    const [from, to] = near(k, u);
    const steepest =
      usual === null ? -1 : argMax(rise, Math.max(from, usual - settle * u), Math.min(to, usual + settle * u));
    if (steepest < 0) return [];
    const at = (name: string, x: Float64Array, i: number, { offset, sd }: { offset: number; sd: number }) =>
      i < 0 ? [] : [{ name, at: vertex(x, i) + offset * u, sd: sd * u }];
    const begin = argMax(slowChange, steepest - m.begin_before * u, steepest + m.begin_after * u);
    const slow = argMax(slowRise, steepest - m.slow_reach * u, steepest + m.slow_reach * u);
    return [
      ...at('jolt begins', slowChange, begin, m.begin),
      ...at('jolt rises, slow', slowRise, slow, m.slow_rise),
      ...at('jolt rises', rise, steepest, m.rise),
      ...at('trough before the jolt', norm, argMin(norm, steepest - m.begin_before * u, steepest + 1), m.trough),
    ];
  });
}

/** Where an instant should be by those around it: as long after the stride's anchor, in parts of a stride. */
function placesOfNeighbours(
  strides: AnchoredStride[],
  found: number[],
  rate_hz: number,
  neighbours: number,
): (number | null)[] {
  const share = strides.map(({ anchor, stride_s }, k) =>
    found[k] < 0 ? Number.NaN : (found[k] - anchor) / (stride_s * rate_hz),
  );
  return strides.map(({ anchor, stride_s }, k) => {
    const around = share.slice(Math.max(0, k - neighbours), k + neighbours + 1).filter(Number.isFinite);
    return around.length > 0 ? anchor + median(around) * stride_s * rate_hz : null;
  });
}

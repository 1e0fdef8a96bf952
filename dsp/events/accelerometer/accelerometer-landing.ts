import { burstMiddle } from '../../numeric/burst-middle.ts';
import { type Estimate, type Fused, fuse } from '../../numeric/fuse.ts';
import { median } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { jerkMagnitude } from '../../signals/jerk.ts';
import type { SensorSignals } from '../../signals/sensor-signals.ts';
import { type ImpactOnset, impactOnset, standout } from '../impact-onset.ts';
import type { AccelerometerContext, AccelerometerSegment } from './accelerometer-segment.ts';
import type { AnchoredStride } from './accelerometer-strides.ts';
import { placesOfNeighbours } from './places-of-neighbours.ts';

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
 * @param jerk jerk magnitude, low-passed to what landings carry (settings.accelerometer.cutoff.jolt)
 * @returns one entry a stride, null where no landing shows
 */
export function accelerometerLandings(
  signals: SensorSignals,
  segment: AccelerometerSegment,
  strides: AnchoredStride[],
  jerk: Float64Array,
  context: AccelerometerContext,
): (Dated | null)[] {
  const { rate_hz, settings } = context;
  const soft = softLandings(signals, segment, strides, jerk, context);
  const slow = soft.map(fuse).map((fused, k): Dated | null => fused && { ...fused, raw: soft[k][0].at });
  const dated = asNeighbours(strides, slow, rate_hz, settings);
  const onset = onsetFinder(signals, strides, settings);
  const { reach } = settings.accelerometer.onset;
  const first = dated.map((down, k) => (down ? onset(k, down.at - reach * strides[k].stride_s * rate_hz) : null));
  const sharp = first.map((found) => standout(found, rate_hz, settings));
  if (sharp.length === 0 || !(median(sharp) > settings.impact.sharp_at)) return dated;
  const quick = dated.map((down, k) => onsetDate(first[k], signals, settings) ?? down);
  // A burst before the landing's own is told by its neighbours: the onset is looked for again where they have it.
  const again = asNeighbours(strides, quick, rate_hz, settings).map((down, k) => {
    if (!down || down === quick[k]) return down;
    const stride = strides[k].stride_s * rate_hz;
    const { most_apart } = settings.accelerometer.from_neighbours;
    const found = onset(k, down.at - most_apart * stride, down.at + most_apart * stride);
    return (found && Math.abs(found.at - down.at) < most_apart * stride && onsetDate(found, signals, settings)) || down;
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
  const jerk = jerkMagnitude(signals, settings.impact.cutoff_hz);
  const { reach } = settings.accelerometer.onset;
  return (k, from, to = from + 2 * reach * strides[k].stride_s * signals.rate_hz) =>
    impactOnset(jerk, from - settings.impact.before_s * signals.rate_hz, from, to);
}

/**
 * Touchdowns far from where the strides around have theirs after the anchor, and less regular in time than those would be,
 * are misread: the neighbours' place stands instead, less certain.
 */
function asNeighbours(
  strides: AnchoredStride[],
  landed: (Dated | null)[],
  rate_hz: number,
  settings: AnalysisSettings,
): (Dated | null)[] {
  const { neighbours, from_neighbours: m, stride_tolerance } = settings.accelerometer;
  const found = landed.map((down) => down?.at ?? -1);
  const expected = placesOfNeighbours(strides, found, rate_hz, neighbours);
  return landed.map((down, k) => {
    const place = expected[k];
    const stride = strides[k].stride_s * rate_hz;
    if (!down || place === null || Math.abs(down.at - place) <= m.most_apart * stride) return down;
    const [before, after] = [landed[k - 1]?.at ?? Number.NaN, landed[k + 1]?.at ?? Number.NaN];
    const between =
      Math.abs(after - before - 2 * stride) < stride_tolerance * 2 * stride ? (before + after) / 2 : Number.NaN;
    const misread = Math.abs(down.at - between) > Math.abs(place - between) + m.margin * stride;
    if (misread) return { ...down, at: place, u: m.sd * stride, sharp: false };
    if (Number.isNaN(between) && Math.abs(down.at - place) > m.far * stride)
      return { ...down, at: place, u: m.far_sd * stride, sharp: false };
    return Number.isNaN(between) ? { ...down, u: Math.max(down.u, Math.abs(down.at - place) / 2) } : down;
  });
}

function softLandings(
  signals: SensorSignals,
  segment: AccelerometerSegment,
  strides: AnchoredStride[],
  landing_jerk: Float64Array,
  context: AccelerometerContext,
): Estimate[][] {
  const { rate_hz, usual_s, settings } = context;
  const { cutoff, burst: m } = settings.accelerometer;
  const centres = segment.burstCentres(landing_jerk, strides, context);
  const jerk = jerkMagnitude(signals, cutoff.sharp / usual_s);
  const parts = m.parts[signals.mounting];
  const { offset, sd } = m.middle[signals.mounting];
  const bursts = strides.map(({ stride_s }, k) => {
    const stride = stride_s * rate_hz;
    const middle = burstMiddle(jerk, centres[k] - m.reach * stride, centres[k] + m.reach * stride, parts);
    return middle === null
      ? null
      : { name: 'burst of the landing', at: middle + offset * stride, sd: Math.hypot(sd * stride, m.intervals) };
  });
  const dated = bursts.map((burst) => burst?.at ?? Number.NaN);
  const jolts = segment.jolts(dated, strides, context);
  return bursts.map((burst, k) => (burst ? [...jolts[k], burst] : jolts[k]));
}

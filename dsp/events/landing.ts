import { median } from '../numeric/statistics.ts';
import type { AnalysisSettings } from '../settings.ts';
import type { FootFeatures } from './foot-features.ts';
import { type ImpactOnset, impactOnset } from './impact-onset.ts';
import { type RiseCandidates, risesBeforePeaks, steepRises } from './impact-rise.ts';
import type { ShankFeatures } from './shank-features.ts';
import type { StrideFrame } from './stride-frame.ts';

/** What the acceleration shows of one landing; fractional indices of the frame. */
export interface Landing {
  /** First motion of the impact. */
  onset: ImpactOnset | null;
  /** Steepest rise of the slow vertical acceleration. */
  rise: number | null;
  /** 0 to 1: how far the onset alone is to be believed. */
  sharp: number;
}

/** One stride that a landing is looked for in. */
export interface LandingStride {
  frame: StrideFrame;
  features: FootFeatures | ShankFeatures;
}

/**
 * Landings of one sensor's strides. Sensor, strap and ground decide whether impacts come through sharply, so that is decided
 * once for the recording. Sharp impacts are dated by their onset, found in all of the time that touchdown may lie in. Soft
 * ones show as a rise of the slow vertical acceleration; where a stride has two (heel, forefoot), the one that
 * its neighbours have is taken.
 * @param jerk length of the change of acceleration over the whole recording
 */
export function landings(strides: LandingStride[], jerk: Float64Array, settings: AnalysisSettings): Landing[] {
  const sharp = strides.map(({ frame, features }) =>
    onsetIn(jerk, frame, features.landing_from, features.landing_to, settings),
  );
  const believed = sharp.map((onset, k) => sharpness(onset, strides[k].frame.rate_hz, settings));
  const usual = steady(sharp, strides, settings.impact.steady_s) ? median(believed) : 0;
  const candidates = strides.map((stride, k) =>
    usual > 0.5 && sharp[k] ? risesAt(stride, sharp[k], settings) : risesIn(stride, settings),
  );
  const picked = settle(strides, candidates, settings.impact.neighbours);
  return strides.map(({ frame }, k) => {
    const rise = picked[k];
    if (usual > 0.5 && sharp[k]) return { onset: sharp[k], rise, sharp: usual };
    const { search_s, after_s } = settings.impact;
    const { rate_hz } = frame;
    const onset =
      rise === null ? null : onsetIn(jerk, frame, rise - search_s * rate_hz, rise + after_s * rate_hz, settings);
    return { onset, rise, sharp: usual > 0.5 ? 0 : usual * believed[k] };
  });
}

/**
 * How sharp an impact stands out, 0 to 1: contrast over the swing before it, per rise time. A stiff strap and enough
 * bandwidth show the first millisecond of contact; a soft one, or a low rate, smears it.
 */
export function sharpness(onset: ImpactOnset | null, rate_hz: number, settings: AnalysisSettings): number {
  if (!onset) return 0;
  const { sharp_from, sharp_to, rise_s } = settings.impact;
  const value = onset.contrast / Math.max(1, onset.rise / rate_hz / rise_s);
  return Math.min(1, Math.max(0, (value - sharp_from) / (sharp_to - sharp_from)));
}

/** Onsets of real landings come as long after the leg's turn as in the stride before; chance ones do not. */
function steady(onsets: (ImpactOnset | null)[], strides: LandingStride[], limit_s: number): boolean {
  const delays = onsets
    .map((onset, k) => (onset ? (onset.at - strides[k].features.turn) / strides[k].frame.rate_hz : Number.NaN))
    .filter(Number.isFinite);
  const changes = delays.slice(1).map((delay, k) => Math.abs(delay - delays[k]));
  return delays.length > 0 && (changes.length === 0 || median(changes) <= limit_s);
}

function onsetIn(
  jerk: Float64Array,
  { first, rate_hz }: StrideFrame,
  from: number,
  to: number,
  settings: AnalysisSettings,
): ImpactOnset | null {
  const onset = impactOnset(jerk, first + from - settings.impact.before_s * rate_hz, first + from, first + to);
  return onset && { ...onset, at: onset.at - first };
}

function risesAt({ frame }: LandingStride, onset: ImpactOnset, settings: AnalysisSettings): RiseCandidates | null {
  const { search_s, after_s, rise_part } = settings.impact;
  const { up, rate_hz } = frame;
  return steepRises(up, rate_hz, onset.at - search_s * rate_hz, onset.at + after_s * rate_hz, rise_part);
}

function risesIn({ frame, features }: LandingStride, settings: AnalysisSettings): RiseCandidates | null {
  const { up, rate_hz, stride_s } = frame;
  const { soft_from, soft_to, mounting } = features;
  const part = settings.impact.rise_part;
  if (mounting === 'foot') return steepRises(up, rate_hz, soft_from, soft_to, part);
  const reach = settings.shank_windows.rise_before_peak * stride_s * rate_hz;
  return risesBeforePeaks(up, rate_hz, soft_from, soft_to, part, reach);
}

/**
 * For every stride the candidate that comes as long after the leg's turn as in the strides around it. That delay is the one
 * which most of the strides have a candidate at, the likeliest of each counting twice.
 */
function settle(
  strides: LandingStride[],
  candidates: (RiseCandidates | null)[],
  neighbours: number,
): (number | null)[] {
  const delays = candidates.map((c, k) => {
    const { features, frame } = strides[k];
    return c ? c.at.map((at) => (at - features.turn) / (frame.stride_s * frame.rate_hz)) : [];
  });
  const votes = candidates.map((c, k) => delays[k].map((_, j) => (c && j === c.likely ? 2 : 1)));
  return candidates
    .map((c, k) => {
      if (!c) return null;
      const around = range(Math.max(0, k - neighbours), Math.min(candidates.length, k + neighbours + 1));
      const support = (delay: number): number =>
        around.reduce((sum, i) => {
          const agrees = delays[i].map((d, j) => votes[i][j] * Math.exp(-0.5 * ((d - delay) / DELAY_SD) ** 2));
          return sum + Math.max(0, ...agrees);
        }, 0);
      const usual = around.flatMap((i) => delays[i]).reduce((p, q) => (support(q) > support(p) ? q : p));
      const distance = (j: number): number => Math.abs(delays[k][j] - usual);
      return c.at.reduce((bestIndex, _, j) => (distance(j) < distance(bestIndex) ? j : bestIndex), 0);
    })
    .map((j, k) => (j === null ? null : candidates[k]!.at[j]));
}

/** Spread of a landing's delay from stride to stride, in strides: 7 ms of a jog. */
const DELAY_SD = 0.01;

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from }, (_, i) => from + i);
}

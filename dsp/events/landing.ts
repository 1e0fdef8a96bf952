import { median } from '../numeric/statistics.ts';
import type { AnalysisSettings } from '../settings.ts';
import type { FootFeatures } from './foot-features.ts';
import { type ImpactOnset, impactOnset } from './impact-onset.ts';
import { argMax } from './peaks.ts';
import { risesBeforePeaks, steepRises } from './impact-rise.ts';
import { type Candidates, settle } from './settle.ts';
import type { ShankFeatures } from './shank-features.ts';
import { joltRise } from './shank-jolt.ts';
import type { StrideFrame } from './stride-frame.ts';

/** What the acceleration shows of one landing; fractional indices of the frame. */
export interface Landing {
  /** First motion of the impact. */
  onset: ImpactOnset | null;
  /** Steepest rise of the slow vertical acceleration. */
  rise: number | null;
  /** 0 to 1: how far the onset alone is to be believed. */
  sharp: number;
  /** The rise is not this stride's own but where the strides around have it, since its own lies elsewhere. */
  borrowed: boolean;
}

/** One stride that a landing is looked for in. */
export interface LandingStride {
  frame: StrideFrame;
  features: FootFeatures | ShankFeatures;
}

/**
 * Landings of one sensor's strides. Sensor, strap and ground decide whether impacts come through sharply, so that is decided
 * once for the recording: by how much of the change of acceleration lies above what a soft one carries. Sharp impacts are dated by their onset, found in all of the time that touchdown may lie in. Soft
 * ones show as a rise of the slow vertical acceleration; where a stride has two (heel, forefoot), the one that
 * its neighbours have is taken.
 * @param jerk length of the change of acceleration over the whole recording
 * @param soft_jerk the same, low-passed to what a smeared impact carries
 */
export function landings(
  strides: LandingStride[],
  jerk: Float64Array,
  soft_jerk: Float64Array,
  settings: AnalysisSettings,
): Landing[] {
  const { sharp_at, neighbours, onset_loyalty, steady_s, search_s, after_s } = settings.impact;
  const onsets = strides.map(({ frame, features }) => distinctOnsets(jerk, frame, features, settings));
  const chosen = settle(
    strides,
    onsets.map((list) => (list.length > 0 ? { at: list.map(({ at }) => at), likely: 0 } : null)),
    neighbours,
    onset_loyalty,
  );
  const sharp = onsets.map((list, k) => (chosen[k] === null ? null : list[chosen[k]]));
  const usual = steady(sharp, strides, steady_s)
    ? Math.max(sharpness(strides, jerk, soft_jerk, settings), suddenness(strides, sharp, jerk, settings))
    : 0;
  const rises = strides.map((stride, k) =>
    usual > sharp_at && sharp[k] ? risesAt(stride, sharp[k], settings) : risesIn(stride, soft_jerk, settings),
  );
  const picked = settle(strides, rises, neighbours, 0);
  const delays = strides.map(({ frame, features: { turn } }, k) =>
    picked[k] === null ? Number.NaN : (rises[k]!.at[picked[k]] - turn) / (frame.stride_s * frame.rate_hz),
  );
  return strides.map(({ frame, features }, k) => {
    const own = picked[k] === null ? null : rises[k]!.at[picked[k]];
    if (usual > sharp_at && sharp[k]) return { onset: sharp[k], rise: own, sharp: usual, borrowed: false };
    const { rate_hz } = frame;
    const rise = features.mounting === 'shank' ? (usualRise(delays, strides, k, settings) ?? own) : own;
    const near =
      rise === null ? null : onsetIn(jerk, frame, rise - search_s * rate_hz, rise + after_s * rate_hz, settings);
    return { onset: near, rise, sharp: 0, borrowed: rise !== own };
  });
}

/** Where the strides around have their rise, when this stride's own lies far from there; null when it does not. */
function usualRise(
  delays: number[],
  strides: readonly LandingStride[],
  k: number,
  { impact: { neighbours, most_apart } }: AnalysisSettings,
): number | null {
  const around = delays.slice(Math.max(0, k - neighbours), k + neighbours + 1).filter(Number.isFinite);
  if (around.length < neighbours) return null;
  const usual = median(around);
  const { frame, features } = strides[k];
  if (!(Math.abs(delays[k] - usual) > most_apart)) return null;
  return features.turn + usual * frame.stride_s * frame.rate_hz;
}

/** Onsets in all of the time that touchdown may lie in, the earliest first: of the first burst, and of stronger ones. */
function distinctOnsets(
  jerk: Float64Array,
  frame: StrideFrame,
  { landing_from, landing_to }: FootFeatures | ShankFeatures,
  settings: AnalysisSettings,
): ImpactOnset[] {
  const found: ImpactOnset[] = [];
  for (const part of settings.impact.burst_parts) {
    const onset = onsetIn(jerk, frame, landing_from, landing_to, settings, part);
    if (onset && found.every(({ at }) => Math.abs(at - onset.at) > 1)) found.push(onset);
  }
  return found;
}

/**
 * How sharply a recording shows impacts, 0 to 1, from the largest change of acceleration in each landing over the
 * largest that is left below a frequency that a smeared one does not exceed. A stiff strap and enough bandwidth show the first milliseconds of contact; a soft
 * strap, a filter or a low rate smears them.
 */
export function sharpness(
  strides: readonly LandingStride[],
  jerk: Float64Array,
  soft_jerk: Float64Array,
  settings: AnalysisSettings,
): number {
  const { sharp_from, sharp_to } = settings.impact;
  const ratios = strides.map(({ frame: { first }, features: { landing_from, landing_to } }) => {
    const [from, to] = [first + landing_from, first + landing_to];
    const [all, soft] = [argMax(jerk, from, to), argMax(soft_jerk, from, to)];
    return all < 0 || soft < 0 ? Number.NaN : jerk[all] / soft_jerk[soft];
  });
  const known = ratios.filter(Number.isFinite);
  if (known.length === 0) return 0;
  return Math.min(1, Math.max(0, (median(known) - sharp_from) / (sharp_to - sharp_from)));
}

/**
 * How suddenly landings begin, 0 to 1: the greatest change of acceleration just after the onset over the greatest just before
 * it. It tells a sharp landing whose burst also holds slow parts, which `sharpness` takes for a smeared one.
 */
function suddenness(
  strides: readonly LandingStride[],
  onsets: readonly (ImpactOnset | null)[],
  jerk: Float64Array,
  settings: AnalysisSettings,
): number {
  const { sudden_strides, sudden_from, sudden_to } = settings.impact;
  const ratios = strides.map(({ frame: { first, rate_hz, stride_s } }, k) => {
    const onset = onsets[k];
    if (!onset) return Number.NaN;
    const at = first + Math.floor(onset.at);
    const width = Math.max(1, Math.round(sudden_strides * stride_s * rate_hz));
    const [before, after] = [argMax(jerk, at - 2 * width, at), argMax(jerk, at + 1, at + width + 1)];
    return before < 0 || after < 0 ? Number.NaN : jerk[after] / jerk[before];
  });
  const known = ratios.filter(Number.isFinite);
  if (known.length === 0) return 0;
  return Math.min(1, Math.max(0, (median(known) - sudden_from) / (sudden_to - sudden_from)));
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
  part?: number,
): ImpactOnset | null {
  const onset = impactOnset(jerk, first + from - settings.impact.before_s * rate_hz, first + from, first + to, part);
  return onset && { ...onset, at: onset.at - first };
}

function risesAt({ frame }: LandingStride, onset: ImpactOnset, settings: AnalysisSettings): Candidates | null {
  const { search_s, after_s, rise_part } = settings.impact;
  const { up, rate_hz } = frame;
  return steepRises(
    up,
    rate_hz,
    onset.at - search_s * rate_hz,
    onset.at + after_s * rate_hz,
    rise_part,
    settings.impact.first_rise_part,
  );
}

function risesIn(
  { frame, features }: LandingStride,
  soft_jerk: Float64Array,
  settings: AnalysisSettings,
): Candidates | null {
  const { up, rate_hz, stride_s } = frame;
  const { soft_from, soft_to } = features;
  const part = settings.impact.rise_part;
  if (features.mounting === 'foot')
    return steepRises(up, rate_hz, soft_from, soft_to, part, settings.impact.first_rise_part);
  const reach = settings.shank_windows.rise_before_peak * stride_s * rate_hz;
  const rises = risesBeforePeaks(up, rate_hz, soft_from, soft_to, part, settings.impact.first_peak_part, reach);
  const jolt = rises && joltRise(frame, features, soft_jerk, settings);
  if (!rises || jolt === null) return rises;
  const distance = (k: number): number => Math.abs(rises.at[k] - jolt);
  return { at: rises.at, likely: rises.at.reduce((near, _, k) => (distance(k) < distance(near) ? k : near), 0) };
}

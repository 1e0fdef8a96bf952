import type { LandingStride } from './landing-stride.ts';
import { median } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { changeOfAcceleration } from '../../signals/change-of-acceleration.ts';
import { type ImpactOnset, impactOnset } from '../impact-onset.ts';
import { risesBeforePeaks, steepRises } from './impact-rise.ts';
import { type Candidates, settle } from './settle.ts';
import type { SensorSignals } from '../../signals/sensor-signals.ts';
import { type SharpOnset, sharpLandings } from './sharp-landing.ts';
import { joltRise } from './shank-jolt.ts';
import type { StrideFrame } from '../stride-frame.ts';

/** What the acceleration shows of one landing; fractional indices of the frame. */
export interface Landing {
  /** Where a sharp impact begins. */
  sudden: SharpOnset | null;
  /** 0 to 1: how far that is to be believed; 1: alone. */
  sharp: number;
  /** Steepest rise of the slow vertical acceleration, of a soft landing. */
  rise: number | null;
  /** First motion of the impact near that rise. */
  onset: ImpactOnset | null;
  /** The rise is not this stride's own but where the strides around have it, since its own lies elsewhere. */
  borrowed: boolean;
}

/**
 * Landings of one sensor's strides. Sensor, strap and ground decide whether impacts come through sharply, so that is decided
 * once for the recording (`sharpLandings`). Sharp impacts are dated by their onset, found in all of the time that touchdown may
 * lie in. Soft ones show as a rise of the slow vertical acceleration; where a stride has two (heel, forefoot), the one that
 * its neighbours have is taken.
 */
export function landings(strides: LandingStride[], signals: SensorSignals, settings: AnalysisSettings): Landing[] {
  const { onsets, sharp } = sharpLandings(strides, signals, settings);
  const sure = sharp === 1 && onsets.every((onset) => onset !== null);
  const soft = sure ? strides.map(() => NOTHING_SOFT) : softLandings(strides, signals, settings);
  return soft.map((landing, k) => ({ ...landing, sudden: onsets[k], sharp: onsets[k] ? sharp : 0 }));
}

/** Where sharp onsets are believed alone, nobody asks for more. */
const NOTHING_SOFT = { rise: null, onset: null, borrowed: false };

/** Rises of the slow vertical acceleration, and the onsets near them. */
function softLandings(
  strides: LandingStride[],
  signals: SensorSignals,
  settings: AnalysisSettings,
): Pick<Landing, 'rise' | 'onset' | 'borrowed'>[] {
  const { neighbours, search_s, after_s, cutoff_hz, soft_cutoff_per_stride } = settings.impact;
  const jerk = changeOfAcceleration(signals, cutoff_hz);
  const soft_cutoff_hz = soft_cutoff_per_stride / median(strides.map(({ frame }) => frame.stride_s));
  const soft_jerk = changeOfAcceleration(signals, soft_cutoff_hz);
  const rises = strides.map((stride) => risesIn(stride, soft_jerk, settings));
  const picked = settle(strides, rises, neighbours);
  const delays = strides.map(({ frame, features: { turn } }, k) =>
    picked[k] === null ? Number.NaN : (rises[k]!.at[picked[k]] - turn) / (frame.stride_s * frame.rate_hz),
  );
  return strides.map(({ frame, features }, k) => {
    const own = picked[k] === null ? null : rises[k]!.at[picked[k]];
    const { rate_hz } = frame;
    const rise = features.mounting === 'shank' ? (usualRise(delays, strides, k, settings) ?? own) : own;
    const onset =
      rise === null ? null : onsetIn(jerk, frame, rise - search_s * rate_hz, rise + after_s * rate_hz, settings);
    return { rise, onset, borrowed: rise !== own };
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

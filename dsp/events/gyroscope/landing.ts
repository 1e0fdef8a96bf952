import { median } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { jerkMagnitude } from '../../signals/jerk.ts';
import { type ImpactOnset, impactOnset } from '../impact-onset.ts';
import { byDelayOfNeighbours } from './delay-of-neighbours.ts';
import type { Landing, SegmentStride } from './segment.ts';
import type { LandingStride } from './segment-features.ts';
import { SEGMENTS } from './segments.ts';
import type { SensorSignals } from '../../signals/sensor-signals.ts';
import { sharpLandings } from './sharp-landing.ts';
import type { StrideFrame } from '../stride-frame.ts';

/**
 * Landings of one sensor's strides. Sensor, strap and ground decide whether impacts come through sharply, so that is decided
 * once for the recording (`sharpLandings`). Sharp impacts are dated by their onset, found in all of the time that touchdown may
 * lie in. Soft ones show as a rise of the slow vertical acceleration; where a stride has two (heel, forefoot), the one that
 * its neighbours have is taken.
 */
export function landings(strides: SegmentStride[], signals: SensorSignals, settings: AnalysisSettings): Landing[] {
  const { onsets, sharp } = sharpLandings(strides, signals, settings);
  const sure = sharp === 1 && onsets.every((onset) => onset !== null);
  const soft = sure ? strides.map(() => NOTHING_SOFT) : softLandings(strides, signals, settings);
  return soft.map((landing, k) => ({ ...landing, sudden: onsets[k], sharp: onsets[k] ? sharp : 0 }));
}

/** Where sharp onsets are believed alone, nobody asks for more. */
const NOTHING_SOFT = { rise: null, onset: null, from_neighbours: false };

/** Rises of the slow vertical acceleration, and the onsets near them. */
function softLandings(
  strides: SegmentStride[],
  signals: SensorSignals,
  settings: AnalysisSettings,
): Pick<Landing, 'rise' | 'onset' | 'from_neighbours'>[] {
  const { neighbours, search_s, after_s, cutoff_hz, soft_cutoff_per_stride } = settings.impact;
  const jerk = jerkMagnitude(signals, cutoff_hz);
  const soft_cutoff_hz = soft_cutoff_per_stride / median(strides.map(({ frame }) => frame.stride_s));
  const soft_jerk = jerkMagnitude(signals, soft_cutoff_hz);
  const rises = strides.map((stride) => stride.rises(soft_jerk));
  const picked = byDelayOfNeighbours(strides, rises, neighbours);
  const delays = strides.map(({ frame, features: { turn } }, k) =>
    picked[k] === null ? Number.NaN : (rises[k]!.at[picked[k]] - turn) / (frame.stride_s * frame.rate_hz),
  );
  const { rise_follows_neighbours } = SEGMENTS[signals.mounting];
  return strides.map(({ frame }, k) => {
    const own = picked[k] === null ? null : rises[k]!.at[picked[k]];
    const { rate_hz } = frame;
    const rise = rise_follows_neighbours ? (usualRise(delays, strides, k, settings) ?? own) : own;
    const onset =
      rise === null ? null : onsetIn(jerk, frame, rise - search_s * rate_hz, rise + after_s * rate_hz, settings);
    return { rise, onset, from_neighbours: rise !== own };
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

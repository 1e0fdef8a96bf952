import type { AxisColumns } from '../../../shared/sample-block.ts';
import { ramp } from '../../numeric/ramp.ts';
import { median } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { jerkAndSnap, passesAll } from '../../signals/jerk.ts';
import { bridgeClipped } from '../../signals/clipped-runs.ts';
import type { LandingStride } from './segment-features.ts';
import type { SensorSignals } from '../../signals/sensor-signals.ts';
import { type SuddenOnset, suddenOnsets } from './sudden-onset.ts';

/** Power of the score that goes as its likelihood: of two candidates, one of half the score is right once in nine. */
const LIKELIHOOD = 3;

/** The likeliest onset of a landing. */
export interface SharpOnset extends SuddenOnset {
  /** Standard uncertainty by what may have smeared it or may be the landing instead, samples. */
  doubt_sd: number;
}

/** Sharp landings of a sensor's strides. */
export interface SharpLandings {
  /** One a stride, fractional index of its frame; null where nothing jumps. */
  onsets: (SharpOnset | null)[];
  /** 0 to 1: how far onsets alone are to be believed in this recording. */
  sharp: number;
}

/**
 * Onset of the impact of every stride, and whether this recording shows impacts sharply at all, by how much the snap (second derivative
 * of acceleration) jumps at the onsets (median over the strides). A stiff strap and enough bandwidth show the first milliseconds of contact; a
 * soft strap, a filter or a low rate smears them. Noise and uneven stamps hide jumps at the full bandwidth: lower low-passes are tried until
 * jumps are sharp, and the one that shows the greatest is used.
 */
export function sharpLandings(
  strides: readonly LandingStride[],
  signals: SensorSignals,
  settings: AnalysisSettings,
): SharpLandings {
  const acc = bridgeClipped(signals.acc_mps2, signals.acc_clipped);
  const { jump_cutoffs_hz, jump_from, jump_to, steady_s } = settings.impact;
  let best: SharpLandings = { onsets: strides.map(() => null), sharp: 0 };
  let most = 0;
  for (const cutoff_hz of jump_cutoffs_hz) {
    const onsets = onsetsAt(cutoff_hz, strides, acc, signals, settings);
    const jumps = onsets.flatMap((onset) => (onset ? [onset.jump] : []));
    const usual = jumps.length > 0 ? median(jumps) : 0;
    if (usual <= most || !steady(onsets, strides, steady_s)) continue;
    most = usual;
    best = {
      onsets: onsets.map((onset) => onset && unsmeared(onset, usual, settings)),
      sharp: ramp(usual, jump_from, jump_to),
    };
    if (best.sharp === 1) break;
  }
  return best;
}

function onsetsAt(
  cutoff_hz: number,
  strides: readonly LandingStride[],
  acc: AxisColumns,
  signals: SensorSignals,
  settings: AnalysisSettings,
): (SharpOnset | null)[] {
  const { rate_hz } = signals;
  const { jump_strides, jump_cutoffs_hz, lead_periods, early_intervals } = settings.impact;
  const derivatives = jerkAndSnap(acc, rate_hz, cutoff_hz);
  const lead = lead_periods * (rate_hz / cutoff_hz - rate_hz / jump_cutoffs_hz[0]);
  const shift = passesAll(cutoff_hz, rate_hz) ? early_intervals : lead;
  return strides.map(({ frame: { first, stride_s }, features: { landing_from, landing_to } }) => {
    const found = suddenOnsets(
      derivatives,
      first + landing_from,
      first + landing_to,
      jump_strides * stride_s * rate_hz,
    );
    if (found.length === 0) return null;
    const likeliest = found.reduce((a, b) => (b.score > a.score ? b : a));
    return { ...likeliest, at: likeliest.at - first + shift, doubt_sd: spreadOf(found, likeliest) };
  });
}

/** Root mean square distance of all that may be the landing from the likeliest, each as probable as its score says. */
function spreadOf(found: readonly SuddenOnset[], likeliest: SuddenOnset): number {
  let [sum, total] = [0, 0];
  for (const { at, score } of found) {
    const weight = (score / likeliest.score) ** LIKELIHOOD;
    sum += weight * (at - likeliest.at) ** 2;
    total += weight;
  }
  return Math.sqrt(sum / total);
}

/**
 * A jump that is not great may be a great one smeared by a filter that looks ahead (zero-phase, as of marker data): its first motion then
 * shows before the touchdown, the more the slower the rise. It may as well be a soft strap, which does not look ahead: the correction is
 * for the middle of the two and its uncertainty reaches both.
 */
function unsmeared(onset: SharpOnset, usual_jump: number, { impact }: AnalysisSettings): SharpOnset {
  const { jump_to, jump_clear, smear_part, smear_sd_part } = impact;
  const smeared = ramp(Math.log(usual_jump), Math.log(jump_clear), Math.log(jump_to));
  return {
    ...onset,
    at: onset.at + smear_part * smeared * onset.rise,
    doubt_sd: Math.hypot(onset.doubt_sd, smear_sd_part * smeared * onset.rise),
  };
}

/** Onsets of real landings come as long after the leg's turn as in the stride before; chance ones do not. */
function steady(onsets: readonly (SharpOnset | null)[], strides: readonly LandingStride[], limit_s: number): boolean {
  const delays = onsets
    .map((onset, k) => (onset ? (onset.at - strides[k].features.turn) / strides[k].frame.rate_hz : Number.NaN))
    .filter(Number.isFinite);
  const changes = delays.slice(1).map((delay, k) => Math.abs(delay - delays[k]));
  return delays.length > 0 && (changes.length === 0 || median(changes) <= limit_s);
}

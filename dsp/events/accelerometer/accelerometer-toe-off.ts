import { derivative } from '../../filters/index.ts';
import { mean, standardDeviation } from '../../numeric/statistics.ts';
import type { Mounting } from '../../../shared/words.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { AccelerometerFrame } from './accelerometer-frame.ts';
import type { Dated } from './accelerometer-landing.ts';
import { type Candidate, steadyPath } from './accelerometer-path.ts';
import type { AnchoredStride } from './accelerometer-strides.ts';
import { type Estimate, fuse } from '../../numeric/fuse.ts';
import { argMax, localMaxima, localMinima, vertex } from '../../numeric/peaks.ts';
import { lowPass } from '../../signals/sensor-signals.ts';

/** Columns of a whole recording that push-offs show in, low-passed in cycles a stride. */
interface Columns {
  rate_hz: number;
  /** Fall of the lengthwise acceleration, m/s3, and the same less smoothed. */
  fall: Float64Array;
  quickFall: Float64Array;
  along: Float64Array;
  /** Across the segment, m/s2. */
  mid: Float64Array;
  /** How fast the acceleration across falls, and more smoothed, how fast it rises, m/s3. */
  acrossFall: Float64Array;
  acrossRise: Float64Array;
}

/**
 * Toe-off of every stride without a gyroscope.
 * Foot: the lengthwise push ends while the backward pull lets go. Shank: the ankle is pulled back until the push ends, lashes forward, and is pulled back again by the
 * folding knee: the trough before toe-off and the steepest fall after it.
 * Several places in a stride may look like that; which it is, the strides around say (`steadyPath`).
 * @param landed touchdowns, sample indices
 * @returns one entry a stride, null where no toe-off shows clearly
 */
export function accelerometerToeOffs(
  frame: AccelerometerFrame,
  mounting: Mounting,
  strides: AnchoredStride[],
  landed: (Dated | null)[],
  rate_hz: number,
  usual_s: number,
  settings: AnalysisSettings,
): (Dated | null)[] {
  const s = settings.accelerometer;
  const columns = columnsOf(frame, rate_hz, usual_s, settings);
  const find = mounting === 'foot' ? footCandidates : shankCandidates;
  const candidates = strides.map(({ stride_s }, k) => {
    const down = landed[k];
    return down ? find(columns, down.at, stride_s * rate_hz, settings) : [];
  });
  return steadyPath(candidates, s.path).map((chosen, k) => {
    const down = landed[k];
    if (!chosen || !down || chosen.margin < s.path.least_margin) return null;
    const u = strides[k].stride_s * rate_hz;
    // Braking to a walk, the knee does not fold as in running: the last contact before a pause says nothing of its toe-off.
    const pause = !(strides[k + 1]?.anchor - strides[k].anchor <= s.toe_off.pause * u);
    if (mounting === 'shank' && pause) return null;
    const estimates = (mounting === 'foot' ? footEstimates : shankEstimates)(
      columns,
      chosen.candidate.at,
      down.at,
      u,
      settings,
    );
    const fused = fuse(estimates);
    // Offsets were measured on longer strides; how push-off looks in sprints differs more between runners than their shares say.
    const { measured_stride_s, beyond_sd_s } = s.toe_off;
    const beyond = beyond_sd_s * Math.max(0, measured_stride_s / strides[k].stride_s - 1) * rate_hz;
    return fused && { ...fused, u: Math.hypot(fused.u, beyond), raw: estimates[0].at };
  });
}

function columnsOf(frame: AccelerometerFrame, rate_hz: number, usual_s: number, settings: AnalysisSettings): Columns {
  const { cutoff } = settings.accelerometer;
  const low = (x: Float64Array, cycles: number): Float64Array => lowPass(x, cycles / usual_s, rate_hz);
  const falling = (x: Float64Array): Float64Array => derivative(x, rate_hz).map((v) => -v);
  const along = low(frame.along, cutoff.middle);
  return {
    rate_hz,
    fall: falling(along),
    quickFall: falling(low(frame.along, cutoff.quick)),
    along,
    mid: low(frame.across, cutoff.mid),
    acrossFall: falling(low(frame.across, cutoff.middle)),
    acrossRise: derivative(low(frame.across, cutoff.slow), rate_hz),
  };
}

/**
 * Where the lengthwise push falls away, with how steeply it does and how far the pull across lets go about it. In fast steps
 * the fall may only be a slower rise, so every local maximum of it counts.
 * @param down touchdown, sample index
 * @param u samples a stride
 */
function footCandidates(c: Columns, down: number, u: number, settings: AnalysisSettings): Candidate[] {
  const { toe_off: w, foot: m } = settings.accelerometer;
  const length = spread(c.along, down, u, settings);
  const width = spread(c.mid, down, u, settings);
  return localMaxima(c.fall, down + w.foot.from * u, down + w.foot.to * u)
    .map((i) => {
      const share = (i - down) / u;
      const steepness = (c.fall[i] * u) / c.rate_hz / length.sd;
      const release = largestRise(c.mid, i - m.release_from * u, i + m.release_to * u, m.release_length * u) / width.sd;
      const looks = w.fall_weight.foot * steepness + w.pull_weight.foot * release;
      return { at: i, share, score: looks - unusual(share, u / c.rate_hz, 'foot', settings) };
    })
    .filter(({ score }) => Number.isFinite(score));
}

function footEstimates(c: Columns, chosen: number, _down: number, u: number, settings: AnalysisSettings): Estimate[] {
  const { foot: m } = settings.accelerometer;
  const quick = argMax(c.quickFall, chosen - m.quick_reach * u, chosen + m.quick_reach * u);
  const release = argMax(c.acrossRise, chosen - m.release_from * u, chosen + m.release_to * u);
  const at = (name: string, x: Float64Array, i: number, { offset, sd }: { offset: number; sd: number }) => ({
    name,
    at: vertex(x, i) + offset * u,
    sd: sd * u,
  });
  return [
    at('push ends', c.fall, chosen, m.toe_fall),
    at('push ends, quick', c.quickFall, quick, m.toe_fall_quick),
    at('pull lets go', c.acrossRise, release, m.pull_release),
  ];
}

/** Largest rise over `length` samples that begins in [from, to - length]. */
function largestRise(x: Float64Array, from: number, to: number, length: number): number {
  const step = Math.round(length);
  let largest = Number.NEGATIVE_INFINITY;
  for (let i = Math.max(0, Math.round(from)); i + step <= Math.min(x.length - 1, to); i++) {
    largest = Math.max(largest, x[i + step] - x[i]);
  }
  return largest;
}

/** Where the shank falls back after its lash forward, with how far it is pulled back shortly before and after toe-off. */
function shankCandidates(c: Columns, down: number, u: number, settings: AnalysisSettings): Candidate[] {
  const { toe_off: w, shank: m } = settings.accelerometer;
  const width = spread(c.mid, down, u, settings);
  return localMaxima(c.acrossFall, down + w.shank.from * u, down + w.shank.to * u)
    .map((i) => {
      const share = (i - down) / u;
      const contact = m.fold_fall.part * (i - down);
      const pulls = m.pulled_at.map((part) => (width.mean - valueAt(c.mid, down + part * contact)) / width.sd);
      const steepness = (c.acrossFall[i] * u) / c.rate_hz / width.sd;
      const looks = w.fall_weight.shank * steepness + w.pull_weight.shank * mean(pulls);
      return { at: i, share, score: looks - unusual(share, u / c.rate_hz, 'shank', settings) };
    })
    .filter(({ score }) => Number.isFinite(score));
}

function shankEstimates(c: Columns, chosen: number, down: number, u: number, settings: AnalysisSettings): Estimate[] {
  const { shank: m } = settings.accelerometer;
  const fall = down + m.fold_fall.part * (vertex(c.acrossFall, chosen) - down);
  const near = fall + m.pull_trough.place * u;
  const troughs = localMinima(c.mid, near - m.pull_trough.reach * u, near + m.pull_trough.reach * u);
  const estimates = [{ name: 'knee folds', at: fall, sd: m.fold_fall.sd * u }];
  if (troughs.length > 0) {
    const trough = troughs.reduce((a, b) => (Math.abs(b - near) < Math.abs(a - near) ? b : a));
    const at = down + m.pull_trough.part * (vertex(c.mid, trough) - down);
    estimates.push({ name: 'pull ends', at, sd: m.pull_trough.sd * u });
  }
  return estimates;
}

/** How unlikely a share of the stride is for the feature, in units of the score. */
function unusual(share: number, stride_s: number, mounting: Mounting, settings: AnalysisSettings): number {
  const { toe_off: w } = settings.accelerometer;
  const usual = w[mounting].usual + w[mounting].usual_per_s * (stride_s - w.usual_at_s);
  return w.share_weight[mounting] * (share - usual) ** 2;
}

/** Value at the nearest sample; NaN outside. */
function valueAt(x: Float64Array, index: number): number {
  return x[Math.round(index)] ?? Number.NaN;
}

/** Mean and standard deviation of a column from after the landing to late swing: what a stride's features are measured by. */
function spread(x: Float64Array, down: number, u: number, settings: AnalysisSettings): { mean: number; sd: number } {
  const { spread_from, spread_to } = settings.accelerometer.toe_off;
  const part = [
    ...x.subarray(Math.max(0, Math.round(down + spread_from * u)), Math.round(down + spread_to * u)),
  ].filter(Number.isFinite);
  return part.length > 2 ? { mean: mean(part), sd: standardDeviation(part) } : { mean: 0, sd: Number.NaN };
}

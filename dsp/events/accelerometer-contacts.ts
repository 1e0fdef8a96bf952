import { median } from '../numeric/statistics.ts';
import type { AnalysisSettings } from '../settings.ts';
import { type ContactEstimates, footEstimates, shankEstimates } from './accelerometer-features.ts';
import { accelerometerFrame, swingRatio } from './accelerometer-frame.ts';
import { type AnchoredStride, anchoredStrides, strideTimes, usualStrideTime } from './accelerometer-strides.ts';
import { changeOfAcceleration } from './change-of-acceleration.ts';
import type { FootContact } from './foot-contact.ts';
import { type Fused, fuse } from './fuse.ts';
import { type ImpactOnset, impactOnset, standout } from './impact-onset.ts';
import { anySet, anyUnset } from './masks.ts';
import { lowPass, type SensorSignals } from './sensor-signals.ts';

/**
 * Contacts of a sensor without a gyroscope. Strides are found by their likeness to each other; in each, landing and push-off
 * are seen in the acceleration along and across the segment. Sharp impacts are dated by their onset.
 * Limits: a shank's toe-off shows only roughly (settings.accelerometer.shank.half_fall), and its uncertainty says so.
 */
export function accelerometerContacts(signals: SensorSignals, settings: AnalysisSettings): FootContact[] {
  const { rate_hz, mounting } = signals;
  const { cutoff, least_swing } = settings.accelerometer;
  const frame = accelerometerFrame(signals, settings);
  if (!frame) return [];
  const repeating = mounting === 'foot' ? frame.across : frame.norm;
  const times = strideTimes(lowPass(repeating, 10, rate_hz), frame.active, rate_hz, settings);
  const usual_s = usualStrideTime(times, settings.accelerometer.longest_stride_s);
  if (Number.isNaN(usual_s)) return [];
  const jerk = changeOfAcceleration(signals, settings.impact.cutoff_hz);
  const strides =
    mounting === 'foot'
      ? anchoredStrides(frame.across, cutoff.anchor / usual_s, times, rate_hz, settings)
      : anchoredStrides(
          changeOfAcceleration(signals, cutoff.jolt / usual_s),
          cutoff.burst / usual_s,
          times,
          rate_hz,
          settings,
        );
  const swinging = strides.filter(({ anchor, stride_s }) => {
    const half = Math.round(0.6 * stride_s * rate_hz);
    return mounting !== 'foot' || swingRatio(frame, rate_hz, 10, anchor - half, anchor + half) >= least_swing;
  });
  const estimate = (mounting === 'foot' ? footEstimates : shankEstimates)(frame, rate_hz, usual_s, settings);
  const rough = swinging.map((stride) => fuse(estimate(stride, null).touchdown)?.at ?? Number.NaN);
  const expected = expectedLandings(swinging, rough, rate_hz, settings.accelerometer.neighbours);
  const estimates = swinging.map((stride, k) => estimate(stride, expected[k]));
  const onsets = impactOnsets(swinging, estimates, jerk, rate_hz, settings);
  const landed = estimates.map(({ touchdown }, k) => landing(touchdown, onsets[k], rate_hz, settings));
  const left = toeOffs(swinging, estimates, landed, rate_hz, settings);
  return swinging
    .map((stride, k) => contactOf(stride, landed[k], left[k], signals))
    .filter((contact) => contact !== null);
}

/** Standard deviation over median absolute deviation of a normal distribution. */
const NORMAL_SD = 1.4826;

/** An instant, fused and as its first feature shows it. */
interface Landed extends Fused {
  raw: number;
}

/** Where each touchdown should be by those around it: as long after the stride's anchor, in parts of a stride. */
function expectedLandings(
  strides: AnchoredStride[],
  landed: number[],
  rate_hz: number,
  neighbours: number,
): (number | null)[] {
  const share = strides.map(({ anchor, stride_s }, k) => (landed[k] - anchor) / (stride_s * rate_hz));
  return strides.map(({ anchor, stride_s }, k) => {
    const around = share.slice(Math.max(0, k - neighbours), k + neighbours + 1).filter(Number.isFinite);
    return around.length > 0 ? anchor + median(around) * stride_s * rate_hz : null;
  });
}

/** Onsets of impacts where the recording shows them sharply and steadily; null for all otherwise. */
function impactOnsets(
  strides: AnchoredStride[],
  estimates: ContactEstimates[],
  jerk: Float64Array,
  rate_hz: number,
  settings: AnalysisSettings,
): (ImpactOnset | null)[] {
  const found = strides.map(({ stride_s }, k) => {
    const rough = fuse(estimates[k].touchdown);
    if (!rough) return null;
    const u = stride_s * rate_hz;
    const from = rough.at - 0.07 * u;
    return impactOnset(jerk, from - settings.impact.before_s * rate_hz, from, rough.at + 0.07 * u);
  });
  const sharp = found.map((onset) => standout(onset, rate_hz, settings));
  return sharp.length > 0 && median(sharp) > 0.5 ? found : found.map(() => null);
}

function landing(
  slow: ContactEstimates['touchdown'],
  onset: ImpactOnset | null,
  rate_hz: number,
  settings: AnalysisSettings,
): Landed | null {
  const fused = fuse(slow);
  if (!fused) return null;
  if (!onset) return { ...fused, raw: slow[0].at };
  const sd = Math.hypot(0.0015 * rate_hz, settings.impact.onset_part * onset.rise, 0.3);
  return { at: onset.at, raw: onset.at, u: sd, disagreement: 0 };
}

/**
 * Toe-offs, as far as they agree with those around them: a push-off read from the wrong part of the swing comes now early,
 * now late. The scatter of the contact's share of the stride goes into the uncertainty; too much of it, and nothing is said.
 */
function toeOffs(
  strides: AnchoredStride[],
  estimates: ContactEstimates[],
  landed: (Landed | null)[],
  rate_hz: number,
  settings: AnalysisSettings,
): (Landed | null)[] {
  const { neighbours, most_scatter } = settings.accelerometer;
  const fused = estimates.map(({ toe_off }) => fuse(toe_off));
  const shares = strides.map(({ stride_s }, k) => {
    const [down, off] = [landed[k], fused[k]];
    return down && off ? (off.at - down.at) / (stride_s * rate_hz) : Number.NaN;
  });
  return fused.map((off, k) => {
    const around = shares.slice(Math.max(0, k - neighbours), k + neighbours + 1).filter(Number.isFinite);
    if (!off || !Number.isFinite(shares[k])) return null;
    const usual = median(around);
    const scatter = NORMAL_SD * median(around.map((share) => Math.abs(share - usual)));
    const apart = Math.abs(shares[k] - usual);
    if (scatter > most_scatter || apart > 2 * most_scatter) return null;
    const u = Math.hypot(off.u, Math.max(scatter, apart / 2) * strides[k].stride_s * rate_hz);
    return { ...off, u, raw: estimates[k].toe_off[0].at };
  });
}

function contactOf(
  { anchor, stride_s }: AnchoredStride,
  down: Landed | null,
  off: Landed | null,
  signals: SensorSignals,
): FootContact | null {
  if (!down || (off && off.at <= down.at)) return null;
  const { rate_hz, start_s, acc_clipped, measured } = signals;
  const time = (index: number): number => start_s + index / rate_hz;
  const end = off?.at ?? down.at + 0.35 * stride_s * rate_hz;
  const margin = 0.03 * rate_hz;
  const disagreement = Math.max(down.disagreement, off?.disagreement ?? 0);
  return {
    touchdown_s: time(down.at),
    toe_off_s: off ? time(off.at) : null,
    touchdown_raw_s: time(down.raw),
    toe_off_raw_s: off ? time(off.raw) : null,
    touchdown_s_u: down.u / rate_hz,
    toe_off_s_u: off ? off.u / rate_hz : null,
    contact_time_s_u: off ? Math.hypot(down.u, off.u) / rate_hz : null,
    mid_contact_s: time(down.at + 0.4 * (end - down.at)),
    confidence: 0.95 / (1 + 0.05 * disagreement ** 2),
    clipped: anySet(acc_clipped, Math.floor(Math.min(anchor, down.at) - margin), Math.ceil(end + margin)),
    lost: anyUnset(measured, Math.floor(down.at - margin), Math.ceil(end + margin)),
    swing_before_radps: null,
    swing_after_radps: null,
    stride_s,
    turn_rad: null,
    backward_s: null,
    reasons: off ? {} : { toe_off_s: 'the push-off does not show clearly in the acceleration' },
  };
}

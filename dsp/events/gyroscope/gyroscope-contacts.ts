import { because } from '../../../shared/reason.ts';
import { median } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { FootContact, FoundContact } from '../foot-contact.ts';
import { landings } from './landing.ts';
import type { Landing, SegmentStride } from './segment.ts';
import { SEGMENTS } from './segments.ts';
import { anySet, anyUnset, longestRun } from '../../numeric/masks.ts';
import { landingJerk } from '../../signals/jerk.ts';
import { lowPass, type SensorSignals } from '../../signals/sensor-signals.ts';
import { withoutStandingAtEnd } from './standing-at-end.ts';
import { type StrideFrame, strideFrame } from '../stride-frame.ts';
import { type SwingCycle, swingCycles } from '../swing-cycles.ts';
import { leverArm } from './toe-speed.ts';
import { touchdown } from './touchdown.ts';

/** One stride with its features, before instants are made of them. */
interface StrideFeatures extends SegmentStride {
  cycle: SwingCycle;
}

/** Contacts of a sensor with a gyroscope: at most one between each two neighbouring mid-swing instants. */
export function gyroscopeContacts(signals: SensorSignals, settings: AnalysisSettings): FoundContact[] {
  const strides = swingCycles(signals, settings)
    .map((cycle) => strideFeatures(signals, cycle, settings))
    .filter((stride) => stride !== null);
  const lever = leverOf(strides);
  if (strides.length === 0) return [];
  const landed = landings(strides, signals, settings);
  const usual_s = median(strides.map(({ frame }) => frame.stride_s));
  const jolts = landingJerk(signals, usual_s, settings);
  const found = strides
    .map((stride, k) => contactOf(stride, signals, lever, landed[k], jolts, settings))
    .filter((contact) => contact !== null);
  return withoutStandingAtEnd(found, signals, settings);
}

function strideFeatures(signals: SensorSignals, cycle: SwingCycle, settings: AnalysisSettings): StrideFeatures | null {
  const { cutoff_per_stride, slow_cutoff_per_stride, margin_s } = settings.features;
  const stride_s = (cycle.stride_to - cycle.stride_from) / signals.rate_hz;
  const frame = strideFrame(signals, cycle, cutoff_per_stride / stride_s, margin_s);
  if (!frame) return null;
  const rate = signals.sagittal_rate!.subarray(frame.first, frame.first + frame.rate.length);
  const slow = lowPass(rate, slow_cutoff_per_stride[signals.mounting] / stride_s, signals.rate_hz);
  const stride = SEGMENTS[signals.mounting].stride(frame, slow, settings);
  return stride && { ...stride, cycle };
}

/** The lever arm from the sensor to the toes: the median over all push-offs, as it belongs to the shoe. */
function leverOf(strides: StrideFeatures[]): [number, number] | null {
  const arms = strides.map(({ pushOff }) => (pushOff ? leverArm(pushOff) : null)).filter((arm) => arm !== null);
  return arms.length > 0 ? [median(arms.map((arm) => arm[0])), median(arms.map((arm) => arm[1]))] : null;
}

function contactOf(
  stride: StrideFeatures,
  signals: SensorSignals,
  lever: [number, number] | null,
  landing: Landing,
  jolts: Float64Array,
  settings: AnalysisSettings,
): FoundContact | null {
  const { cycle, frame, features } = stride;
  const { rate_hz } = frame;
  const down = touchdown(stride, landing, signals.mounting, settings);
  if (!down) return null;
  const off = stride.toeOff(down.fused.at, stride.toesLeave(lever));
  if (!off || off.fused.at <= down.fused.at) return null;
  const time = (index: number): number => signals.start_s + (frame.first + index) / rate_hz;
  const touched = frame.first + down.fused.at;
  const down_loss = Math.hypot(lossAt(signals, touched, settings), clippingBefore(signals, touched, settings));
  const off_loss = lossAt(signals, frame.first + off.fused.at, settings);
  const down_u = Math.hypot(down.fused.u, down_loss);
  const off_u = Math.hypot(off.fused.u, off_loss);
  const first = frame.first + Math.floor(down.fused.at - settings.features.about_s * rate_hz);
  const last = frame.first + Math.ceil(off.fused.at + settings.features.about_s * rate_hz);
  const contact: FootContact = {
    touchdown_s: time(down.fused.at),
    toe_off_s: time(off.fused.at),
    touchdown_raw_s: time(down.raw),
    toe_off_raw_s: time(off.raw),
    touchdown_s_u: down_u / rate_hz,
    toe_off_s_u: off_u / rate_hz,
    contact_time_s_u: Math.hypot(down_u, off_u) / rate_hz,
    contact_time_s_repeatable_u: Math.hypot(down_u, off_u) / rate_hz,
    mid_contact_s: time(features.mid),
    confidence: confidenceOf(Math.max(down.fused.disagreement, off.fused.disagreement), settings),
    clipped: anySet(signals.acc_clipped, first, last) || anySet(signals.gyr_clipped, first, last),
    lost: anyUnset(signals.measured, first, last),
    swing_before_radps: cycle.swing_before_radps,
    swing_after_radps: cycle.swing_after_radps,
    stride_s: frame.stride_s,
    backward_s: (off.fused.at - features.turn) / rate_hz,
    turn_rad: turnOf(frame),
    reasons: {
      ...(down_u > WIDE * down.fused.u
        ? {
            touchdown_s:
              lossAt(signals, touched, settings) > 0
                ? because('lost_at_touchdown')
                : because('clipped_before_touchdown'),
          }
        : {}),
      ...(off_u > WIDE * off.fused.u ? { toe_off_s: because('lost_at_toe_off') } : {}),
    },
  };
  return {
    contact,
    shape: {
      rate_hz,
      start_s: time(0),
      stride_s: frame.stride_s,
      columns: [
        frame.rate,
        frame.up,
        frame.forward,
        frame.along,
        frame.across,
        frame.norm,
        jolts.subarray(frame.first, frame.first + frame.rate.length),
      ],
      factors: [frame.stride_s, 1, 1, 1, 1, 1, 1],
    },
    sharp: landing.sharp,
    lost_u_s: { touchdown: down_loss / rate_hz, toe_off: off_loss / rate_hz },
  };
}

/** From here on a loss, not the features, makes the uncertainty. */
const WIDE = 1.5;

/** Standard uncertainty, in samples, that a loss about an instant brings: anywhere within it is as likely. */
function lossAt(signals: SensorSignals, at: number, settings: AnalysisSettings): number {
  const reach = settings.grid.loss_reach_s * signals.rate_hz;
  return longestRun(signals.measured, 0, Math.floor(at - reach), Math.ceil(at + reach)) / Math.sqrt(12);
}

/** Standard uncertainty, in samples, that acceleration at its full scale just before a touchdown brings: it may hide an earlier one. */
function clippingBefore({ acc_clipped, rate_hz }: SensorSignals, at: number, settings: AnalysisSettings): number {
  const reach = settings.grid.clip_reach_s * rate_hz;
  return longestRun(acc_clipped, 1, Math.floor(at - reach), Math.floor(at)) / Math.sqrt(12);
}

/** Near 1 while the features of an instant agree; a half where they are `doubtful` standard deviations apart. */
function confidenceOf(disagreement: number, settings: AnalysisSettings): number {
  return 1 / (1 + (disagreement / settings.features.doubtful) ** 2);
}

/** How far the segment turns over the cycle, rad. */
function turnOf({ angle, from, to }: StrideFrame): number {
  let [least, greatest] = [angle[from], angle[from]];
  for (let i = from; i <= Math.min(to, angle.length - 1); i++) {
    least = Math.min(least, angle[i]);
    greatest = Math.max(greatest, angle[i]);
  }
  return greatest - least;
}

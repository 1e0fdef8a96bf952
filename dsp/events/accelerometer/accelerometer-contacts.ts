import { because } from '../../../shared/reason.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { accelerometerFrame, faceForward } from './accelerometer-frame.ts';
import { strideOfRunning } from './accelerometer-gait.ts';
import { accelerometerLandings, type Dated } from './accelerometer-landing.ts';
import { ACCELEROMETER_SEGMENTS } from './accelerometer-segments.ts';
import { type AnchoredStride, anchoredStrides, strideTimes, usualStrideTime } from './accelerometer-strides.ts';
import { accelerometerToeOffs } from './accelerometer-toe-off.ts';
import { jerkMagnitude, landingJerk } from '../../signals/jerk.ts';
import type { FootContact, FoundContact } from '../foot-contact.ts';
import { anySet, anyUnset } from '../../numeric/masks.ts';
import { lowPass, type SensorSignals } from '../../signals/sensor-signals.ts';

/**
 * Contacts of a sensor without a gyroscope. Strides are found by their likeness to each other; each has a landing
 * (accelerometer-landing.ts) and a push-off (accelerometer-toe-off.ts), seen along and across the segment.
 */
export function accelerometerContacts(signals: SensorSignals, settings: AnalysisSettings): FoundContact[] {
  const { rate_hz, mounting } = signals;
  const { cutoff, longest_stride_s, period_cutoff_hz } = settings.accelerometer;
  const frame = accelerometerFrame(signals, settings);
  if (!frame) return [];
  const segment = ACCELEROMETER_SEGMENTS[mounting];
  const repeating = segment.repeating(frame);
  const times = strideTimes(lowPass(repeating, period_cutoff_hz, rate_hz), frame.active, rate_hz, settings);
  const usual_s = usualStrideTime(times, longest_stride_s);
  if (Number.isNaN(usual_s)) return [];
  const jerk = jerkMagnitude(signals, cutoff.jolt / usual_s);
  const bursts = anchoredStrides(jerk, cutoff.burst / usual_s, times, rate_hz, settings);
  const facing = faceForward(frame, bursts, rate_hz, usual_s, settings);
  const context = { frame: facing, rate_hz, usual_s, settings };
  const strides = segment.strides(bursts, times, context);
  const landed = accelerometerLandings(signals, segment, strides, jerk, context);
  const at = landed.map((down) => down?.at ?? Number.NaN);
  const running = strideOfRunning(facing, mounting, strides, at, rate_hz, usual_s, settings);
  const left = accelerometerToeOffs(segment, strides, landed, context);
  const columns = [facing.along, facing.across, facing.norm].map((c) =>
    lowPass(c, settings.features.cutoff_per_stride / usual_s, rate_hz),
  );
  columns.push(landingJerk(signals, usual_s, settings));
  return strides.flatMap((stride, k) => {
    const contact = running[k] ? contactOf(stride, landed[k], left[k], signals) : null;
    if (!contact) return [];
    return {
      contact,
      shape: { rate_hz, start_s: signals.start_s, stride_s: stride.stride_s, columns, factors: [1, 1, 1, 1] },
      sharp: landed[k]?.sharp ? 1 : 0,
      lost_u_s: { touchdown: 0, toe_off: 0 },
    };
  });
}

function contactOf(
  { anchor, stride_s }: AnchoredStride,
  down: Dated | null,
  off: Dated | null,
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
    contact_time_s_repeatable_u: off ? Math.hypot(down.u, off.u) / rate_hz : null,
    mid_contact_s: time(down.at + 0.4 * (end - down.at)),
    confidence: 0.95 / (1 + 0.05 * disagreement ** 2),
    clipped: anySet(acc_clipped, Math.floor(Math.min(anchor, down.at) - margin), Math.ceil(end + margin)),
    lost: anyUnset(measured, Math.floor(down.at - margin), Math.ceil(end + margin)),
    swing_before_radps: null,
    swing_after_radps: null,
    stride_s,
    turn_rad: null,
    backward_s: null,
    reasons: off ? {} : { toe_off_s: because('toe_off_unclear') },
  };
}

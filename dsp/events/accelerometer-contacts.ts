import type { AnalysisSettings } from '../settings.ts';
import type { FootContact } from './foot-contact.ts';
import { argMax, findPeaks } from './peaks.ts';
import { lowPass, type SensorSignals, smoothDerivative } from './sensor-signals.ts';

/**
 * Contacts of a sensor without a gyroscope. Touchdowns are the bursts of jerk that come once a stride; toe-off is the
 * last rise of acceleration before swing.
 */
export function accelerometerContacts(signals: SensorSignals, settings: AnalysisSettings): FootContact[] {
  const { rate_hz, acc_mps2 } = signals;
  const jerk = new Float64Array(signals.length);
  for (const c of [acc_mps2.x, acc_mps2.y, acc_mps2.z]) {
    const d = smoothDerivative(c, 60, rate_hz);
    for (let i = 0; i < jerk.length; i++) jerk[i] += d[i] * d[i];
  }
  for (let i = 0; i < jerk.length; i++) jerk[i] = Math.sqrt(jerk[i]);
  const burst = lowPass(jerk, settings.swing.cutoff_hz, rate_hz);
  const highest = burst.reduce((a, b) => Math.max(a, b), 0);
  const peaks = findPeaks(burst, 0.3 * highest, settings.swing.min_stride_s * rate_hz);
  const soft = lowPass(signals.acc_norm, 20, rate_hz);
  return peaks.map((p): FootContact => {
    const td = argMax(jerk, p - 0.06 * rate_hz, p + 0.06 * rate_hz);
    const to = argMax(soft, td + 0.1 * rate_hz, td + 0.3 * rate_hz);
    const touchdown_s = signals.start_s + td / rate_hz;
    const toe_off_s = to < 0 ? null : signals.start_s + to / rate_hz;
    return {
      touchdown_s,
      toe_off_s,
      touchdown_raw_s: touchdown_s,
      toe_off_raw_s: toe_off_s,
      touchdown_s_u: 0.01,
      toe_off_s_u: toe_off_s === null ? null : 0.02,
      contact_time_s_u: toe_off_s === null ? null : 0.022,
      mid_contact_s: touchdown_s + 0.08,
      confidence: 0.6,
      clipped: false,
      lost: false,
      swing_before_radps: null,
      swing_after_radps: null,
      stride_s: null,
      turn_rad: null,
      speed_mps: null,
      reasons: {},
    };
  });
}

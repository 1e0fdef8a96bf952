import type { AnalysisSettings } from '../settings.ts';
import type { FootContact } from './foot-contact.ts';
import { argMax, argMin, firstCrossing, vertex } from './peaks.ts';
import { lowPass, type SensorSignals } from './sensor-signals.ts';
import { swingPeaks } from './swing-peaks.ts';

/** Contacts of a sensor with a gyroscope: one between each two neighbouring mid-swing peaks. */
export function gyroscopeContacts(signals: SensorSignals, settings: AnalysisSettings): FootContact[] {
  const { rate_hz, sagittal_rate } = signals;
  if (!sagittal_rate) return [];
  const rate = lowPass(sagittal_rate, settings.events.cutoff_hz, rate_hz);
  const soft = lowPass(sagittal_rate, 15, rate_hz);
  const peaks = swingPeaks(signals, settings);
  const bounds = [0, ...peaks, signals.length - 1];
  const contacts: FootContact[] = [];
  for (let k = 0; k + 1 < bounds.length; k++) {
    const [from, to] = [bounds[k], bounds[k + 1]];
    if (to - from > settings.swing.max_stride_s * rate_hz) continue;
    const picked =
      signals.mounting === 'foot' ? pickFoot(rate, soft, from, to, rate_hz) : pickShank(rate, soft, from, to, rate_hz);
    if (!picked) continue;
    const [td, to_] = picked.map((i) => signals.start_s + i / rate_hz);
    contacts.push({
      touchdown_s: td,
      toe_off_s: to_,
      touchdown_raw_s: td,
      toe_off_raw_s: to_,
      touchdown_s_u: 0.006,
      toe_off_s_u: 0.008,
      contact_time_s_u: 0.01,
      mid_contact_s: td + 0.4 * (to_ - td),
      confidence: 0.9,
      clipped: false,
      lost: false,
      swing_before_radps: k > 0 ? soft[from] : null,
      swing_after_radps: k + 2 < bounds.length ? soft[to] : null,
      reasons: {},
    });
  }
  return contacts;
}

function pickFoot(rate: Float64Array, soft: Float64Array, from: number, to: number, hz: number): number[] | null {
  const zero = firstCrossing(rate, from, to, 0, 'falling');
  if (zero === null) return null;
  const ic = argMin(rate, zero, zero + 0.09 * hz);
  let tc = -1;
  const deepest = argMin(soft, ic + 0.06 * hz, to);
  if (deepest < 0) return null;
  for (let i = Math.round(ic + 0.06 * hz); i < Math.min(to, soft.length - 1); i++) {
    if (soft[i] < soft[i - 1] && soft[i] <= soft[i + 1] && soft[i] < 0.5 * soft[deepest]) {
      tc = i;
      break;
    }
  }
  return ic < 0 || tc < 0 ? null : [vertex(rate, ic) - 0.004 * hz, vertex(soft, tc) + 0.005 * hz];
}

function pickShank(rate: Float64Array, soft: Float64Array, from: number, to: number, hz: number): number[] | null {
  const zero = firstCrossing(rate, from, to, 0, 'falling');
  if (zero === null) return null;
  const ic = argMin(rate, zero, zero + 0.09 * hz);
  const swing = argMin(soft, ic + 0.12 * hz, to);
  const tc = argMax(soft, ic + 0.05 * hz, swing);
  return ic < 0 || tc < 0 ? null : [vertex(rate, ic) - 0.025 * hz, vertex(soft, tc) + 0.004 * hz];
}

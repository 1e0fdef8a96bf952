import type { AnalysisSettings } from '../settings.ts';
import type { FootContact } from './foot-contact.ts';
import { type ContactInstants, footInstants } from './foot-candidates.ts';
import { lowPass, type SensorSignals } from './sensor-signals.ts';
import { shankInstants } from './shank-candidates.ts';
import { type StrideFrame, strideFrame } from './stride-frame.ts';
import { type SwingCycle, swingCycles } from './swing-cycles.ts';
import { leverArm, type PushOffMotion, pushOffMotion, toesLeave } from './toe-speed.ts';

export interface FoundContact {
  cycle: SwingCycle;
  frame: StrideFrame;
  instants: ContactInstants;
  motion: PushOffMotion | null;
}

export function findInstants(signals: SensorSignals, settings: AnalysisSettings): FoundContact[] {
  const cycles = swingCycles(signals, settings);
  const e = settings.events;
  const found: FoundContact[] = [];
  for (const cycle of cycles) {
    const stride_s = (cycle.stride_to - cycle.stride_from) / signals.rate_hz;
    const frame = strideFrame(signals, cycle, e.cutoff_per_stride / stride_s, e.margin_s);
    if (!frame) continue;
    const raw = signals.sagittal_rate!.subarray(frame.first, frame.first + frame.rate.length);
    const slow = lowPass(raw, e.slow_cutoff_per_stride[signals.mounting] / stride_s, signals.rate_hz);
    const instants =
      signals.mounting === 'foot' ? footInstants(frame, slow, settings) : shankInstants(frame, slow, settings);
    if (!instants) continue;
    const motion =
      signals.mounting === 'foot' ? pushOffMotion(frame, instants.mid, instants.toe_off.rate_minimum) : null;
    found.push({ cycle, frame, instants, motion });
  }
  const arms = found.map((f) => (f.motion ? leverArm(f.motion) : null)).filter((a) => a !== null);
  if (arms.length > 0) {
    const lever: [number, number] = [median(arms.map((a) => a[0])), median(arms.map((a) => a[1]))];
    for (const f of found) {
      if (!f.motion) continue;
      for (const share of [0.25, 0.3, 0.35, 0.4]) {
        const at = toesLeave(
          f.motion,
          lever,
          share,
          f.instants.toe_off.rate_minimum + 0.14 * f.frame.stride_s * signals.rate_hz,
        );
        if (at !== null) f.instants.toe_off[`toes_${share * 100}`] = at;
      }
    }
  }
  return found;
}

function median(x: number[]): number {
  const s = x.slice().sort((a, b) => a - b);
  return (s[(s.length - 1) >> 1] + s[s.length >> 1]) / 2;
}

/** Contacts of a sensor with a gyroscope: one between each two neighbouring mid-swing peaks. */
export function gyroscopeContacts(signals: SensorSignals, settings: AnalysisSettings): FootContact[] {
  return findInstants(signals, settings).map(({ cycle, frame, instants }): FootContact => {
    const time = (i: number): number => signals.start_s + (frame.first + i) / signals.rate_hz;
    const foot = signals.mounting === 'foot';
    const T = frame.stride_s * signals.rate_hz;
    const td = foot
      ? 0.5 * (instants.touchdown.rate_minimum + (instants.touchdown.impact_rise ?? instants.touchdown.rate_minimum)) +
        0.001 * T
      : (instants.touchdown.impact_rise ?? instants.touchdown.impact_peak) - 0.02 * T;
    const to = foot
      ? (instants.toe_off.toes_35 ?? instants.toe_off.rate_minimum + 0.016 * T) - 0.004 * T
      : instants.toe_off.rate_fall - 0.033 * T;
    return {
      touchdown_s: time(td),
      toe_off_s: time(to),
      touchdown_raw_s: time(td),
      toe_off_raw_s: time(to),
      touchdown_s_u: 0.004,
      toe_off_s_u: 0.005,
      contact_time_s_u: 0.006,
      mid_contact_s: time(instants.mid),
      confidence: 0.9,
      clipped: false,
      lost: false,
      swing_before_radps: cycle.swing_before_radps,
      swing_after_radps: cycle.swing_after_radps,
      reasons: {},
    };
  });
}

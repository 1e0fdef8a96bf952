import type { AnalysisSettings } from '../settings.ts';
import { findPeaks } from './peaks.ts';
import { lowPass, type SensorSignals } from './sensor-signals.ts';

/** From one mid-swing to the next: one contact lies within. Sample indices. */
export interface SwingCycle {
  from: number;
  to: number;
  /** Both ends are swings that were seen, not an end of the recording or a gap. */
  whole: boolean;
  /** A stretch of one stride's length that holds the contact, for means over a stride; equals [from, to] when whole. */
  stride_from: number;
  stride_to: number;
  /** Low-passed forward rate at the swings before and after, rad/s; null at an open end. */
  swing_before_radps: number | null;
  swing_after_radps: number | null;
}

/**
 * Mid-swing instants: one maximum of the low-passed forward rate a stride. They cut the recording into
 * mid-swing to mid-swing cycles with one contact each (Falbriard et al. 2018, doi 10.3389/fphys.2018.00610). The
 * stretch before the first swing and after the last one may hold a contact too and is returned as an open cycle.
 */
export function swingCycles(signals: SensorSignals, settings: AnalysisSettings): SwingCycle[] {
  const { sagittal_rate, rate_hz, length } = signals;
  if (!sagittal_rate) return [];
  const { cutoff_hz, min_stride_s, max_stride_s, min_peak_radps } = settings.swing;
  const slow = lowPass(sagittal_rate, cutoff_hz, rate_hz);
  const peaks = findPeaks(slow, min_peak_radps[signals.mounting], min_stride_s * rate_hz);
  const longest = max_stride_s * rate_hz;
  const cycles: SwingCycle[] = [];
  for (let k = 0; k <= peaks.length; k++) {
    const before = k > 0 ? peaks[k - 1] : null;
    const after = k < peaks.length ? peaks[k] : null;
    if (before !== null && after !== null && after - before <= longest) {
      cycles.push({
        from: before,
        to: after,
        whole: true,
        stride_from: before,
        stride_to: after,
        swing_before_radps: slow[before],
        swing_after_radps: slow[after],
      });
      continue;
    }
    // An open end: a last contact after a swing, or a first one before a swing, of the neighbouring stride's length.
    if (before !== null) {
      const stride = k > 1 ? Math.min(longest, before - peaks[k - 2]) : 0.7 * longest;
      const to = Math.min(length - 1, Math.round(before + stride));
      cycles.push(openCycle(before, to, Math.round(stride), length, slow[before], null));
    }
    if (after !== null) {
      const stride = k + 1 < peaks.length ? Math.min(longest, peaks[k + 1] - after) : 0.7 * longest;
      const from = Math.max(0, Math.round(after - stride));
      cycles.push(openCycle(from, after, Math.round(stride), length, null, slow[after]));
    }
  }
  return cycles;
}

function openCycle(
  from: number,
  to: number,
  stride: number,
  length: number,
  before: number | null,
  after: number | null,
): SwingCycle {
  const stride_from = Math.max(0, Math.min(before === null ? to - stride : from, length - 1 - stride));
  return {
    from,
    to,
    whole: false,
    stride_from,
    stride_to: Math.min(length - 1, stride_from + stride),
    swing_before_radps: before,
    swing_after_radps: after,
  };
}

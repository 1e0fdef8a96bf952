import type { AnalysisSettings } from '../settings/settings.ts';
import { findPeaks } from '../numeric/peaks.ts';
import { lowPass, type SensorSignals } from '../signals/sensor-signals.ts';

/** Neighbouring strides of running differ by less than this part. */
const STRIDE_SLACK = 1.15;

/** From one mid-swing to the next: one contact lies within. Sample indices. */
export interface SwingCycle {
  from: number;
  /** May lie beyond the end of the recording when the cycle is open there. */
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
    // A contact before the first swing or after the last one counts only where the recording begins or ends within its
    // stride: elsewhere the foot stood before or stands after, and did not run.
    const seen = nextStride(peaks, k, longest);
    const reach = STRIDE_SLACK * seen;
    if (before !== null && before + reach > length) cycles.push(openCycle(before, before + seen, length, slow, 'end'));
    if (after !== null && after - reach < 0) cycles.push(openCycle(after - seen, after, length, slow, 'start'));
  }
  return cycles;
}

/** Length of the stride nearest to gap k between swings, in samples; the longest when there is none. */
function nextStride(peaks: number[], k: number, longest: number): number {
  const near = [peaks[k - 1] - peaks[k - 2], peaks[k + 1] - peaks[k]].find((stride) => stride <= longest);
  return near ?? longest;
}

function openCycle(from: number, to: number, length: number, slow: Float64Array, end: 'start' | 'end'): SwingCycle {
  const stride = to - from;
  const stride_from = Math.max(0, Math.min(from, length - 1 - stride));
  return {
    from: Math.max(0, from),
    to,
    whole: false,
    stride_from,
    stride_to: Math.min(length - 1, stride_from + stride),
    swing_before_radps: end === 'end' ? slow[from] : null,
    swing_after_radps: end === 'start' ? slow[to] : null,
  };
}

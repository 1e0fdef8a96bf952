import type { AnalysisSettings } from '../settings.ts';
import { findPeaks } from './peaks.ts';
import { lowPass, type SensorSignals } from './sensor-signals.ts';

/**
 * Mid-swing instants: one maximum of the low-passed forward rate a stride. They cut the recording into
 * mid-swing to mid-swing cycles with one contact each (Falbriard et al. 2018, doi 10.3389/fphys.2018.00610).
 * @returns sample indices, ascending
 */
export function swingPeaks(signals: SensorSignals, settings: AnalysisSettings): number[] {
  if (!signals.sagittal_rate) return [];
  const { cutoff_hz, min_stride_s, min_peak_radps } = settings.swing;
  const slow = lowPass(signals.sagittal_rate, cutoff_hz, signals.rate_hz);
  return findPeaks(slow, min_peak_radps[signals.mounting], min_stride_s * signals.rate_hz);
}

import type { Provenance } from '../../shared/analysis.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import { designLowPass, halfPowerFrequency } from '../filters/index.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

/** Order of one pass of every low-pass of the detector. */
const ORDER = 2;
const PASSES = 2;

/** The detector's low-passes as they act: both passes together, frequency of -3 dB, at each distinct sampling rate. */
export function effectiveFilters(signals: SensorSignals[], settings: AnalysisSettings): Provenance['filters'] {
  const rates = [...new Set(signals.map(({ rate_hz }) => Math.round(rate_hz * 1000) / 1000))];
  return rates.flatMap((rate) => {
    const uses: [string, number][] = [
      ['rate, for swing peaks', settings.swing.cutoff_hz],
      ['rate and acceleration, for features, at a stride of 0.7 s', settings.features.cutoff_per_stride / 0.7],
      ['rate, for peak rotation rates', settings.strides.swing_shape.peak_cutoff_hz],
      ['change of acceleration, for impact onset', Math.min(settings.impact.cutoff_hz, 0.4 * rate)],
    ];
    return uses
      .filter(([, cutoff]) => cutoff < 0.45 * rate)
      .map(([channel, cutoff]) => ({
        channel,
        kind: 'low-pass, Butterworth, forward and backward',
        order: ORDER * PASSES,
        cutoff_hz: halfPowerFrequency(designLowPass(cutoff, rate, ORDER), rate, PASSES),
        passes: PASSES,
      }));
  });
}

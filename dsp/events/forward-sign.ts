import type { AnalysisSettings } from '../settings.ts';
import { lowPass, type SensorSignals, smoothDerivative } from './sensor-signals.ts';

/**
 * Which way the leg swings forward about an axis of unknown sign. The foot meets the ground at the end of forward
 * swing, so the rate falls from forward to backward just when the acceleration is roughest; toe-off, when it rises, is
 * soft. The fall of the rate weighted by the roughness therefore tells the sign.
 * @returns 1 when the axis points as wanted, -1 when it must be turned
 */
export function forwardSign(signals: SensorSignals, settings: AnalysisSettings): 1 | -1 {
  const { rate_hz, acc_mps2, sagittal_rate } = signals;
  if (!sagittal_rate) return 1;
  const cutoff = settings.swing.cutoff_hz;
  const change = smoothDerivative(sagittal_rate, cutoff, rate_hz);
  const rough = new Float64Array(signals.length);
  for (const c of [acc_mps2.x, acc_mps2.y, acc_mps2.z]) {
    const d = smoothDerivative(c, settings.events.cutoff_hz, rate_hz);
    for (let i = 0; i < rough.length; i++) rough[i] += d[i] * d[i];
  }
  const weight = lowPass(rough, cutoff, rate_hz);
  let sum = 0;
  for (let i = 0; i < rough.length; i++) {
    const v = weight[i] * change[i];
    if (Number.isFinite(v)) sum -= v;
  }
  return sum >= 0 ? 1 : -1;
}

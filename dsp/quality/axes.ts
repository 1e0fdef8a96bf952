import { type Fault, fault } from '../../shared/fault.ts';
import type { AxisColumns, SensorRecording } from '../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import { integrateRotation, length, turnColumns } from '../numeric/rotation.ts';
import { median } from '../numeric/statistics.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

const AXES = ['x', 'y', 'z'] as const;

/**
 * Whether the axes of rotation and of acceleration belong together. Running comes back to where it was every stride, so the
 * acceleration, turned back by the rotation, averages to gravity; with a mirrored or flipped axis it does not. Where it does not
 * but would with some axes of rotation turned round, those are named.
 * @returns no fault where the axes fit, where nothing turns, or where no turning round helps
 */
export function axisFaults(recording: SensorRecording, signals: SensorSignals, settings: AnalysisSettings): Fault[] {
  const { gyr_radps } = signals;
  if (!gyr_radps) return [];
  const windows = movingWindows(signals, settings);
  if (windows.length === 0) return [];
  const { axes_fit, axes_misfit } = settings.quality;
  const asRecorded = gravityIn(signals, gyr_radps, windows);
  if (!(asRecorded > axes_misfit)) return [];
  const turned = [1, 2, 3, 4, 5, 6, 7]
    .map((bits) => AXES.filter((_, k) => (bits >> k) & 1))
    .map((axes) => ({ axes, gravity: gravityIn(signals, turnedRound(gyr_radps, axes), windows) }))
    .sort((a, b) => Math.abs(a.gravity - 1) - Math.abs(b.gravity - 1))[0];
  if (Math.abs(turned.gravity - 1) > axes_fit) return [];
  const { side, mounting } = recording;
  return [
    fault(
      'AXES_DOUBTFUL',
      { side, mounting, gravity_g: asRecorded, turned_g: turned.gravity, share: axes_misfit - 1, axes: turned.axes },
      { side, mounting, gravity_g: asRecorded, axes: turned.axes.join(', ') },
    ),
  ];
}

function turnedRound(gyr: AxisColumns, axes: readonly ('x' | 'y' | 'z')[]): AxisColumns {
  const out = { ...gyr };
  for (const axis of axes) out[axis] = gyr[axis].map((v) => -v);
  return out;
}

/** Median over windows of the mean acceleration turned back by the rotation, g. */
function gravityIn(signals: SensorSignals, gyr: AxisColumns, windows: [number, number][]): number {
  return median(
    windows.map(([from, to]) => {
      const turned = turnColumns(integrateRotation(gyr, signals.rate_hz, from, to), signals.acc_mps2);
      return length(taperedMean(turned)) / STANDARD_GRAVITY_MPS2;
    }),
  );
}

/**
 * Mean under a raised cosine. A window rarely holds whole strides, and a foot is several metres a second faster at one end than at
 * the other: in a plain mean that would pass for acceleration.
 */
function taperedMean({ x, y, z }: AxisColumns): [number, number, number] {
  const n = x.length;
  let [mx, my, mz, total] = [0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    const weight = 1 - Math.cos((2 * Math.PI * (i + 0.5)) / n);
    mx += weight * x[i];
    my += weight * y[i];
    mz += weight * z[i];
    total += weight;
  }
  return [mx / total, my / total, mz / total];
}

/** Gap-free windows in which a leg swings, spread over the recording; enough of them for a median. */
function movingWindows(
  { rate_hz, length: n, measured, gyr_radps, acc_mps2 }: SensorSignals,
  settings: AnalysisSettings,
) {
  const { axes_window_s, axes_windows, axes_rate_radps } = settings.quality;
  const width = Math.round(axes_window_s * rate_hz);
  const found: [number, number][] = [];
  for (let from = 0; from + width < n; from += width) {
    let squares = 0;
    for (let i = from; i <= from + width; i++) {
      if (measured[i] === 0 || !Number.isFinite(acc_mps2.x[i])) squares = Number.NaN;
      squares += gyr_radps!.x[i] ** 2 + gyr_radps!.y[i] ** 2 + gyr_radps!.z[i] ** 2;
    }
    if (squares / width > axes_rate_radps ** 2) found.push([from, from + width]);
  }
  const step = Math.max(1, Math.ceil(found.length / axes_windows));
  return found.filter((_, k) => k % step === 0);
}

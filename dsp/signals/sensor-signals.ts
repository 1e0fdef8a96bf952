import type { AxisColumns, SampleBlock, SensorRecording } from '../../shared/sample-block.ts';
import type { Mounting, Side } from '../../shared/words.ts';
import { designLowPass, filterChannelSegments, toUniformGrid, type UniformGrid } from '../filters/index.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import { norm, project, sagittalAxis } from './sagittal-axis.ts';
import type { Vector3 } from '../numeric/rotation.ts';
import { forwardSign } from './forward-sign.ts';
import { steadyTimes } from './steady-stamps.ts';

/** One sensor's channels on a uniform grid with what every detector needs. Sample i is at start_s + i / rate_hz. */
export interface SensorSignals {
  side: Side;
  mounting: Mounting;
  rate_hz: number;
  /** Sensor clock, seconds. */
  start_s: number;
  length: number;
  acc_mps2: AxisColumns;
  gyr_radps: AxisColumns | null;
  /** 1 measured, 0 lost (bridged or NaN). */
  measured: Uint8Array;
  /** 1 where a channel sits at its full scale. */
  acc_clipped: Uint8Array;
  gyr_clipped: Uint8Array;
  /** Norm of acceleration, m/s2, unfiltered. */
  acc_norm: Float64Array;
  /** Axis of leg swing in sensor coordinates, pointing so that forward swing turns positively; null without gyroscope. */
  axis: Vector3 | null;
  /** Share of the rotation about `axis`. */
  axis_share: number;
  /** Rotation rate about `axis`, rad/s, unfiltered; null without gyroscope. */
  sagittal_rate: Float64Array | null;
}

/** Puts a recording on a uniform grid, bridges short losses, marks clipping, and finds the axis of leg swing. */
export function sensorSignals(recording: SensorRecording, settings: AnalysisSettings): SensorSignals {
  const { samples, side, mounting } = recording;
  const { acc_mps2: a, gyr_radps: g } = samples;
  const sources = g ? [a.x, a.y, a.z, g.x, g.y, g.z] : [a.x, a.y, a.z];
  const grid = gridAsSampled(samples, sources) ?? evenGrid(samples, sources);
  const bridge = Math.round(settings.grid.bridge_s * grid.rate_hz);
  for (const column of grid.columns) {
    // A single missing value is as lost as a missing row.
    for (let i = 0; i < grid.length; i++) if (Number.isNaN(column[i])) grid.measured[i] = 0;
    bridgeShortLosses(column, Math.max(1, bridge));
  }
  const [ax, ay, az, gx, gy, gz] = grid.columns;
  const acc = { x: ax, y: ay, z: az };
  const gyr = g ? { x: gx, y: gy, z: gz } : null;
  const found = gyr ? sagittalAxis(gyr, settings.axis.active_rate_radps) : null;
  const signals: SensorSignals = {
    side,
    mounting,
    rate_hz: grid.rate_hz,
    start_s: grid.start_s,
    length: grid.length,
    acc_mps2: acc,
    gyr_radps: gyr,
    measured: grid.measured,
    acc_clipped: clippedSamples(acc, samples.acc_range_mps2, settings.grid.clip_fraction),
    gyr_clipped: gyr
      ? clippedSamples(gyr, samples.gyr_range_radps, settings.grid.clip_fraction)
      : new Uint8Array(grid.length),
    acc_norm: norm(acc),
    axis: found?.axis ?? null,
    axis_share: found?.share ?? 0,
    sagittal_rate: gyr && found ? project(gyr, found.axis) : null,
  };
  if (signals.sagittal_rate && signals.axis && signOfForwardSwing(signals, settings) < 0) {
    signals.axis = signals.axis.map((v) => -v) as Vector3;
    signals.sagittal_rate = signals.sagittal_rate.map((v) => -v);
  }
  return signals;
}

/** Between the samples, at the times that they were taken: stamps that only jitter are steadied first. */
function evenGrid({ time_s, sampling_rate_hz, gaps }: SampleBlock, columns: Float64Array[]): UniformGrid {
  return toUniformGrid(steadyTimes(time_s, columns, gaps) ?? time_s, columns, sampling_rate_hz, gaps);
}

/** The samples as they are, where their stamps are on the grid to within a hundredth of an interval and none is missing. */
function gridAsSampled({ time_s, sampling_rate_hz, gaps }: SampleBlock, columns: Float64Array[]): UniformGrid | null {
  if (gaps.length > 0 || time_s.length === 0) return null;
  const start_s = time_s[0];
  for (let i = 0; i < time_s.length; i++) {
    if (!(Math.abs((time_s[i] - start_s) * sampling_rate_hz - i) < 0.01)) return null;
  }
  for (const column of columns) {
    for (let i = 0; i < column.length; i++) if (Number.isNaN(column[i])) return null;
  }
  return {
    start_s,
    rate_hz: sampling_rate_hz,
    length: time_s.length,
    columns,
    measured: new Uint8Array(time_s.length).fill(1),
  };
}

/** `forwardSign` on low-passed, thinned columns: the swing is slow, and the sign needs no more. */
function signOfForwardSwing(signals: SensorSignals, settings: AnalysisSettings): 1 | -1 {
  const { cutoff_hz, rate_hz, window_s, active_rate_radps } = settings.axis;
  const every = Math.max(1, Math.round(signals.rate_hz / rate_hz));
  const { acc_mps2, sagittal_rate } = signals;
  const columns = [acc_mps2.x, acc_mps2.y, acc_mps2.z, sagittal_rate!];
  const [x, y, z, rate] = lowPassTogether(columns, cutoff_hz, signals.rate_hz).map((c) => thinned(c, every));
  return forwardSign({ x, y, z }, rate, signals.axis!, signals.rate_hz / every, window_s, active_rate_radps);
}

/**
 * Every k-th sample.
 * @param x n samples
 * @param every k, 1 or more
 * @returns the samples 0, k, 2k ...
 */
export function thinned(x: Float64Array, every: number): Float64Array {
  const out = new Float64Array(Math.ceil(x.length / every));
  for (let i = 0; i < out.length; i++) out[i] = x[i * every];
  return out;
}

/**
 * Zero-phase second-order Butterworth low-pass over the gap-free stretches; the signal itself when the rate is low.
 * @param x n samples; NaN parts the stretches and stays
 * @param cutoff_hz -3 dB after both passes
 * @param rate_hz samples a second
 * @returns n samples in the unit of x
 */
export function lowPass(x: Float64Array, cutoff_hz: number, rate_hz: number): Float64Array {
  return lowPassTogether([x], cutoff_hz, rate_hz)[0];
}

/**
 * `lowPass` of several columns at a time, which is faster.
 * @param columns n samples each
 * @param cutoff_hz as of `lowPass`
 * @param rate_hz samples a second
 * @returns n samples each, in the order of the columns
 */
export function lowPassTogether(columns: Float64Array[], cutoff_hz: number, rate_hz: number): Float64Array[] {
  if (cutoff_hz >= 0.45 * rate_hz) return columns;
  return filterChannelSegments(designLowPass(cutoff_hz, rate_hz, 2), columns);
}

/**
 * Fills runs of up to `longest` NaN between two values with a straight line, in place.
 * @param x n samples, changed in place
 * @param longest samples of a run that is still bridged
 */
export function bridgeShortLosses(x: Float64Array, longest: number): void {
  let i = 0;
  while (i < x.length) {
    if (!Number.isNaN(x[i])) {
      i++;
      continue;
    }
    let end = i;
    while (end < x.length && Number.isNaN(x[end])) end++;
    const count = end - i;
    if (i > 0 && end < x.length && count <= longest) {
      const [from, to] = [x[i - 1], x[end]];
      for (let k = 0; k < count; k++) x[i + k] = from + ((to - from) * (k + 1)) / (count + 1);
    }
    i = end;
  }
}

/**
 * Marks samples at the full scale: any axis within `fraction` of `range`; none where the range is unknown.
 * @param columns n samples an axis
 * @param range full scale, in the unit of the columns; null where it is unknown
 * @param fraction of the range
 * @returns n entries, 1 where a sample is clipped
 */
export function clippedSamples(columns: AxisColumns, range: number | null, fraction: number): Uint8Array {
  const n = columns.x.length;
  const out = new Uint8Array(n);
  if (range === null) return out;
  const limit = range * fraction;
  for (const c of [columns.x, columns.y, columns.z]) {
    for (let i = 0; i < n; i++) if (Math.abs(c[i]) >= limit) out[i] = 1;
  }
  return out;
}

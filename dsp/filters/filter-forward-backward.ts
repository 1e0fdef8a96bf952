import { FaultError, fault } from '../../shared/fault.ts';
import { cascadeOf, laneOf, runCascade, settleCascade } from './cascade.ts';
import type { Lane } from './lane.ts';
import type { Section } from './section.ts';

/**
 * Zero-phase filtering: forward, then backward, so that no instant is moved. The signal is extended at both ends by its
 * odd reflection (about the end point), and each pass starts from the steady state of its first sample, so that
 * a signal at rest stays at rest. The same method as SciPy's `sosfiltfilt` with its default padding.
 *
 * The gain acts twice: the effective order doubles and the design's cut-off ends at -6 dB (`halfPowerFrequency`).
 *
 * @param sections cascade from `designLowPass` or `designHighPass`
 * @param x samples at a constant rate, all finite (for signals with gaps: `filterSegments`). A signal shorter than the
 *   padding (6 samples a section plus 3) is padded with what it has, one sample less than its length
 * @returns a new array of the same length
 * @throws FaultError SIGNAL_NOT_FINITE: a NaN would poison every later sample of a recursive filter
 */
export function filterForwardBackward(sections: readonly Section[], x: ArrayLike<number>): Float64Array {
  return filterChannels(sections, [x instanceof Float64Array ? x : Float64Array.from(x)])[0];
}

/**
 * Zero-phase filtering of several channels at a time: faster than one by one, since a processor computes two side by side.
 * @param channels of one length; as `filterForwardBackward` takes them
 * @param into where the results go, in the order of the channels; new arrays without it
 * @returns the filtered channels, each as `filterForwardBackward` gives it
 * @throws FaultError SIGNAL_NOT_FINITE
 */
export function filterChannels(
  sections: readonly Section[],
  channels: readonly Float64Array[],
  into: readonly Float64Array[] = channels.map((x) => new Float64Array(x.length)),
): Float64Array[] {
  const n = channels[0]?.length ?? 0;
  if (n === 0) return [...into];
  const cascade = cascadeOf(sections);
  const padding = Math.min(paddingOf(sections), n - 1);
  const lanes = channels.map((x, c) => laneOf(cascade, x, into[c]));
  // Only the ends are extended, in a few samples of their own: the signal itself is never copied.
  const ends = lanes.map(({ history }) => {
    const end = new Float64Array(padding);
    return { history, from: end, to: end };
  });
  channels.forEach((x, c) => {
    for (let i = 0; i < padding; i++) ends[c].from[i] = 2 * x[0] - x[padding - i];
    settleCascade(cascade, padding > 0 ? ends[c].from[0] : x[0], lanes[c]);
  });
  runCascade(cascade, ends, 0, 1, padding);
  runCascade(cascade, lanes, 0, 1, n);
  channels.forEach((x, c) => {
    for (let i = 0; i < padding; i++) ends[c].from[i] = 2 * x[n - 1] - x[n - 2 - i];
  });
  runCascade(cascade, ends, 0, 1, padding);
  const back = lanes.map(({ history, to }) => ({ history, from: to, to }));
  lanes.forEach((lane, c) => {
    refuseNotFinite(lane);
    settleCascade(cascade, padding > 0 ? ends[c].to[padding - 1] : lane.to[n - 1], lane);
  });
  runCascade(cascade, ends, padding - 1, -1, padding);
  runCascade(cascade, back, n - 1, -1, n);
  return [...into];
}

/**
 * Samples of padding at each end: three times the number of taps, 2 a section plus 1. SciPy's default.
 * @param sections second-order sections
 * @returns samples at each end
 */
export function paddingOf(sections: readonly Section[]): number {
  return 3 * (2 * sections.length + 1);
}

/**
 * One causal pass of a cascade, from the steady state of the first sample. Delays the signal: for live display only.
 * @param sections second-order sections
 * @param x finite samples
 * @returns a new array of the same length
 */
export function filterForward(sections: readonly Section[], x: ArrayLike<number>): Float64Array {
  const from = Float64Array.from(x);
  const cascade = cascadeOf(sections);
  const lane = laneOf(cascade, from, new Float64Array(from.length));
  if (from.length === 0) return lane.to;
  settleCascade(cascade, from[0], lane);
  runCascade(cascade, [lane], 0, 1, from.length);
  refuseNotFinite(lane);
  return lane.to;
}

/** A value that is not finite never leaves the history of a recursive filter again, so that tells whether there was one. */
function refuseNotFinite({ history, from }: Lane): void {
  if (history.every(Number.isFinite)) return;
  const index = from.findIndex((value) => !Number.isFinite(value));
  if (index < 0) return;
  const where = { index, value: String(from[index]) };
  throw new FaultError(fault('SIGNAL_NOT_FINITE', where, where));
}

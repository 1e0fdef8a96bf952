import { firstAtOrAfter } from '../../shared/first-at-or-after.ts';
import { commonTime, ownTime } from '../../shared/sensor-clock.ts';
import { columnOf } from './channels.ts';
import type { AxisColumns, Gap, SampleBlock, SensorRecording } from '../../shared/sample-block.ts';
import type { RecordingDescription } from './chunks.ts';
import type { Channel } from './channels.ts';

/** A recording longer than this (nearly 7 minutes at 1000 Hz) is kept on disk and worked on in windows. */
export const LONG_SAMPLES = 400_000;

/** The columns of a recording, wherever they lie: in memory, in a spool file, in the store. */
export interface SampleColumns {
  /** Samples `first` to `end` (exclusive) of one channel. */
  read(channel: Channel, first: number, end: number): Float64Array;
  /** Times of samples 0, k, 2k, ... for a search; null when the whole time column may be read at once. */
  sparse_times: { every: number; times: Float64Array } | null;
}

/** One sensor's recording ready for analysis, without having to be in memory. */
export interface SampleSource extends RecordingDescription {
  /** What the source's own clock said at the first sample, seconds; null where it has none. */
  clock_start_s: number | null;
  /** What pairing with the other side needs to know of the stamps; not kept in the store. */
  stamps?: Pick<SampleBlock, 'start_utc_u_s' | 'ends_early'>;
  columns: SampleColumns;
}

/** A source whose samples are in memory. */
export function sourceInMemory(description: RecordingDescription, samples: SampleBlock): SampleSource {
  return {
    ...description,
    clock_start_s: samples.clock_start_s ?? null,
    stamps: { start_utc_u_s: samples.start_utc_u_s, ends_early: samples.ends_early },
    columns: {
      sparse_times: null,
      read: (channel, first, end) => columnOf(samples, channel).subarray(first, end),
    },
  };
}

/** The whole recording, as `analyse` takes it. */
export function readWhole(source: SampleSource): SensorRecording {
  return readPart(source, 0, source.samples);
}

/** Samples `first` to `end` as a recording of their own: its time starts at 0, its clock offset at the first of them. */
export function readPart(source: SampleSource, first: number, end: number): SensorRecording {
  const { columns } = source;
  const time = columns.read('time_s', first, end);
  const zero = time[0] ?? 0;
  const last = time.at(-1) ?? 0;
  const axes = (kind: 'acc' | 'gyr'): AxisColumns => ({
    x: columns.read(`${kind}_x`, first, end),
    y: columns.read(`${kind}_y`, first, end),
    z: columns.read(`${kind}_z`, first, end),
  });
  const gaps = source.gaps.filter((gap) => gap.start_s >= zero && gap.end_s <= last);
  return {
    side: source.side,
    mounting: source.mounting,
    clock_offset_s: commonTime(zero, source),
    clock_drift: source.clock_drift,
    clock_offset_u_s: source.clock_offset_u_s,
    samples: {
      start_utc: first === 0 ? source.start_utc : null,
      start_utc_u_s: source.stamps?.start_utc_u_s,
      ends_early: end === source.samples ? source.stamps?.ends_early : undefined,
      clock_start_s: source.clock_start_s === null ? null : source.clock_start_s + zero,
      sampling_rate_hz: source.sampling_rate_hz,
      time_s: zero === 0 ? time : time.map((value) => value - zero),
      acc_mps2: axes('acc'),
      gyr_radps: source.has_gyroscope ? axes('gyr') : null,
      gaps: zero === 0 ? gaps : gaps.map((gap) => moved(gap, zero)),
      acc_range_mps2: source.acc_range_mps2,
      gyr_range_radps: source.gyr_range_radps,
    },
  };
}

/** Index of the first sample at or after an instant on the common clock; the number of samples when there is none. */
export function indexAt(source: SampleSource, common_s: number): number {
  const { columns, samples } = source;
  const time = ownTime(common_s, source);
  let [low, high] = [0, samples];
  if (columns.sparse_times) {
    const { every, times } = columns.sparse_times;
    const next = firstAtOrAfter(times, time);
    low = Math.max(0, (next - 1) * every);
    high = Math.min(samples, next * every + 1);
  }
  return low + firstAtOrAfter(columns.read('time_s', low, high), time);
}

/** Instant of a sample on the common clock. */
export function instantOf(source: SampleSource, index: number): number {
  const [time] = source.columns.read('time_s', index, index + 1);
  return commonTime(time, source);
}

function moved(gap: Gap, zero: number): Gap {
  return { ...gap, start_s: gap.start_s - zero, end_s: gap.end_s - zero };
}

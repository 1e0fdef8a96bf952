import { clockOf } from './arrival-clock.ts';
import { commonTime, ownTime } from '../../../shared/sensor-clock.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import type { Mounting, Side } from '../../../shared/words.ts';
import type { StreamAssembler } from './stream-assembler.ts';

export interface PlacedStream {
  side: Side;
  mounting: Mounting;
  assembler: StreamAssembler;
  /** What the common clock of its arrivals is known to beside their own uncertainty, standard uncertainty. */
  clock_offset_u_s?: number;
}

export interface AlignedStreams {
  sensors: SensorRecording[];
  /** For each of `sensors`, which of the given streams it is. */
  stream_of: number[];
  /** Host time of the analysis' time 0. */
  zero_s: number;
}

/**
 * Cuts the same stretch of host time from several streams and puts them on one clock, the host's, by each sensor's clock
 * fit. Streams without a sample in the stretch are left out.
 * @param utc_zero_ms UTC of host time 0, milliseconds; null when unknown
 * @returns null when no stream has a sample there
 */
export function alignStreams(
  streams: PlacedStream[],
  from_s = Number.NEGATIVE_INFINITY,
  to_s = Number.POSITIVE_INFINITY,
  utc_zero_ms: number | null = null,
): AlignedStreams | null {
  const cut = streams.flatMap(({ side, mounting, assembler, clock_offset_u_s = 0 }, stream) => {
    const fit = assembler.clockFit();
    if (fit === null) return [];
    const clock = clockOf(fit);
    const part = assembler.block(ownTime(from_s, clock), ownTime(to_s, clock));
    if (part === null) return [];
    const first_host_s = commonTime(part.first_s, clock);
    const offset_u_s = Math.hypot(fit.offset_u_s, clock_offset_u_s);
    return [{ stream, side, mounting, samples: part.block, fit, offset_u_s, first_host_s }];
  });
  if (cut.length === 0) return null;
  const zero_s = Math.min(...cut.map((part) => part.first_host_s));
  const reference = cut.find((part) => part.first_host_s === zero_s)!;
  const sensors = cut.map(({ side, mounting, samples, fit, offset_u_s, first_host_s }): SensorRecording => {
    const is_reference = first_host_s === zero_s;
    return {
      side,
      mounting,
      samples: {
        ...samples,
        start_utc: utc_zero_ms === null ? null : new Date(utc_zero_ms + first_host_s * 1000).toISOString(),
      },
      clock_offset_s: first_host_s - zero_s,
      clock_drift: fit.drift,
      clock_offset_u_s: is_reference ? 0 : Math.hypot(offset_u_s, reference.offset_u_s),
    };
  });
  return { sensors, stream_of: cut.map((part) => part.stream), zero_s };
}

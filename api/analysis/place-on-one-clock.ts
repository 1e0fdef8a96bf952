import type { Fault } from '../../shared/fault.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';

type Unplaced = Pick<SensorRecording, 'side' | 'mounting' | 'samples'>;

/** Puts one or two recordings on a common clock whose zero is the first sample of the earlier one. */
export function placeOnOneClock(recordings: Unplaced[]): { recordings: SensorRecording[]; faults: Fault[] } {
  const starts = recordings.map(({ samples }) =>
    samples.start_utc === null ? (samples.clock_start_s ?? null) : Date.parse(samples.start_utc) / 1000,
  );
  const known = starts.filter((start) => start !== null);
  const earliest = known.length === starts.length ? Math.min(...known) : 0;
  return {
    recordings: recordings.map((recording, i) => ({
      ...recording,
      clock_offset_s: known.length === starts.length ? starts[i]! - earliest : 0,
      clock_drift: 0,
      clock_offset_u_s: 0,
    })),
    faults: [],
  };
}

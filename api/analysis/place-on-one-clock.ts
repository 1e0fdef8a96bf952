import { align } from '../../ingest/clock/align.ts';
import { type Fault, FaultError } from '../../shared/fault.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';

type Unplaced = Pick<SensorRecording, 'side' | 'mounting' | 'samples'>;

/**
 * Puts one recording, or a left and a right one in this order, on a common clock whose zero is the first sample of the
 * earlier one.
 * @returns the recordings with their offsets, and the fault that says so where the alignment is in doubt
 * @throws FaultError CLOCKS_NOT_ALIGNED where two recordings cannot be paired: flight and step times would be made up
 */
export function placeOnOneClock(recordings: Unplaced[]): { recordings: SensorRecording[]; faults: Fault[] } {
  if (recordings.length < 2) {
    return {
      recordings: recordings.map((one) => ({ ...one, clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 })),
      faults: [],
    };
  }
  const [left, right] = recordings;
  const alignment = align(left.samples, right.samples);
  if (alignment.method === 'none') {
    const fault = alignment.fault!;
    throw new FaultError({
      ...fault,
      message: `${fault.message} Nothing was analysed.`,
      hint: `${fault.hint} Each side can still be analysed alone.`,
    });
  }
  return {
    recordings: [
      { ...left, clock_offset_s: alignment.left_offset_s, clock_drift: 0, clock_offset_u_s: 0 },
      {
        ...right,
        clock_offset_s: alignment.right_offset_s,
        clock_drift: alignment.drift,
        clock_offset_u_s: alignment.u,
      },
    ],
    faults: alignment.fault ? [alignment.fault] : [],
  };
}

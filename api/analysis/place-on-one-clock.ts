import { align } from '../../ingest/clock/align.ts';
import { type Fault, FaultError } from '../../shared/fault.ts';
import { LONG_SAMPLES, readPart, type SampleSource } from '../store/sample-source.ts';

/**
 * Puts a left and a right recording, in this order, on a common clock whose zero is the first sample of the earlier one, by
 * setting their offsets. One recording alone is its own clock. Of a long recording the first ten minutes decide.
 * @returns the fault that says so where the alignment is in doubt
 * @throws FaultError CLOCKS_NOT_ALIGNED where two recordings cannot be paired: flight and step times would be made up
 */
export function placeOnOneClock(sources: SampleSource[]): Fault[] {
  if (sources.length < 2) return [];
  const [left, right] = sources;
  const head = (source: SampleSource) => readPart(source, 0, Math.min(source.samples, LONG_SAMPLES)).samples;
  const alignment = align(head(left), head(right));
  if (alignment.method === 'none') {
    const fault = alignment.fault!;
    throw new FaultError({
      ...fault,
      message: `${fault.message} Nothing was analysed.`,
      hint: `${fault.hint} Each side can still be analysed alone.`,
    });
  }
  left.clock_offset_s = alignment.left_offset_s;
  right.clock_offset_s = alignment.right_offset_s;
  right.clock_drift = alignment.drift;
  right.clock_offset_u_s = alignment.u;
  return alignment.fault ? [alignment.fault] : [];
}

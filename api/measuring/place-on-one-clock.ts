import { align } from '../../ingest/clock/align.ts';
import { type Fault, FaultError, fault } from '../../shared/fault.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { LONG_SAMPLES, readPart, type SampleSource, sourceInMemory } from '../store/sample-source.ts';
import { freeMemoryOfMuch } from '../free-memory.ts';
import { followClocks } from './follow-clocks.ts';

/** Of a recording that is not in memory as a whole, this much is looked at. */
const HEAD_SAMPLES = 200_000;

/**
 * Puts a left and a right recording, in this order, on a common clock whose zero is the first sample of the earlier one, by
 * setting their offsets. One recording alone is its own clock. Of a long recording its beginning decides, and the drift is followed from there.
 * @returns the fault that says so where the alignment is in doubt
 * @throws FaultError CLOCKS_NOT_ALIGNED where two recordings cannot be paired: flight and step times would be made up
 */
export function placeOnOneClock(sources: SampleSource[]): Fault[] {
  if (sources.length < 2) return [];
  const [left, right] = sources;
  const head = (source: SampleSource) =>
    readPart(source, 0, source.samples > LONG_SAMPLES ? HEAD_SAMPLES : source.samples).samples;
  freeMemoryOfMuch();
  const alignment = align(head(left), head(right));
  freeMemoryOfMuch();
  if (alignment.method === 'none') {
    const because = alignment.fault!;
    throw new FaultError(fault('CLOCKS_NOT_ALIGNED.not_analysed', { because }, because.where));
  }
  useTied(left, alignment.tied?.left);
  useTied(right, alignment.tied?.right);
  left.clock_offset_s = alignment.left_offset_s;
  right.clock_offset_s = alignment.right_offset_s;
  right.clock_drift = alignment.drift;
  right.clock_offset_u_s = alignment.u;
  const faults: Fault[] = alignment.fault ? [alignment.fault] : [];
  const long = left.samples > LONG_SAMPLES && right.samples > LONG_SAMPLES;
  const own = alignment.method === 'shared impacts' || alignment.method === 'step alternation';
  if (long && own) {
    faults.push(...followClocks(left, right, HEAD_SAMPLES / Math.max(left.sampling_rate_hz, right.sampling_rate_hz)));
  }
  return faults;
}

/** A clock that started again, now with the true length of its gaps. Only recordings that were aligned whole can be mended. */
function useTied(source: SampleSource, tied: SampleBlock | undefined): void {
  if (!tied) return;
  if (source.samples > LONG_SAMPLES) {
    throw new FaultError(fault('CLOCKS_NOT_ALIGNED.restarted', { side: source.side }, { side: source.side }));
  }
  source.columns = sourceInMemory(source, tied).columns;
  source.gaps = tied.gaps;
  source.duration_s = tied.time_s.at(-1) ?? 0;
}

import type { CodedFault } from '../../shared/fault.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';

/** How two recordings were put on one clock. */
export type AlignmentMethod = 'absolute stamps' | 'common time column' | 'shared impacts' | 'step alternation' | 'none';

/** The common clock starts with the first sample of the earlier recording: one of the two offsets is 0. */
export interface Alignment {
  left_offset_s: number;
  right_offset_s: number;
  /** Common time = right_offset_s + time_s * (1 + drift) for the right; the left clock is the common clock. */
  drift: number;
  /** Standard uncertainty of the offset between the two, in the middle of the running, seconds. */
  u: number;
  method: AlignmentMethod;
  /** Root mean square of what the alignment leaves unexplained, seconds; 0 where the clock is shared. */
  residual_s: number;
  /** 0 to 1. */
  confidence: number;
  /** Set where the two cannot be paired, or only with doubt. */
  fault?: CodedFault;
  /** A side whose clock started again, with the true length of the gaps, found by the other foot: use it instead. */
  tied?: { left?: SampleBlock; right?: SampleBlock };
}

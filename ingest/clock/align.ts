import type { Fault } from '../../shared/fault.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { sharedClock } from './shared-clock.ts';

/** How two recordings were put on one clock. */
export type AlignmentMethod = 'absolute stamps' | 'common time column' | 'shared impacts' | 'step alternation' | 'none';

/** The common clock starts with the first sample of the earlier recording: one of the two offsets is 0. */
export interface Alignment {
  left_offset_s: number;
  right_offset_s: number;
  /** Common time = right_offset_s + time_s * (1 + drift) for the right; the left clock is the common clock. */
  drift: number;
  /** Standard uncertainty of the offset between the two, seconds. */
  u: number;
  method: AlignmentMethod;
  /** Root mean square of what the alignment leaves unexplained, seconds; 0 where the clock is shared. */
  residual_s: number;
  /** 0 to 1. */
  confidence: number;
  /** Set where the two cannot be paired, or only with doubt. */
  fault?: Fault;
}

/**
 * Puts two recordings of one athlete, left and right, on one clock.
 * @returns offsets, drift and their uncertainty; `method: 'none'`, confidence 0 and a fault where it cannot be done
 */
export function align(left: SampleBlock, right: SampleBlock): Alignment {
  const shared = sharedClock(left, right);
  if (shared) return fromLag(shared.lag_s, 0, shared);
  return {
    ...fromLag(0, 0, { u: Number.POSITIVE_INFINITY, method: 'none', residual_s: 0, confidence: 0 }),
    fault: {
      code: 'CLOCKS_NOT_ALIGNED',
      message: 'The two recordings run on clocks that have nothing in common; they were not paired.',
      where: {},
      hint: 'Start both sensors on one clock, or stamp both feet together before the start.',
    },
  };
}

/** @param lag_s when the right's first sample was, on the left's clock */
export function fromLag(
  lag_s: number,
  drift: number,
  rest: Pick<Alignment, 'u' | 'method' | 'residual_s' | 'confidence'>,
): Alignment {
  return { left_offset_s: Math.max(-lag_s, 0), right_offset_s: Math.max(lag_s, 0), drift, ...rest };
}

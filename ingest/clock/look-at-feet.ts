import type { SampleBlock } from '../../shared/sample-block.ts';
import { runningStretches, StepAlternation } from './alternation.ts';
import { findOnsets, type Onset } from './find-onsets.ts';
import { ENVELOPE_RATE_HZ, motionEnvelope } from './motion-signal.ts';

/** What two recordings show, worked out once. */
export interface TwoFeet {
  steps: StepAlternation;
  leftOnsets: Onset[];
  rightOnsets: Onset[];
}

export function lookAtFeet(left: SampleBlock, right: SampleBlock): TwoFeet {
  const envelope = motionEnvelope(left);
  return {
    steps: new StepAlternation(envelope, motionEnvelope(right), runningStretches(envelope)),
    leftOnsets: findOnsets(left),
    rightOnsets: findOnsets(right),
  };
}

/** The middle of the running on the left's clock, seconds. */
export function middleOfRunning({ steps }: TwoFeet): number {
  const { stretches, left } = steps;
  if (stretches.length === 0) return left.values.length / 2 / ENVELOPE_RATE_HZ;
  return stretches[stretches.length >> 1].start / ENVELOPE_RATE_HZ;
}

/** When running begins and ends on the left's clock, seconds; the middle of the recording where nobody runs. */
export function endsOfRunning(feet: TwoFeet): number[] {
  const starts = feet.steps.stretches.map(({ start }) => start / ENVELOPE_RATE_HZ);
  return starts.length > 0 ? [Math.min(...starts), Math.max(...starts)] : [middleOfRunning(feet)];
}

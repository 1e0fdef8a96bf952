import type { SampleBlock } from '../../shared/sample-block.ts';
import { lookAtFeet } from './look-at-feet.ts';
import { lagUncertainty } from './clock-model.ts';
import { unrelatedClocks } from './unrelated-clocks.ts';

/**
 * The lag between two parts of recordings whose lag is known roughly: less than half a step, so that no stride can be missed.
 * @param near_s when the right part's first sample was on the left part's clock, seconds
 * @param within_s how far off that may be
 * @returns the lag with its standard uncertainty and the instant of the left part's clock that it belongs to; null where there is no running to tell by
 */
export function lagNear(
  left: SampleBlock,
  right: SampleBlock,
  near_s: number,
  within_s: number,
): { at_s: number; lag_s: number; u_s: number } | null {
  const feet = lookAtFeet(left, right);
  const found = unrelatedClocks(feet, (lag_s) => Math.abs(lag_s - near_s) < within_s, near_s);
  if (!found || Math.abs(found.model.lag_s - near_s) > within_s) return null;
  const { at_s, lag_s } = found.model;
  return { at_s, lag_s, u_s: lagUncertainty(found.model, at_s) };
}

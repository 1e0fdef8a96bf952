import type { Mounting } from '../../shared/words.ts';
import type { BoostedTrees } from './boosted.ts';
import type { Forest } from './forest.ts';
import type { KernelModel } from './kernel.ts';

/**
 * Standard uncertainty of what a model says, from the errors of runners that were left out: `factor` times the root of the sum
 * of squares of `floor_s` and `per_spread` times the trees' spread. 1.96 of it hold 95 % of those errors.
 */
export interface Interval {
  floor_s: number;
  per_spread: number;
  factor: number;
  /** The part of it (0 to 1, of the standard uncertainty) that changes from contact to contact of one foot. */
  repeatable: number;
}

/** A second stage for one mounting and its channels. */
export interface ContactModel {
  mounting: Mounting;
  channels: 'gyroscope' | 'accelerometer';
  /** Whole numbers a unit of each column of the shape. */
  scales: readonly number[];
  /** Says where touchdown lies, and how like a contact is to those that were learned from. */
  kernel: KernelModel;
  /** Says where toe-off lies, and whether the landing was misread. */
  forest: Forest;
  /** Says where both lie, beside the two above: what is said is the mean. */
  boosted: BoostedTrees;
  intervals: { touchdown: Interval; toe_off: Interval; contact_time: Interval };
  /** What the first stage has later than the model in the middle of left-out contacts, s: taken off before it is heard as well. */
  first_later_s: { touchdown: number; toe_off: number };
  /** What the first stage's stated uncertainties are multiplied by where it stands alone, from the same left-out errors. */
  first_stage: { touchdown: number; toe_off: number; contact_time: number };
}

/** Models by mounting and channels. */
export interface ContactModels {
  /** Tells this set of models from others, in the provenance of every result. */
  version: string;
  /** Null leaves the first stage as it is. */
  of(mounting: Mounting, channels: ContactModel['channels']): ContactModel | null;
}

/** No second stage: the physical features alone. */
export const NO_MODELS: ContactModels = { version: 'none', of: () => null };

/**
 * Standard uncertainty for a spread between the trees, both in s.
 * @param spread_s spread between the trees, s
 * @returns s
 */
export function intervalAt({ floor_s, per_spread, factor }: Interval, spread_s: number): number {
  return factor * Math.hypot(floor_s, per_spread * spread_s);
}

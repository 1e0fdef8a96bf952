import type { Values } from './messages/values.ts';

/** Why something is not measurable or doubtful, as it is made and stored: a key of shared/messages/en/reasons.ts and values. */
export interface CodedReason {
  because: string;
  /** Left out where the reason needs none. */
  values?: Values;
}

/** Words come from what older versions stored; `Speech.because` puts every reason into words. */
export type Reason = string | CodedReason;

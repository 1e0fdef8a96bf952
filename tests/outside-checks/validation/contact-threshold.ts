/**
 * What a contact is: the vertical force is above 50 N. References that were read at another threshold are converted here, and
 * nowhere else.
 */

import { CONTACT_THRESHOLD_N } from '../../../seeds/read-truth.ts';

/** Speeds and how much sooner toe-off is at 50 N than at 20 N, s: plates under a sprint at 9.5 m/s and a treadmill at 6.6 m/s, 2.4 +- 0.8 and 4.1 +- 1.7 ms. */
const TOE_OFF_SOONER: [speed_mps: number, sooner_s: number][] = [
  [6.6, 0.0041],
  [9.5, 0.0024],
];

/** A landing foot loads at 30 to 100 N/ms, so 30 N more take well below a millisecond (common practice; from memory). */
const TOUCHDOWN_LATER_S = 0.0006;

/**
 * Instants at 20 N as they would be at 50 N, interpolated by speed and held beyond the measured ones. What the conversion itself
 * errs by (0.8 to 1.7 ms at toe-off) is part of the reference's error.
 */
export function toContactThreshold(
  contact: { touchdown_s: number; toe_off_s: number },
  threshold_n: number,
  speed_mps: number,
): { touchdown_s: number; toe_off_s: number } {
  const { touchdown_s, toe_off_s } = contact;
  if (threshold_n === CONTACT_THRESHOLD_N) return { touchdown_s, toe_off_s };
  if (threshold_n !== 20) throw new Error(`No shift is known from ${threshold_n} N to ${CONTACT_THRESHOLD_N} N.`);
  const [[slow, most], [fast, least]] = TOE_OFF_SOONER;
  const part = Math.min(1, Math.max(0, (speed_mps - slow) / (fast - slow)));
  return {
    touchdown_s: touchdown_s + TOUCHDOWN_LATER_S,
    toe_off_s: toe_off_s - (most + part * (least - most)),
  };
}

import { takeIn } from './take-in.ts';

/** @param minutes of two sensors */
export function measure(minutes: number) {
  return takeIn(2, 60 * minutes);
}

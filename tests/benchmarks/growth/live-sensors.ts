import { takeIn } from './take-in.ts';

const SECONDS = 600;

/** @param sensors at a time */
export function measure(sensors: number) {
  return takeIn(sensors, SECONDS);
}

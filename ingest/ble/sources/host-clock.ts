/**
 * The host's monotonic clock, seconds since the machine started: goes on over restarts of the process, and does not
 * jump when the wall clock is set.
 */
export function hostTime(): number {
  return Number(process.hrtime.bigint()) / 1e9;
}

/** How a recording's stamps behave, learnt from its first rows. */
export interface TimeHabits {
  /** Mean interval, seconds. */
  period_s: number;
  /** Spread of the interval, seconds. */
  jitter_s: number;
  /** Smallest step that the stamps can show, seconds. */
  resolution_s: number;
  /** True where stamps repeat: a packet's samples share one. */
  repeats: boolean;
  /** Seconds after which the clock starts anew (midnight, a full counter), in order of trial. */
  wraps_s: number[];
  /** Counts after which the counter starts anew. */
  counter_wraps: number[];
}

/** How one sensor's clock runs against the common one: common time = offset + own time * (1 + drift). */
export interface SensorClock {
  clock_offset_s: number;
  /** Relative clock rate; 0 when clocks are shared. */
  clock_drift: number;
}

/** An instant of the sensor's own clock on the common one, s. */
export function commonTime(own_s: number, { clock_offset_s, clock_drift }: SensorClock): number {
  return clock_offset_s + own_s * (1 + clock_drift);
}

/** An instant of the common clock on the sensor's own, s. */
export function ownTime(common_s: number, { clock_offset_s, clock_drift }: SensorClock): number {
  return (common_s - clock_offset_s) / (1 + clock_drift);
}

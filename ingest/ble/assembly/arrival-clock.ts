import type { SensorClock } from '../../../shared/sensor-clock.ts';
/** Sensor time covered by one least lateness, seconds. */
const BLOCK_S = 1;
/** The shortest connection interval (Bluetooth Core Specification): packets arrive on such a grid, seconds. */
const LINK_INTERVAL_S = 7.5e-3;
/** The least delays of two links differ by up to an interval, uniformly. */
const LINK_DELAY_U_S = LINK_INTERVAL_S / Math.sqrt(12);

/** Seconds of data before a rate can be measured by arrival. */
const LEAST_BLOCKS = 6;

export interface ArrivalFit {
  /** Host time = offset_s + sensor time * (1 + drift). */
  offset_s: number;
  drift: number;
  /** Robust SD of the least lateness of each second about the line, seconds. */
  residual_s: number;
  /** Standard uncertainty of host time, link delay included. */
  offset_u_s: number;
  /** Seconds with at least one packet that the line rests on. */
  blocks: number;
}

/** The sensor's clock against the host's, as a recording's against the common one. */
export function clockOf({ offset_s, drift }: Pick<ArrivalFit, 'offset_s' | 'drift'>): SensorClock {
  return { clock_offset_s: offset_s, clock_drift: drift };
}

/**
 * Relates a sensor's clock to the host's. A packet can be late, never early: so each second of sensor time keeps its
 * least lateness, and a line through these (outliers first removed, so that stalls and bursts do not pull it) gives
 * offset and drift. The slope is drawn towards zero in proportion to how much the oscillators may differ.
 */
export class ArrivalClock {
  private readonly blocks = new Map<number, Point>();
  private readonly clock_tolerance: number;

  /** @param clock_tolerance how far the sensor's clock may be off, as a fraction */
  constructor(clock_tolerance: number) {
    this.clock_tolerance = clock_tolerance;
  }

  /** @param sensor_s sensor time of the packet's last sample */
  add(sensor_s: number, arrival_s: number): void {
    const key = Math.floor(sensor_s / BLOCK_S);
    const lateness_s = arrival_s - sensor_s;
    const block = this.blocks.get(key);
    if (block === undefined || lateness_s < block.lateness_s) this.blocks.set(key, { time_s: sensor_s, lateness_s });
  }

  /** The sensor's seconds turned out to be `scale` times as long as was thought. */
  rescale(scale: number): void {
    const points = [...this.blocks.values()];
    this.blocks.clear();
    for (const { time_s, lateness_s } of points) this.add(time_s * scale, lateness_s + time_s);
  }

  /** Relative difference of the host's clock to the sensor's as measured, and its standard error; null before 5 s. */
  measuredDrift(): { drift: number; error: number } | null {
    return this.blocks.size < LEAST_BLOCKS ? null : this.measuredSlope(this.points());
  }

  dropBefore(sensor_s: number): void {
    for (const key of this.blocks.keys()) if ((key + 1) * BLOCK_S < sensor_s) this.blocks.delete(key);
  }

  /** @returns null before the first packet */
  fit(): ArrivalFit | null {
    const points = this.points();
    if (points.length === 0) return null;
    const centre = median(points.map((point) => point.time_s));
    const slope = this.slope(points);
    const levels = points.map((point) => point.lateness_s - slope * (point.time_s - centre));
    const level = median(levels);
    const residual_s = 1.4826 * median(levels.map((value) => Math.abs(value - level)));
    return {
      offset_s: level - slope * centre,
      drift: slope,
      residual_s,
      offset_u_s: Math.hypot(LINK_DELAY_U_S, (1.2533 * residual_s) / Math.sqrt(points.length)),
      blocks: points.length,
    };
  }

  private points(): Point[] {
    return [...this.blocks.values()].sort((a, b) => a.time_s - b.time_s);
  }

  /** Shrunk by its error against the oscillators' tolerance. */
  private slope(points: Point[]): number {
    const measured = this.measuredSlope(points);
    if (measured === null) return 0;
    const allowed = this.clock_tolerance ** 2;
    return (measured.drift * allowed) / (allowed + measured.error ** 2);
  }

  /** Least squares over the blocks that no stall or burst touched. */
  private measuredSlope(points: Point[]): { drift: number; error: number } | null {
    const start = pairwiseSlope(points);
    if (start === null) return null;
    const rest = points.map((point) => point.lateness_s - start * point.time_s);
    const level = median(rest);
    const spread = 1.4826 * median(rest.map((value) => Math.abs(value - level)));
    const limit_s = Math.max(3 * spread, 2 * LINK_INTERVAL_S);
    const kept = points.filter((_, i) => Math.abs(rest[i] - level) <= limit_s);
    const mean_time = mean(kept.map((point) => point.time_s));
    const mean_late = mean(kept.map((point) => point.lateness_s));
    let [square, product] = [0, 0];
    for (const point of kept) {
      square += (point.time_s - mean_time) ** 2;
      product += (point.time_s - mean_time) * (point.lateness_s - mean_late);
    }
    if (square === 0) return null;
    // Packets leave on a grid of connection intervals: over the whole span the least lateness may wander by one of them.
    const span_s = kept[kept.length - 1].time_s - kept[0].time_s;
    const error = Math.hypot(spread / Math.sqrt(square), LINK_INTERVAL_S / span_s / Math.sqrt(12));
    return { drift: product / square, error };
  }
}

interface Point {
  time_s: number;
  lateness_s: number;
}

/** Median slope of pairs half a recording apart (after Theil 1950): linear in the number of points; null for too few. */
function pairwiseSlope(points: Point[]): number | null {
  const half = Math.floor(points.length / 2);
  if (half < 2) return null;
  const slopes: number[] = [];
  for (let i = 0; i + half < points.length; i++) {
    const [a, b] = [points[i], points[i + half]];
    slopes.push((b.lateness_s - a.lateness_s) / (b.time_s - a.time_s));
  }
  return median(slopes);
}

function mean(values: number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function median(values: number[]): number {
  const sorted = values.slice().sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

import type { SensorClock } from '../../../shared/sensor-clock.ts';
import { eventsOnGrid, gapOnGrid, linkInterval } from './link-grid.ts';

/** Sensor time covered by one least lateness, seconds. */
const BLOCK_S = 1;
/** The shortest connection interval (Bluetooth Core Specification): what is assumed where arrivals show no grid, seconds. */
const LINK_INTERVAL_S = 7.5e-3;
/** A delay that may be anything up to a gap is known to its standard deviation, uniformly. */
const UNIFORM = 1 / Math.sqrt(12);
/** What radio and host add that no arrival tells: own choice, for two sensors of one kind. */
const HIDDEN_DELAY_U_S = 0.3e-3;
/** The interval is looked for again after so many packets, in so many of the latest. */
const LOOK_EVERY = 256;
const LOOKED_AT = 600;

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
  /** Connection interval, seconds; null where arrivals show none. */
  interval_s: number | null;
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
  private readonly blocks = new Map<number, Block>();
  private readonly clock_tolerance: number;
  private packets = 0;
  private interval: { at_packet: number; interval_s: number | null } | null = null;

  /** @param clock_tolerance how far the sensor's clock may be off, as a fraction */
  constructor(clock_tolerance: number) {
    this.clock_tolerance = clock_tolerance;
  }

  /** @param sensor_s sensor time of the packet's last sample */
  add(sensor_s: number, arrival_s: number): void {
    const key = Math.floor(sensor_s / BLOCK_S);
    const block = this.blocks.get(key) ?? { ready_s: [], arrivals_s: [], least: 0 };
    this.blocks.set(key, block);
    this.packets++;
    block.ready_s.push(sensor_s);
    block.arrivals_s.push(arrival_s);
    const newest = block.ready_s.length - 1;
    if (arrival_s - sensor_s < latenessOf(block)) block.least = newest;
  }

  /** The sensor's seconds turned out to be `scale` times as long as was thought. */
  rescale(scale: number): void {
    const blocks = [...this.blocks.values()];
    this.blocks.clear();
    for (const { ready_s, arrivals_s } of blocks) {
      for (const [i, at_s] of ready_s.entries()) this.add(at_s * scale, arrivals_s[i]);
    }
  }

  /** Relative difference of the host's clock to the sensor's as measured, and its standard error; null before 5 s. */
  measuredDrift(): { drift: number; error: number } | null {
    return this.blocks.size < LEAST_BLOCKS ? null : this.measuredSlope(this.points(), LINK_INTERVAL_S);
  }

  dropBefore(sensor_s: number): void {
    for (const key of this.blocks.keys()) if ((key + 1) * BLOCK_S < sensor_s) this.blocks.delete(key);
  }

  /** @returns null before the first packet */
  fit(): ArrivalFit | null {
    const interval_s = this.linkInterval();
    const points = this.points(interval_s);
    if (points.length === 0) return null;
    const gap_s = median(points.map((point) => point.gap_s));
    const centre = median(points.map((point) => point.time_s));
    const { slope, slope_u } = this.slope(points, gap_s);
    const levels = points.map((point) => point.lateness_s - slope * (point.time_s - centre));
    const level = median(levels);
    const residual_s = 1.4826 * median(levels.map((value) => Math.abs(value - level)));
    const span_s = points[points.length - 1].time_s - points[0].time_s;
    return {
      offset_s: level - slope * centre,
      drift: slope,
      residual_s,
      offset_u_s: Math.hypot(
        gap_s * UNIFORM,
        HIDDEN_DELAY_U_S,
        slope_u * span_s * UNIFORM,
        (1.2533 * residual_s) / Math.sqrt(points.length),
      ),
      blocks: points.length,
      interval_s,
    };
  }

  /** The grid on which packets arrive; null while there is none to be seen. */
  private linkInterval(): number | null {
    const looked_at = this.interval?.at_packet ?? 0;
    if (this.interval === null || this.packets - looked_at >= Math.min(LOOK_EVERY, 32 + looked_at / 4)) {
      const arrivals_s = [...this.blocks.values()].flatMap((block) => block.arrivals_s).sort((a, b) => a - b);
      this.interval = { at_packet: this.packets, interval_s: linkInterval(arrivals_s.slice(-LOOKED_AT)) };
    }
    return this.interval.interval_s;
  }

  /** Least lateness of each second: where the grid is known, of the events, less the half of what it may have waited for one. */
  private points(interval_s: number | null = null): Point[] {
    const points = [...this.blocks.values()].map((block): Point => {
      if (interval_s !== null) return pointOnGrid(block, interval_s);
      return { time_s: block.ready_s[block.least], lateness_s: latenessOf(block), gap_s: LINK_INTERVAL_S };
    });
    return points.sort((a, b) => a.time_s - b.time_s);
  }

  /** Shrunk by its error against the oscillators' tolerance; with its standard uncertainty. */
  private slope(points: Point[], gap_s: number): { slope: number; slope_u: number } {
    const allowed = this.clock_tolerance ** 2;
    const measured = this.measuredSlope(points, gap_s);
    if (measured === null) return { slope: 0, slope_u: this.clock_tolerance };
    const part = allowed / (allowed + measured.error ** 2);
    return { slope: part * measured.drift, slope_u: Math.sqrt(part) * measured.error };
  }

  /** Least squares over the blocks that no stall or burst touched. */
  private measuredSlope(points: Point[], gap_s: number): { drift: number; error: number } | null {
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
    // Packets leave on a grid of connection intervals: over the whole span the least lateness may wander by a gap of it.
    const span_s = kept[kept.length - 1].time_s - kept[0].time_s;
    const error = Math.hypot(spread / Math.sqrt(square), (gap_s * UNIFORM) / span_s);
    return { drift: product / square, error };
  }
}

/** Packets of one second: when each was ready (sensor time of its last sample) and came, and which came with the least delay. */
interface Block {
  ready_s: number[];
  arrivals_s: number[];
  least: number;
  /** Worked out for so many packets and this interval. */
  on_grid?: { packets: number; interval_s: number; point: Point };
}

interface Point {
  time_s: number;
  lateness_s: number;
  /** The least lateness is above the link's own by up to this. */
  gap_s: number;
}

function pointOnGrid(block: Block, interval_s: number): Point {
  const { ready_s, arrivals_s, on_grid } = block;
  const packets = ready_s.length;
  if (on_grid?.packets === packets && on_grid.interval_s === interval_s) return on_grid.point;
  const events_s = eventsOnGrid(arrivals_s, interval_s);
  let least = 0;
  for (let i = 1; i < packets; i++) if (events_s[i] - ready_s[i] < events_s[least] - ready_s[least]) least = i;
  const gap_s = gapOnGrid(ready_s, events_s, least, interval_s);
  const point = { time_s: ready_s[least], lateness_s: events_s[least] - ready_s[least] - gap_s / 2, gap_s };
  block.on_grid = { packets, interval_s, point };
  return point;
}

function latenessOf({ ready_s, arrivals_s, least }: Block): number {
  return arrivals_s[least] - ready_s[least];
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

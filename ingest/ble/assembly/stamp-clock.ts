/** Time covered by one knot, seconds: long enough to average a stamp's jitter, short enough to follow a warming clock. */
const KNOT_S = 2;

interface Knot {
  n: number;
  slot_sum: number;
  time_sum: number;
}

/**
 * Slot number -> the sensor's own time. With time stamps: straight lines through the mean stamp of every 2 s, so that
 * neither a stamp's jitter nor an oscillator that is off by per cents reaches the samples. Without: slot / rate.
 */
export class StampClock {
  private readonly rate_hz: number;
  private readonly slots_per_knot: number;
  private segments: { slot0: number; knots: Map<number, Knot> }[] = [];

  constructor(rate_hz: number) {
    this.rate_hz = rate_hz;
    this.slots_per_knot = Math.max(1, Math.round(rate_hz * KNOT_S));
  }

  /** A stretch begins whose slots do not continue those before. */
  beginSegment(slot0: number): void {
    this.segments.push({ slot0, knots: new Map() });
  }

  /** @param slot the sample that the time stamp belongs to */
  addStamp(slot: number, stamp_s: number): void {
    const { slot0, knots } = this.segmentOf(slot);
    const key = Math.floor((slot - slot0) / this.slots_per_knot);
    const knot = knots.get(key) ?? { n: 0, slot_sum: 0, time_sum: 0 };
    knots.set(key, { n: knot.n + 1, slot_sum: knot.slot_sum + slot, time_sum: knot.time_sum + stamp_s });
  }

  /** @returns sensor time, seconds; only differences have a meaning */
  timesOf(slots: Float64Array): Float64Array {
    const lines = this.segments.map((segment) => this.line(segment.knots));
    let at = 0;
    return slots.map((slot) => {
      while (at + 1 < this.segments.length && slot >= this.segments[at + 1].slot0) at++;
      return lines[at](slot);
    });
  }

  timeOf(slot: number): number {
    return this.line(this.segmentOf(slot).knots)(slot);
  }

  /** Forgets what lies wholly before `slot`. */
  dropBefore(slot: number): void {
    while (this.segments.length > 1 && this.segments[1].slot0 <= slot) this.segments.shift();
    const { slot0, knots } = this.segments[0] ?? { slot0: 0, knots: new Map<number, Knot>() };
    const keep = Math.floor((slot - slot0) / this.slots_per_knot) - 2;
    for (const key of knots.keys()) if (key < keep) knots.delete(key);
  }

  private segmentOf(slot: number) {
    let at = this.segments.length - 1;
    while (at > 0 && slot < this.segments[at].slot0) at--;
    return this.segments[at];
  }

  private line(knots: Map<number, Knot>): (slot: number) => number {
    const points = [...knots.entries()]
      .sort((a, b) => a[0] - b[0])
      .map(([, knot]) => ({ slot: knot.slot_sum / knot.n, time: knot.time_sum / knot.n }));
    if (points.length === 0) return (slot) => slot / this.rate_hz;
    let at = 0;
    return (slot) => {
      while (at > 0 && slot < points[at].slot) at--;
      while (at + 2 < points.length && slot >= points[at + 1].slot) at++;
      const left = points[at];
      const right = points[at + 1] ?? null;
      // Too few stamps for a slope of one's own: the nominal rate.
      const near = right === null || right.slot - left.slot < this.slots_per_knot / 4;
      const slope = near ? 1 / this.rate_hz : (right.time - left.time) / (right.slot - left.slot);
      return left.time + (slot - left.slot) * slope;
    };
  }
}

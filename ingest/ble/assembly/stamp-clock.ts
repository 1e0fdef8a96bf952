import { StampWatch } from './stamp-watch.ts';

/** Time covered by one knot, seconds: long enough to average a stamp's jitter, short enough to follow a warming clock. */
const KNOT_S = 2;
/** Stamps over less than this give no pace of their own, seconds. */
const LEAST_SPAN_S = 0.3;

interface Knot {
  n: number;
  slot_sum: number;
  time_sum: number;
}

interface Piece {
  slot0: number;
  time0: number;
  knots: Map<number, Knot>;
  /** Sums about slot0 and time0, for the piece's own pace. */
  sums: { n: number; x: number; y: number; xx: number; xy: number; far: number };
  /** Added to its stamps: where these jumped, time goes on. */
  shift_s: number;
}

/**
 * Slot number -> the sensor's own time. With time stamps: straight lines through the mean stamp of every 2 s, so that
 * neither a stamp's jitter nor an oscillator that is off by per cents reaches the samples. Without: slot / rate. Where stamps
 * jump while the counter goes on, a new piece begins, whose time continues the one before.
 */
export class StampClock {
  private rate_hz: number;
  private readonly slots_per_knot: number;
  private pieces: Piece[] = [];
  private watch: StampWatch;
  jumps = 0;

  constructor(rate_hz: number) {
    this.rate_hz = rate_hz;
    this.slots_per_knot = Math.max(1, Math.round(rate_hz * KNOT_S));
    this.watch = new StampWatch(1 / rate_hz);
  }

  /** For a sensor without stamps: the rate that was measured. */
  setRate(rate_hz: number): void {
    this.rate_hz = rate_hz;
  }

  /** A stretch begins whose slots do not continue those before. */
  beginSegment(slot0: number): void {
    this.beginPiece(slot0, 0);
    this.watch = new StampWatch(this.watch.pace_s);
  }

  /** @param slot the sample that the time stamp belongs to */
  addStamp(slot: number, stamp_s: number): void {
    const seen = this.watch.see(slot, stamp_s);
    if (seen.jump !== null) {
      this.jumps++;
      const newest = this.pieces[this.pieces.length - 1];
      this.beginPiece(seen.jump.slot0, newest.shift_s - seen.jump.by_s);
    }
    for (const { slot, stamp_s } of seen.good) this.addGood(slot, stamp_s);
  }

  /** @returns sensor time, seconds; only differences have a meaning */
  timesOf(slots: Float64Array): Float64Array {
    const lines = this.pieces.map((_, at) => this.line(at));
    let at = 0;
    return slots.map((slot) => {
      while (at + 1 < this.pieces.length && slot >= this.pieces[at + 1].slot0) at++;
      return lines[at](slot);
    });
  }

  timeOf(slot: number): number {
    return this.line(this.pieceOf(slot))(slot);
  }

  /** Samples a second by the stamps of the latest piece; null without stamps, or with too few. */
  stampedRate(): number | null {
    for (let at = this.pieces.length - 1; at >= 0; at--) {
      const pace = this.ownPace(this.pieces[at]);
      if (pace !== null) return 1 / pace;
    }
    return null;
  }

  /** Forgets what lies wholly before `slot`. */
  dropBefore(slot: number): void {
    while (this.pieces.length > 1 && this.pieces[1].slot0 <= slot) this.pieces.shift();
    const [first] = this.pieces;
    if (first === undefined) return;
    const keep = Math.floor((slot - first.slot0) / this.slots_per_knot) - 2;
    for (const key of first.knots.keys()) if (key < keep) first.knots.delete(key);
  }

  private beginPiece(slot0: number, shift_s: number): void {
    const sums = { n: 0, x: 0, y: 0, xx: 0, xy: 0, far: 0 };
    this.pieces.push({ slot0, time0: 0, knots: new Map(), sums, shift_s });
  }

  private addGood(slot: number, stamp_s: number): void {
    const piece = this.pieces[this.pieceOf(slot)];
    const time_s = stamp_s + piece.shift_s;
    const key = Math.floor((slot - piece.slot0) / this.slots_per_knot);
    const knot = piece.knots.get(key) ?? { n: 0, slot_sum: 0, time_sum: 0 };
    piece.knots.set(key, { n: knot.n + 1, slot_sum: knot.slot_sum + slot, time_sum: knot.time_sum + time_s });
    const { sums } = piece;
    if (sums.n === 0) piece.time0 = time_s;
    const [x, y] = [slot - piece.slot0, time_s - piece.time0];
    sums.n++;
    sums.x += x;
    sums.y += y;
    sums.xx += x * x;
    sums.xy += x * y;
    sums.far = Math.max(sums.far, x);
  }

  private pieceOf(slot: number): number {
    let at = this.pieces.length - 1;
    while (at > 0 && slot < this.pieces[at].slot0) at--;
    return at;
  }

  private ownPace({ sums }: Piece): number | null {
    const square = sums.xx - (sums.x * sums.x) / sums.n;
    if (sums.n < 4 || sums.far < LEAST_SPAN_S * this.rate_hz || square <= 0) return null;
    return (sums.xy - (sums.x * sums.y) / sums.n) / square;
  }

  /** Seconds a slot: by the piece's own stamps, else by those of an earlier piece, else nominal. */
  private pace(at: number): number {
    for (let i = at; i >= 0; i--) {
      const pace = this.ownPace(this.pieces[i]);
      if (pace !== null) return pace;
    }
    return 1 / this.rate_hz;
  }

  private line(at: number): (slot: number) => number {
    const points = [...this.pieces[at].knots.entries()]
      .sort((a, b) => a[0] - b[0])
      .map(([, knot]) => ({ slot: knot.slot_sum / knot.n, time: knot.time_sum / knot.n }));
    if (points.length === 0) return (slot) => slot / this.rate_hz;
    const pace = this.pace(at);
    let k = 0;
    return (slot) => {
      while (k > 0 && slot < points[k].slot) k--;
      while (k + 2 < points.length && slot >= points[k + 1].slot) k++;
      const left = points[k];
      const right = points[k + 1] ?? null;
      // Too few stamps for a slope between two knots: the piece's.
      const near = right === null || right.slot - left.slot < this.slots_per_knot / 4;
      const slope = near ? pace : (right.time - left.time) / (right.slot - left.slot);
      return left.time + (slot - left.slot) * slope;
    };
  }
}

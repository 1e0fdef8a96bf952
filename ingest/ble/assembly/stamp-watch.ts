/** Stamps seen before a jump can be told from a pace that is not known yet. */
const LEARNING = 8;
/** The least step that counts as a jump, seconds, and the part of the time between that a pace may be off by. */
const LEAST_JUMP_S = 1.5e-3;
const PACE_ERROR = 1e-3;
/** Multiple of the usual deviation. */
const JITTERS = 6;
/** So many stamps in a row must agree on a jump; fewer are damaged stamps, and are not used. */
const AGREEING = 4;
/** Weight of a new stamp in the line that the next is held against. */
const GAIN = 0.2;

interface Stamp {
  slot: number;
  stamp_s: number;
}

export interface Seen {
  /** Stamps that may be used now. */
  good: Stamp[];
  /** Present: from this slot on, stamps are ahead by `by_s` of what they were. */
  jump: { slot0: number; by_s: number } | null;
}

/** Watches a sensor's stamps against its own counter: jitter passes, a clock that was set anew is found. */
export class StampWatch {
  /** Seconds a slot, learned. */
  pace_s: number;
  private anchor: Stamp | null = null;
  private line: Stamp | null = null;
  private seen = 0;
  private jitter_s = 0;
  private pending: (Stamp & { off_s: number })[] = [];

  constructor(pace_s: number) {
    this.pace_s = pace_s;
  }

  see(slot: number, stamp_s: number): Seen {
    const stamp = { slot, stamp_s };
    if (this.line === null || this.anchor === null) {
      this.line = this.anchor = stamp;
      return { good: [stamp], jump: null };
    }
    if (slot <= this.line.slot) return { good: [], jump: null };
    const step = slot - this.line.slot;
    const off_s = stamp_s - (this.line.stamp_s + step * this.pace_s);
    if (this.seen < LEARNING) {
      this.seen++;
      this.line = stamp;
      this.pace_s = (stamp_s - this.anchor.stamp_s) / (slot - this.anchor.slot);
      return { good: [stamp], jump: null };
    }
    const limit_s = Math.max(LEAST_JUMP_S, JITTERS * this.jitter_s) + PACE_ERROR * step * this.pace_s;
    if (Math.abs(off_s) <= limit_s) {
      this.pending = [];
      this.follow(stamp, off_s, step);
      return { good: [stamp], jump: null };
    }
    if (this.pending.some((other) => Math.abs(other.off_s - off_s) > limit_s)) this.pending = [];
    this.pending.push({ ...stamp, off_s });
    if (this.pending.length < AGREEING) return { good: [], jump: null };
    const [first] = this.pending;
    const by_s = this.pending.reduce((sum, other) => sum + other.off_s, 0) / this.pending.length;
    const good = this.pending.map(({ slot, stamp_s }) => ({ slot, stamp_s }));
    this.line = good[good.length - 1];
    this.anchor = good[0];
    this.pending = [];
    return { good, jump: { slot0: first.slot, by_s } };
  }

  private follow({ slot, stamp_s }: Stamp, off_s: number, step: number): void {
    this.jitter_s += (Math.abs(off_s) - this.jitter_s) / 32;
    this.line = { slot, stamp_s: stamp_s - (1 - GAIN) * off_s };
    this.pace_s += (0.02 * off_s) / step;
  }
}

/** Samples in one piece of storage. */
const PIECE = 4096;

interface Piece {
  present: Uint8Array;
  channels: Float64Array[];
}

/**
 * Samples by slot number, in pieces that can be dropped from the old end: arrival order does not matter, a slot is
 * filled once, and what never arrives stays open.
 */
export class SampleSlots {
  private readonly pieces = new Map<number, Piece>();
  private readonly channel_count: number;
  /** First slot kept. */
  from = 0;
  /** Lowest slot ever filled; Infinity when empty. */
  begin = Number.POSITIVE_INFINITY;
  /** One past the highest slot filled; 0 when empty. */
  end = 0;
  filled = 0;

  constructor(channel_count: number) {
    this.channel_count = channel_count;
  }

  /**
   * Puts a packet's samples in their slots.
   * @returns how many were new; the others had arrived before, or are older than what is kept
   */
  fill(first_slot: number, channels: Float64Array[]): number {
    let added = 0;
    for (let i = 0; i < channels[0].length; i++) {
      const slot = first_slot + i;
      if (slot < this.from) continue;
      const piece = this.piece(Math.floor(slot / PIECE));
      const at = slot % PIECE;
      if (piece.present[at] === 1) continue;
      piece.present[at] = 1;
      for (let c = 0; c < this.channel_count; c++) piece.channels[c][at] = channels[c][i];
      added++;
    }
    this.filled += added;
    if (added > 0) this.begin = Math.min(this.begin, first_slot);
    this.end = Math.max(this.end, first_slot + channels[0].length);
    return added;
  }

  has(slot: number): boolean {
    return slot >= this.from && this.pieces.get(Math.floor(slot / PIECE))?.present[slot % PIECE] === 1;
  }

  /** Slots that are filled in [from, to), ascending. */
  slotsIn(from: number, to: number): Float64Array {
    const [first, end] = [Math.max(from, this.from), Math.min(to, this.end)];
    const slots = new Float64Array(Math.max(0, Math.min(end - first, this.pieces.size * PIECE)));
    let n = 0;
    for (let slot = this.nextFilled(first); slot !== null && slot < end; slot = this.nextFilled(slot + 1)) {
      slots[n++] = slot;
    }
    return slots.slice(0, n);
  }

  /** The first filled slot at or after `slot`; null when there is none. */
  nextFilled(slot: number): number | null {
    for (let at = Math.max(slot, this.from); at < this.end; ) {
      const key = Math.floor(at / PIECE);
      const present = this.pieces.get(key)?.present.indexOf(1, at % PIECE) ?? -1;
      if (present >= 0) return key * PIECE + present;
      // A gap may be hours long: what was never stored is passed over a piece at a time.
      at = (key + 1) * PIECE;
    }
    return null;
  }

  /** One channel at the given slots. */
  column(channel: number, slots: Float64Array): Float64Array {
    return slots.map((slot) => this.pieces.get(Math.floor(slot / PIECE))!.channels[channel][slot % PIECE]);
  }

  /** Forgets whole pieces before `slot`. */
  dropBefore(slot: number): void {
    const keep = Math.floor(slot / PIECE);
    for (const key of this.pieces.keys()) if (key < keep) this.pieces.delete(key);
    this.from = Math.max(this.from, keep * PIECE);
  }

  private piece(key: number): Piece {
    let piece = this.pieces.get(key);
    if (piece === undefined) {
      piece = {
        present: new Uint8Array(PIECE),
        channels: Array.from({ length: this.channel_count }, () => new Float64Array(PIECE)),
      };
      this.pieces.set(key, piece);
    }
    return piece;
  }
}

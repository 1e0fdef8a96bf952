import type { DecodedPacket } from '../packets/decode-packet.ts';
import { type CounterReader, nearest } from './counter-reader.ts';
import { type HeldPacket, leastArrival, type Run } from './held-packets.ts';
import { LeastLateness } from './least-lateness.ts';

/** Slot of the first packet received: room below it for packets that were sent earlier and come later. */
const FIRST_SLOT = 8192;

export interface Placed {
  packet: DecodedPacket;
  arrival_s: number;
  /** Place of the packet's first sample on the recording's sample grid. */
  first_slot: number;
  /** The stamp that was sent, made continuous, seconds; null where the sensor sends none. */
  stamp_s: number | null;
  /** True for the first packet of a stretch whose place rests on arrival (or time stamp), not on the counter. */
  begins_segment: boolean;
}

/**
 * Where the packets of a recording have been put so far: slot n is the n-th sample, whether it arrived or not. Counts go on rising
 * over all stretches, so that arrival can be predicted with one line; a stretch is what one counter tells.
 */
export class PacketGrid {
  readonly reader: CounterReader;
  readonly lateness = new LeastLateness();
  /** Seconds a count, by the host's clock. */
  count_s: number;
  /** The packet furthest on. */
  last = { count: 0, arrival_s: 0, stamp_s: 0, end_slot: 0 };
  /** What was added to the stamps to make them continuous, seconds. */
  stamp_shift_s = 0;
  private segment: { slot0: number; count0: number; offset: number } | null = null;

  constructor(reader: CounterReader) {
    this.reader = reader;
    this.count_s = reader.pace_s;
  }

  get begun(): boolean {
    return this.segment !== null;
  }

  /** Time in which the counter wraps, seconds; infinite where it does not. */
  get wrap_s(): number {
    return this.reader.modulus * this.count_s;
  }

  /** The true rate has been measured: a count lasts `scale` times as long as was thought. */
  rescale(scale: number): void {
    this.lateness.shift(this.last.count * this.count_s * (1 - scale));
    this.count_s *= scale;
  }

  nearestCount(one: HeldPacket, predicted: number): number {
    return nearest(one.counter + this.segment!.offset, predicted, this.reader.modulus);
  }

  /** How much later than the least delay a packet comes, were `count` its place. */
  lateBy(arrival_s: number, count: number): number {
    return arrival_s - this.lateness.value_s - count * this.count_s;
  }

  /** Stamp time since the packet furthest on; 0 without stamps. */
  stampStep({ stamp_s }: HeldPacket): number {
    return stamp_s === null ? 0 : stamp_s + this.stamp_shift_s - this.last.stamp_s;
  }

  /** Sensor time from the packet furthest on to a run's first, by arrival. */
  sinceLast(run: Run): number {
    return this.lateBy(leastArrival(run, this.count_s), this.last.count);
  }

  /** How much later a run comes than its stamps say; null without stamps. */
  stampsLate(run: Run): number | null {
    return this.reader.stamped ? this.sinceLast(run) - this.stampStep(run.packets[0]) : null;
  }

  /** The first packet of all. */
  beginFirst(one: HeldPacket): Placed {
    return this.begin(one, FIRST_SLOT, one.arrival_s, 0);
  }

  /**
   * A run that does not continue the counter: a stretch of its own begins, its place by the stamps where these have gone on, else
   * by arrival.
   */
  beginRun(run: Run, stamps_go_on: boolean): Placed[] {
    const lowest = Math.min(...run.counts);
    const per_count = this.reader.slots_per_count;
    let slot = FIRST_SLOT;
    let shift_s = 0;
    if (this.segment !== null) {
      const since_s = this.sinceLast(run);
      const by_stamp = this.stampStep(run.packets[0]) / this.reader.pace_s;
      const counts = stamps_go_on ? by_stamp : since_s / this.count_s;
      const last_slot = this.segment.slot0 + (this.last.count - this.segment.count0) * per_count;
      slot = Math.max(this.last.end_slot - lowest * per_count, Math.round(last_slot + counts * per_count));
      shift_s = stamps_go_on ? this.stamp_shift_s : this.last.stamp_s + since_s - (run.packets[0].stamp_s ?? 0);
    }
    const begun = this.begin(run.packets[0], slot, leastArrival(run, this.count_s), shift_s);
    const { count0 } = this.segment!;
    return [begun, ...run.packets.slice(1).map((one, i) => this.accept(one, count0 + run.counts[i + 1]))];
  }

  accept(one: HeldPacket, count: number): Placed {
    const { slot0, count0 } = this.segment!;
    const { packet, arrival_s } = one;
    const first_slot = slot0 + (count - count0) * this.reader.slots_per_count;
    this.lateness.add(arrival_s, arrival_s - count * this.count_s);
    if (count > this.last.count) {
      const end_slot = Math.max(this.last.end_slot, first_slot + packet.samples);
      this.last = { count, arrival_s, stamp_s: (one.stamp_s ?? 0) + this.stamp_shift_s, end_slot };
    }
    return { packet, arrival_s, first_slot, stamp_s: this.sentStamp(one), begins_segment: false };
  }

  acceptRun(run: Run, first_count: number): Placed[] {
    return run.packets.map((one, i) => this.accept(one, first_count + run.counts[i]));
  }

  private begin(one: HeldPacket, slot: number, least_s: number, stamp_shift_s: number): Placed {
    const count0 = Math.round(slot / this.reader.slots_per_count);
    this.segment = { slot0: slot, count0, offset: count0 - one.counter };
    this.stamp_shift_s = stamp_shift_s;
    this.lateness.begin(one.arrival_s, least_s - count0 * this.count_s);
    this.last = {
      count: count0,
      arrival_s: one.arrival_s,
      stamp_s: (one.stamp_s ?? 0) + stamp_shift_s,
      end_slot: Math.max(this.last.end_slot, slot + one.packet.samples),
    };
    const { packet, arrival_s } = one;
    return { packet, arrival_s, first_slot: slot, stamp_s: this.sentStamp(one), begins_segment: true };
  }

  private sentStamp({ sent_stamp_s }: HeldPacket): number | null {
    return sent_stamp_s === null ? null : sent_stamp_s + this.stamp_shift_s;
  }
}

import type { CounterReader } from './counter-reader.ts';
import { signedStep, type HeldPacket } from './held-packets.ts';

/** A packet is sent again within this, seconds. */
const AGAIN_S = 0.5;

/**
 * Knows packets that came before by their content. The counter alone cannot tell: a packet sent twice within a backlog longer than
 * half the counter's wrap looks like one from ahead.
 */
export class RepeatedPackets {
  private readonly reader: CounterReader;
  private recent: HeldPacket[] = [];
  private from = 0;

  constructor(reader: CounterReader) {
    this.reader = reader;
  }

  /** @returns true for a packet that came before; every other is remembered for a while */
  see(one: HeldPacket): boolean {
    if (!Number.isFinite(this.reader.modulus)) return false;
    this.forget(one.arrival_s);
    if (!this.goesStraightOn(one) && this.has(one)) return true;
    this.recent.push(one);
    return false;
  }

  /** A sensor at rest may send the same values again; the packet next in order is always a new one. */
  private goesStraightOn(one: HeldPacket): boolean {
    const latest = this.recent[this.recent.length - 1];
    const follows = this.reader.slots_per_count === 1 ? latest?.packet.samples : 1;
    return latest !== undefined && signedStep(latest.counter, one.counter, this.reader.modulus) === follows;
  }

  private has(one: HeldPacket): boolean {
    for (let i = this.recent.length - 1; i >= this.from; i--) {
      const before = this.recent[i];
      if (before.counter === one.counter && sameContent(before, one)) return true;
    }
    return false;
  }

  private forget(now_s: number): void {
    while (this.from < this.recent.length && this.recent[this.from].arrival_s < now_s - AGAIN_S) this.from++;
    if (this.from < 64 || this.from < this.recent.length / 2) return;
    this.recent = this.recent.slice(this.from);
    this.from = 0;
  }
}

function sameContent({ packet: a }: HeldPacket, { packet: b }: HeldPacket): boolean {
  return (
    a.samples === b.samples &&
    a.time_stamp === b.time_stamp &&
    a.channels.every((values, channel) => values.every((value, i) => value === b.channels[channel][i]))
  );
}

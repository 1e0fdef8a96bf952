import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import type { DecodedPacket } from '../packets/decode-packet.ts';
import { NUMBER_CODECS } from '../packets/number-types.ts';

/** A packet's prediction may be this far off before its counter is doubted, seconds. Longer than any usual stall. */
const TOLERANCE_S = 3;
/** So many packets in a row that agree with each other but not with the past mean that the sensor began anew. */
const AGREEING_PACKETS = 5;
/** Slot of the first packet received: room below it for packets that were sent earlier and come later. */
const FIRST_SLOT = 8192;

export interface Placement {
  /** Place of the packet's first sample on the recording's sample grid. */
  first_slot: number;
  /** Time stamp made continuous, seconds; null where the sensor sends none. */
  stamp_s: number | null;
  /** True for the first packet of a stretch whose place rests on arrival (or time stamp), not on the counter. */
  begins_segment: boolean;
}

/**
 * Gives each packet its place: slot n is the n-th sample of the recording, whether it arrived or not. Works from the
 * packet's counter alone while that is unambiguous; the time stamp or, after a break, the arrival time only decides how
 * often the counter has wrapped meanwhile. Late and repeated packets get the place they always had.
 */
export class PacketSequence {
  readonly slots_per_count: number;
  private readonly modulus: number;
  private readonly count_s: number;
  private readonly restarts: boolean;
  private readonly tick_s: number;
  private readonly rate_tolerance: number;
  private readonly stamp_modulus: number;
  private segment: { slot0: number; count0: number } | null = null;
  private last = { count: 0, arrival_s: 0, stamp: 0, end_slot: 0 };
  /** Least arrival minus sensor time of the recent past: what arrival is compared with. */
  private lateness_s = 0;
  private awaiting_first = true;
  private doubted: number[] = [];
  /** Added to every time stamp of this segment, ticks. */
  private stamp_offset = 0;

  constructor(description: StreamDescription, settings: StreamSettings) {
    const { packet, counter } = description;
    const per_packet = typeof packet.samples === 'number' ? packet.samples : packet.max_samples;
    this.slots_per_count = counter.counts === 'packets' ? per_packet : 1;
    this.modulus = NUMBER_CODECS[packet.header.find((entry) => entry.field === 'counter')!.type].max + 1;
    this.count_s = this.slots_per_count / settings.rate_hz;
    this.restarts = counter.on_start === 'restarts';
    this.tick_s = description.time_stamp?.tick_s ?? 0;
    this.rate_tolerance = description.rate_tolerance;
    const stamp = packet.header.find((entry) => entry.field === 'time_stamp');
    this.stamp_modulus = stamp === undefined ? 0 : NUMBER_CODECS[stamp.type].max + 1;
  }

  /** The link was made (again) and streaming was started: the next packet may have any counter. */
  linkStarted(): void {
    this.awaiting_first = true;
    this.doubted = [];
  }

  /** @returns null when the counter is impossible (a damaged packet); the packet must then not be used */
  place(packet: DecodedPacket, arrival_s: number): Placement | null {
    if (this.segment === null) return this.begin(packet, arrival_s, FIRST_SLOT, packet.time_stamp ?? 0);
    const stamp = this.unwrapStamp(packet.time_stamp, arrival_s);
    const by_arrival = (arrival_s - this.lateness_s) / this.count_s;
    const by_stamp = this.last.count + ((stamp - this.last.stamp) * this.tick_s) / this.count_s;
    const after_break = this.awaiting_first || arrival_s - this.last.arrival_s > (this.modulus * this.count_s) / 2;
    const stamped = this.stamp_modulus > 0;
    if (this.awaiting_first && this.restarts) return this.restart(packet, arrival_s, stamp, by_stamp, by_arrival);
    const predicted = stamped ? by_stamp : after_break ? by_arrival : this.last.count;
    const count = nearest(packet.counter, predicted, this.modulus);
    const ahead_s = (count - (stamped ? by_stamp : by_arrival)) * this.count_s;
    if (ahead_s > TOLERANCE_S || (after_break && !stamped && ahead_s < -2 * TOLERANCE_S)) {
      if (this.awaiting_first || this.agrees(packet.counter)) {
        return this.restart(packet, arrival_s, stamp, by_stamp, by_arrival);
      }
      return null;
    }
    this.doubted = [];
    this.awaiting_first = false;
    const first_slot = this.segment.slot0 + (count - this.segment.count0) * this.slots_per_count;
    this.advance(count, arrival_s, stamp, first_slot + packet.samples);
    return { first_slot, stamp_s: stamped ? stamp * this.tick_s : null, begins_segment: false };
  }

  private agrees(counter: number): boolean {
    const previous = this.doubted.at(-1);
    if (previous !== undefined && (counter - previous + this.modulus) % this.modulus > 4) this.doubted = [];
    this.doubted.push(counter);
    return this.doubted.length >= AGREEING_PACKETS;
  }

  /** The counter began anew: place by time stamp where that goes on, else by arrival. */
  private restart(
    packet: DecodedPacket,
    arrival_s: number,
    stamp: number,
    by_stamp: number,
    by_arrival: number,
  ): Placement {
    const stamp_goes_on = this.stamp_modulus > 0 && Math.abs(by_stamp - by_arrival) * this.count_s < 2 * TOLERANCE_S;
    const counts = (stamp_goes_on ? by_stamp : by_arrival) - this.last.count;
    const last_first_slot = this.segment!.slot0 + (this.last.count - this.segment!.count0) * this.slots_per_count;
    const slot = Math.max(this.last.end_slot, Math.round(last_first_slot + counts * this.slots_per_count));
    // Where the time stamp began anew as well, it is moved to continue where arrival says.
    const moved = this.last.stamp + (counts * this.count_s) / (this.tick_s || 1);
    return this.begin(packet, arrival_s, slot, stamp_goes_on ? stamp : Math.round(moved));
  }

  private begin(packet: DecodedPacket, arrival_s: number, slot: number, stamp: number): Placement {
    // Counts go on rising over all segments so that arrival can be predicted with one line.
    const count = Math.round(slot / this.slots_per_count);
    const count0 = nearest(packet.counter, count, this.modulus);
    this.segment = { slot0: slot, count0 };
    this.stamp_offset = stamp - (packet.time_stamp ?? 0);
    this.awaiting_first = false;
    this.doubted = [];
    this.lateness_s = arrival_s - count0 * this.count_s;
    this.last = { count: count0, arrival_s, stamp, end_slot: slot + packet.samples };
    return { first_slot: slot, stamp_s: this.stamp_modulus > 0 ? stamp * this.tick_s : null, begins_segment: true };
  }

  private unwrapStamp(raw: number | null, arrival_s: number): number {
    if (raw === null || this.stamp_modulus === 0) return 0;
    const elapsed = (arrival_s - this.last.arrival_s) / this.tick_s;
    const predicted = elapsed > this.stamp_modulus / 2 ? this.last.stamp + elapsed : this.last.stamp;
    return nearest(raw + this.stamp_offset, predicted, this.stamp_modulus);
  }

  private advance(count: number, arrival_s: number, stamp: number, end_slot: number): void {
    const lateness = arrival_s - count * this.count_s;
    // Falls at once, rises slowly, so that a slow sensor clock is followed and a stall is not.
    const risen = this.lateness_s + Math.max(0, arrival_s - this.last.arrival_s) * (this.rate_tolerance + 0.001);
    this.lateness_s = Math.min(lateness, risen);
    if (count <= this.last.count) return;
    this.last = { count, arrival_s, stamp, end_slot };
  }
}

/** The number that equals `value` modulo `modulus` and lies nearest to `predicted`. */
function nearest(value: number, predicted: number, modulus: number): number {
  return value + Math.round((predicted - value) / modulus) * modulus;
}

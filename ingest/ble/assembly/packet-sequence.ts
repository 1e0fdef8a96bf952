import type { StreamSettings } from '../../../shared/schemas/stream-description.ts';
import type { PacketStream } from '../../../shared/packet-streams.ts';
import type { DecodedPacket } from '../packets/decode-packet.ts';
import { CounterReader, nearest } from './counter-reader.ts';
import { hasDrained, type HeldPacket, leastArrival, type Run, runsOf } from './held-packets.ts';
import { LeastLateness } from './least-lateness.ts';
import { runsAfterStart } from './runs-after-start.ts';

/** A counter may run ahead of arrival by this much: while a stall at the beginning may still be draining, and later. */
const AHEAD_AT_FIRST_S = 3;
const AHEAD_S = 0.15;
/** A packet this far behind the latest is late, repeated, or the first of a counter that began anew: seconds. */
const BEHIND_S = 0.5;
/** Stamp and counter, or arrival and counter, agree within this and a part of the time between, seconds. */
const AGREE_S = 0.05;
const AGREE_PART = 0.02;
/** Stamps so near to the host's clock have not jumped, seconds. */
const SURE_S = 0.03;
/** Part of the counter's wrap after which silence makes the number of wraps a question. */
const SILENCE_PART = 0.4;
/** What is held is decided at the latest after so long, seconds. */
const PATIENCE_S = 10;
/** After start was written, packets of the time before may still come for so long, seconds. */
const SETTLE_S = 0.3;
/** Packets in a row that agree with each other but not with the past: the sensor began anew. */
const AGREEING_PACKETS = 5;
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
 * Gives each packet its place: slot n is the n-th sample of the recording, whether it arrived or not. Works from the
 * packet's counter alone while that is unambiguous. Where it is not (a silence in which it may have wrapped, a new link, a
 * counter that contradicts stamp or arrival), packets are held until what follows decides: the backlog has drained, the stamps
 * tell, or so many agree that the sensor must have begun anew. Late and repeated packets get the place they always had.
 */
export class PacketSequence {
  /** Readable packets whose counter is impossible, and packets from before the written start: none of them is used. */
  out_of_sequence_packets = 0;
  before_start_packets = 0;
  /** How often the stamps jumped while the counter went on. */
  stamp_jumps = 0;
  private readonly reader: CounterReader;
  private readonly restarts: boolean;
  private readonly rate_tolerance: number;
  private count_s: number;
  private readonly lateness = new LeastLateness();
  private segment: { slot0: number; count0: number; offset: number } | null = null;
  private last = { count: 0, arrival_s: 0, stamp_s: 0, end_slot: 0 };
  private stamp_shift_s = 0;
  private held: HeldPacket[] = [];
  private why: 'start' | 'silence' | 'doubt' = 'doubt';
  private starting: { from_s: number; started_s: number | null } | null = null;

  constructor(stream: PacketStream, settings: StreamSettings, rate_tolerance: number) {
    this.reader = new CounterReader(stream, settings);
    this.count_s = this.reader.pace_s;
    this.restarts = stream.counter?.on_start === 'restarts';
    this.rate_tolerance = rate_tolerance;
  }

  /** The true rate has been measured: a count lasts `scale` times as long as was thought. */
  rescale(scale: number): void {
    this.lateness.shift(this.last.count * this.count_s * (1 - scale));
    this.count_s *= scale;
  }

  /**
   * The link was made (again): the next packets may have any counter.
   * @param awaits_start true when `streamStarted` will follow, before which packets are of the time before
   */
  linkStarted(at_s: number, awaits_start = false): Placed[] {
    const out = this.finish();
    if (awaits_start || this.segment !== null) {
      this.starting = { from_s: at_s, started_s: awaits_start ? null : at_s };
      this.why = 'start';
    }
    return out;
  }

  /** Start is about to be written: what a sensor that begins anew sends from now on counts from its beginning. */
  startWritten(at_s: number): void {
    if (this.starting !== null) this.starting.from_s = at_s;
  }

  streamStarted(at_s: number): void {
    if (this.starting !== null) this.starting.started_s = at_s;
  }

  /** @returns the packets whose place is known now: none while they are held, many when a question is decided */
  take(packet: DecodedPacket, arrival_s: number): Placed[] {
    const one: HeldPacket = { packet, arrival_s, ...this.reader.read(packet, arrival_s) };
    if (this.goesOnAsBefore(one)) this.starting = null;
    if (this.starting === null) {
      if (this.segment === null) return [this.begin(one, FIRST_SLOT, arrival_s, 0)];
      if (this.held.length === 0 || this.why === 'doubt') {
        const fit = this.fits(one);
        if (typeof fit === 'number') return [...this.dismissDoubt(), this.accept(one, fit)];
        this.why = fit;
      }
    }
    this.held.push(one);
    return this.isDecided(arrival_s) ? this.decide() : [];
  }

  /** After a new link: a counter that has gone on just as long as the link was away leaves no question. */
  private goesOnAsBefore(one: HeldPacket): boolean {
    if (this.starting === null || this.segment === null || this.restarts || this.held.length > 0) return false;
    const fit = this.fits(one);
    if (typeof fit !== 'number' || fit <= this.last.count) return false;
    const late_s = one.arrival_s - this.lateness.value_s - fit * this.count_s;
    const away_s = one.arrival_s - this.last.arrival_s;
    return Math.abs(late_s) < 2 * AGREE_S + this.rate_tolerance * away_s;
  }

  /** The end of the recording, or of the link: decides with what is there. */
  finish(): Placed[] {
    const out = this.held.length === 0 ? [] : this.decide();
    this.starting = null;
    return out;
  }

  /** What was added to the stamps to make them continuous, seconds. */
  stampShift(): number {
    return this.stamp_shift_s;
  }

  /** The count that continues the segment, or why it cannot be told yet. */
  private fits(one: HeldPacket): number | 'silence' | 'doubt' {
    const { last } = this;
    const { modulus, pace_s, stamped } = this.reader;
    const elapsed_s = one.arrival_s - last.arrival_s;
    const stamp_step_s = stamped ? one.stamp_s! + this.stamp_shift_s - last.stamp_s : 0;
    const silent = elapsed_s > SILENCE_PART * modulus * this.count_s;
    const stamps_fit = stamped && stamp_step_s > -PATIENCE_S && stamp_step_s < elapsed_s + AHEAD_AT_FIRST_S;
    if (silent && !stamps_fit) return 'silence';
    const count = this.nearestCount(one, stamps_fit ? last.count + stamp_step_s / pace_s : last.count);
    if (stamped && !agree(stamp_step_s, (count - last.count) * pace_s)) return silent ? 'silence' : 'doubt';
    const ahead_s = count * this.count_s - (one.arrival_s - this.lateness.value_s);
    if (ahead_s > (this.lateness.known && !stamped ? AHEAD_S : AHEAD_AT_FIRST_S)) return 'doubt';
    return !stamped && (last.count - count) * this.count_s > BEHIND_S ? 'doubt' : count;
  }

  private nearestCount(one: HeldPacket, predicted: number): number {
    return nearest(one.counter + this.segment!.offset, predicted, this.reader.modulus);
  }

  /** The packet just taken continues as before: what was doubted were late or damaged ones. */
  private dismissDoubt(): Placed[] {
    const doubted = this.held;
    this.held = [];
    return doubted.flatMap((one) => {
      const count = this.nearestCount(one, this.last.count);
      if (!this.reader.stamped && count <= this.last.count) return [this.accept(one, count)];
      this.out_of_sequence_packets++;
      return [];
    });
  }

  private runs(): Run[] {
    const { modulus } = this.reader;
    return this.why === 'start' && this.restarts && this.starting !== null
      ? runsAfterStart(this.held, this.starting.from_s, modulus, this.count_s)
      : runsOf(this.held, modulus, this.count_s);
  }

  private isDecided(now_s: number): boolean {
    const { modulus, stamped } = this.reader;
    if (this.why === 'start' && this.starting!.started_s === null) return false;
    const run = this.runs().at(-1)!;
    const first_s = run.packets[0].arrival_s;
    if (now_s - first_s > PATIENCE_S) return true;
    if (this.why === 'doubt') {
      const counts = run.counts[run.counts.length - 1];
      const behind = !stamped && this.nearestCount(run.packets[0], this.last.count) < this.last.count;
      const own_pace = now_s - first_s > Math.max(0.3, (counts * this.count_s) / 2);
      return run.packets.length >= AGREEING_PACKETS && (!behind || own_pace);
    }
    if (this.why === 'start' && now_s < Math.max(this.starting!.started_s!, first_s) + SETTLE_S) return false;
    return stamped || hasDrained(run, this.count_s, modulus * this.count_s);
  }

  private decide(): Placed[] {
    const runs = this.runs();
    const final = runs.pop()!;
    const forced = this.why === 'start' && this.restarts;
    const before_start = this.why === 'start';
    this.held = [];
    this.starting = null;
    const count = this.segment === null || forced ? null : this.continues(final);
    const out = runs.flatMap((run) => this.placeEarlier(run, count, before_start));
    if (count !== null) return [...out, ...final.packets.map((one, i) => this.accept(one, count + final.counts[i]))];
    return [...out, ...this.beginRun(final)];
  }

  /** Count of a run's first packet where it continues the segment: by stamps where these go on, else by arrival; or null. */
  private continues(run: Run): number | null {
    const { last, reader } = this;
    const [first] = run.packets;
    const by_arrival = (leastArrival(run, this.count_s) - this.lateness.value_s) / this.count_s;
    const late_s = this.stampsLate(run);
    if (late_s !== null && stampsGoOn(late_s)) {
      const step_s = first.stamp_s! + this.stamp_shift_s - last.stamp_s;
      const count = this.nearestCount(first, last.count + step_s / reader.pace_s);
      if (agree(step_s, (count - last.count) * reader.pace_s)) return count;
      // Stamps that keep step with the host's clock are right, and the counter is not.
      if (Math.abs(late_s) < SURE_S) return null;
    }
    const near = this.nearestCount(first, last.count);
    const silent = first.arrival_s - last.arrival_s > SILENCE_PART * reader.modulus * this.count_s;
    // A counter that has gone on, no further than the time allows, is right even where its packets come late.
    const on = reader.stamped && !silent && near > last.count && near <= by_arrival + AGREE_S / this.count_s;
    const count = on ? near : this.nearestCount(first, by_arrival);
    const tolerance_s = AGREE_S + this.rate_tolerance * Math.abs(by_arrival - last.count) * this.count_s;
    if (tolerance_s > (reader.modulus * this.count_s) / 3) return null;
    if (!on && Math.abs(count - by_arrival) * this.count_s > tolerance_s) return null;
    if (reader.stamped) {
      this.stamp_jumps++;
      this.stamp_shift_s = last.stamp_s + (count - last.count) * reader.pace_s - first.stamp_s!;
    }
    return count;
  }

  /** How much later a run comes than its stamps say; null without stamps. */
  private stampsLate(run: Run): number | null {
    if (!this.reader.stamped) return null;
    return this.sinceLast(run) - (run.packets[0].stamp_s! + this.stamp_shift_s - this.last.stamp_s);
  }

  /** Sensor time from the latest packet to a run's first, by arrival. */
  private sinceLast(run: Run): number {
    return leastArrival(run, this.count_s) - this.lateness.value_s - this.last.count * this.count_s;
  }

  /** Packets from before the run that decided: placed where only one place is possible, else counted. */
  private placeEarlier(run: Run, next_count: number | null, before_start: boolean): Placed[] {
    const { last, reader } = this;
    const [first] = run.packets;
    if (this.segment !== null) {
      const latest = last.count + (first.arrival_s - last.arrival_s + AHEAD_S) / this.count_s;
      const limit = Math.min(next_count ?? Infinity, latest);
      const count = this.nearestCount(first, last.count);
      const places = count <= last.count ? 1 : Math.floor((limit - count) / reader.modulus) + 1 || 1;
      const step_s = (first.stamp_s ?? 0) + this.stamp_shift_s - last.stamp_s;
      const stamps_agree = !reader.stamped || agree(step_s, (count - last.count) * reader.pace_s);
      if (places === 1 && count < limit && stamps_agree) {
        return run.packets.map((one, i) => this.accept(one, count + run.counts[i]));
      }
    }
    if (before_start) this.before_start_packets += run.packets.length;
    else this.out_of_sequence_packets += run.packets.length;
    return [];
  }

  /** The sensor began anew: by its stamps where these go on, else by arrival. */
  private beginRun(run: Run): Placed[] {
    const lowest = Math.min(...run.counts);
    const per_count = this.reader.slots_per_count;
    const least_s = leastArrival(run, this.count_s);
    let slot = FIRST_SLOT;
    let shift_s = 0;
    if (this.segment !== null) {
      const late_s = this.stampsLate(run);
      const stamps_go_on = late_s !== null && stampsGoOn(late_s);
      const first_stamp_s = run.packets[0].stamp_s ?? 0;
      const since_s = this.sinceLast(run);
      const by_stamp = (first_stamp_s + this.stamp_shift_s - this.last.stamp_s) / this.reader.pace_s;
      const counts = stamps_go_on ? by_stamp : since_s / this.count_s;
      const last_slot = this.segment.slot0 + (this.last.count - this.segment.count0) * per_count;
      slot = Math.max(this.last.end_slot - lowest * per_count, Math.round(last_slot + counts * per_count));
      shift_s = stamps_go_on ? this.stamp_shift_s : this.last.stamp_s + since_s - first_stamp_s;
    }
    const begun = this.begin(run.packets[0], slot, least_s, shift_s);
    const { count0 } = this.segment!;
    return [begun, ...run.packets.slice(1).map((one, i) => this.accept(one, count0 + run.counts[i + 1]))];
  }

  private begin(one: HeldPacket, slot: number, least_s: number, stamp_shift_s: number): Placed {
    // Counts go on rising over all segments so that arrival can be predicted with one line.
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
    return {
      packet: one.packet,
      arrival_s: one.arrival_s,
      first_slot: slot,
      stamp_s: this.sentStamp(one),
      begins_segment: true,
    };
  }

  private accept(one: HeldPacket, count: number): Placed {
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

  private sentStamp({ sent_stamp_s }: HeldPacket): number | null {
    return sent_stamp_s === null ? null : sent_stamp_s + this.stamp_shift_s;
  }
}

/** Whether stamps have gone on as the host's clock has, but for packets that may be late. */
function stampsGoOn(late_s: number): boolean {
  return late_s > -0.5 && late_s < PATIENCE_S;
}

/** Two lengths of time are the same, but for jitter and a part of it. */
function agree(a_s: number, b_s: number): boolean {
  return Math.abs(a_s - b_s) < AGREE_S + AGREE_PART * Math.max(Math.abs(a_s), Math.abs(b_s));
}

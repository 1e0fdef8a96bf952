import type { StreamSettings } from '../../../shared/schemas/stream-description.ts';
import type { PacketStream } from '../../../shared/packet-streams.ts';
import type { DecodedPacket } from '../packets/decode-packet.ts';
import { NUMBER_CODECS } from '../packets/number-types.ts';

/** Contiguous packets over which the stamps' own step is learned. */
const LEARN = 32;
/** A step by this factor from the pace is a gap or a jump, not the pace of the clock. */
const PACE_LIMIT = 3;
/** Steps looked at together where no counter tells losses, and how much those of packets in a row may differ. */
const RECENT = 10;
const ALIKE = 0.2;

export interface ReadCount {
  /** The counter as sent; for a sensor that sends none, one made of its stamps. In units of `slots_per_count` samples. */
  counter: number;
  /** The stamp of the packet's first sample, unwrapped, in seconds; null where the sensor sends none. */
  stamp_s: number | null;
  /** The stamp as it was sent, of the first or the last sample, unwrapped. */
  sent_stamp_s: number | null;
}

/**
 * Reads a packet's counter and stamp: wraps of the stamp are undone, a stamp of the last sample is brought to the first, and
 * where the sensor sends no counter, the stamps themselves are counted: a step of the stamp is so many samples, by the pace
 * that stamps of packets in a row have shown.
 */
export class CounterReader {
  readonly slots_per_count: number;
  readonly modulus: number;
  /** Seconds of stamp time a count. */
  pace_s: number;
  private readonly stream: PacketStream;
  private readonly tick_s: number;
  private readonly stamp_modulus: number;
  private learned = 0;
  /** Lengths of the latest steps between packets, seconds a count: where packets are lost they are longer. */
  private steps: number[] = [];
  private last: { stamp: number; sent: number; arrival_s: number; counter: number; samples: number } | null = null;

  constructor(stream: PacketStream, settings: StreamSettings) {
    const { packet, counter, time_stamp } = stream;
    const fields = [...packet.header, ...(packet.trailer ?? [])];
    const per_packet = typeof packet.samples === 'number' ? packet.samples : packet.max_samples;
    this.stream = stream;
    this.slots_per_count = counter?.counts === 'packets' ? per_packet : 1;
    const counted = fields.find((entry) => entry.field === 'counter');
    this.modulus = counted ? NUMBER_CODECS[counted.type].max + 1 : Number.POSITIVE_INFINITY;
    this.tick_s = time_stamp?.tick_s ?? 0;
    const stamped = fields.find((entry) => entry.field === 'time_stamp');
    this.stamp_modulus = stamped ? NUMBER_CODECS[stamped.type].max + 1 : 0;
    this.pace_s = this.slots_per_count / (settings.rate_hz * (stream.rate_ratio ?? 1));
  }

  get stamped(): boolean {
    return this.stamp_modulus > 0;
  }

  read(packet: DecodedPacket, arrival_s: number): ReadCount {
    const sent = packet.time_stamp === null ? 0 : this.unwrap(packet.time_stamp, arrival_s);
    const before = this.last;
    if (this.stamped && before !== null && packet.samples === before.samples) {
      const counts = packet.counter === null ? before.samples : packet.counter - before.counter;
      this.learn(counts, (sent - before.sent) * this.tick_s, before.samples);
    }
    const first = sent - this.toFirst(packet);
    const step_s = before === null ? 0 : (first - before.stamp) * this.tick_s;
    const counter = packet.counter ?? this.count(step_s, packet.samples);
    this.last = { stamp: first, sent, arrival_s, counter, samples: packet.samples };
    if (!this.stamped) return { counter, stamp_s: null, sent_stamp_s: null };
    return { counter, stamp_s: first * this.tick_s, sent_stamp_s: sent * this.tick_s };
  }

  /** Ticks from the first sample's stamp to the one that was sent. */
  private toFirst(packet: DecodedPacket): number {
    if (this.stream.time_stamp?.of !== 'last_sample') return 0;
    return ((packet.samples - 1) * this.pace_s) / this.slots_per_count / this.tick_s;
  }

  private unwrap(raw: number, arrival_s: number): number {
    if (this.last === null || !Number.isFinite(this.stamp_modulus)) return raw;
    const elapsed = (arrival_s - this.last.arrival_s) / this.tick_s;
    const predicted = elapsed > this.stamp_modulus / 2 ? this.last.sent + elapsed : this.last.sent;
    return nearest(raw, predicted, this.stamp_modulus);
  }

  /** Without a counter: packets in a row follow at once, and what lies between others is whole packets where all are alike. */
  private count(step_s: number, samples: number): number {
    if (this.last === null) return 0;
    const steps = step_s / this.pace_s;
    const unit = typeof this.stream.packet.samples === 'number' ? this.stream.packet.samples : 1;
    const follows = Math.abs(steps - this.last.samples) < Math.min(unit > 1 ? unit : samples, this.last.samples) / 2;
    const counted = follows ? this.last.samples : Math.round(steps / unit) * unit;
    return this.last.counter + counted;
  }

  private learn(counts: number, step_s: number, samples: number): void {
    const follows = counts === (this.slots_per_count === 1 ? samples : 1);
    const step = step_s / counts;
    if (!follows || step < this.pace_s / PACE_LIMIT || step > this.pace_s * PACE_LIMIT) return;
    if (!Number.isFinite(this.modulus)) {
      // Without a counter a longer step may be a loss: the shorter ones of the latest tell the pace.
      this.steps.push(step);
      if (this.steps.length > RECENT) this.steps.shift();
      const pace = this.steps.slice().sort((a, b) => a - b)[Math.min(1, this.steps.length - 1)];
      if (this.steps.length >= RECENT / 2 && Math.abs(pace / this.pace_s - 1) > ALIKE) {
        this.pace_s = pace;
        this.learned = 0;
      }
      if (Math.abs(step / this.pace_s - 1) > ALIKE) return;
    }
    this.learned = Math.min(LEARN, this.learned + 1);
    this.pace_s += (step - this.pace_s) / this.learned;
  }
}

/** The number that equals `value` modulo `modulus` and lies nearest to `predicted`. */
export function nearest(value: number, predicted: number, modulus: number): number {
  if (!Number.isFinite(modulus)) return value;
  return value + Math.round((predicted - value) / modulus) * modulus;
}

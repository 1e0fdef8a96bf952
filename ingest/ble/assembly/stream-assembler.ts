import type { Gap, SampleBlock } from '../../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { ArrivalClock, type ArrivalFit } from './arrival-clock.ts';
import { createPacketDecoder, type DecodedPacket, fullScales } from '../packets/decode-packet.ts';
import { PacketSequence } from './packet-sequence.ts';
import { SampleSlots } from './sample-slots.ts';
import { StampClock } from './stamp-clock.ts';

export interface StreamCounts {
  packets: number;
  samples: number;
  /** Slots between the first and the last sample that no packet has filled. */
  lost_samples: number;
  duplicate_packets: number;
  unreadable_packets: number;
  /** Readable, but with an impossible counter. */
  out_of_sequence_packets: number;
  /** How often the sensor began to count anew. */
  restarts: number;
}

export interface Added {
  first_slot: number;
  packet: DecodedPacket;
}

/**
 * From packets in any order to a sample block on the sensor's clock. The one path for radio, browser and replay.
 * With `keep_s` only that much of the recent past is held, and memory stays flat however long the capture runs.
 */
export class StreamAssembler {
  readonly description: StreamDescription;
  readonly settings: StreamSettings;
  readonly counts: StreamCounts = {
    packets: 0,
    samples: 0,
    lost_samples: 0,
    duplicate_packets: 0,
    unreadable_packets: 0,
    out_of_sequence_packets: 0,
    restarts: 0,
  };
  battery_percent: number | null = null;
  private readonly decoder;
  private readonly sequence: PacketSequence;
  private readonly slots: SampleSlots;
  private readonly clock: StampClock;
  private readonly arrivals: ArrivalClock;
  private readonly keep_s: number;

  /** @throws FaultError STREAM_SETTINGS_INVALID */
  constructor(description: StreamDescription, settings: StreamSettings, keep_s = Number.POSITIVE_INFINITY) {
    this.description = description;
    this.settings = settings;
    this.decoder = createPacketDecoder(description, settings);
    this.sequence = new PacketSequence(description, settings);
    this.slots = new SampleSlots(description.gyr === null ? 3 : 6);
    this.clock = new StampClock(settings.rate_hz);
    this.arrivals = new ArrivalClock(description.time_stamp?.tolerance ?? description.rate_tolerance);
    this.keep_s = keep_s;
  }

  linkStarted(): void {
    this.sequence.linkStarted();
  }

  /**
   * Takes one packet as it came.
   * @param arrival_s host's monotonic clock, seconds
   * @returns null when nothing new came of it (damaged or repeated); the counts say which
   */
  add(bytes: Uint8Array, arrival_s: number): Added | null {
    this.counts.packets++;
    let packet: DecodedPacket;
    try {
      packet = this.decoder.decode(bytes);
    } catch {
      this.counts.unreadable_packets++;
      return null;
    }
    const place = this.sequence.place(packet, arrival_s);
    if (place === null) {
      this.counts.out_of_sequence_packets++;
      return null;
    }
    const { first_slot } = place;
    if (place.begins_segment) {
      if (this.slots.end > 0) this.counts.restarts++;
      this.clock.beginSegment(first_slot);
    }
    const added = first_slot >= 0 ? this.slots.fill(first_slot, packet.channels) : 0;
    if (added === 0) {
      this.counts.duplicate_packets++;
      return null;
    }
    this.counts.samples = this.slots.filled;
    this.counts.lost_samples = this.slots.end - this.slots.begin - this.slots.filled;
    this.battery_percent = packet.battery_percent ?? this.battery_percent;
    this.relateClocks(first_slot, packet.samples, place.stamp_s, arrival_s);
    return { first_slot, packet };
  }

  private relateClocks(first_slot: number, samples: number, stamp_s: number | null, arrival_s: number): void {
    const last_slot = first_slot + samples - 1;
    if (stamp_s !== null) {
      this.clock.addStamp(this.description.time_stamp!.of === 'first_sample' ? first_slot : last_slot, stamp_s);
    }
    const last_s = stamp_s ?? this.clock.timeOf(last_slot);
    this.arrivals.add(last_s, arrival_s);
    if (this.slots.end - this.slots.from > 1.5 * this.keep_s * this.settings.rate_hz) {
      const keep_from = this.slots.end - Math.round(this.keep_s * this.settings.rate_hz);
      this.slots.dropBefore(keep_from);
      this.clock.dropBefore(keep_from);
      this.arrivals.dropBefore(last_s - Math.max(this.keep_s, 120));
    }
  }

  /** Sensor clock against host clock; null before the first packet. */
  clockFit(): ArrivalFit | null {
    return this.arrivals.fit();
  }

  /** Slots held: from the first to one past the last. */
  get extent(): { from: number; end: number } {
    return { from: Math.max(this.slots.from, Math.min(this.slots.begin, this.slots.end)), end: this.slots.end };
  }

  /** Sensor time of the latest sample, seconds; null before the first packet. */
  latestTime(): number | null {
    return this.slots.end === 0 ? null : this.clock.timeOf(this.slots.end - 1);
  }

  /**
   * The samples between two instants of sensor time as a block that starts at 0.
   * @returns null when there is none; `first_s` is the sensor time of the block's first sample
   */
  block(
    from_s = Number.NEGATIVE_INFINITY,
    to_s = Number.POSITIVE_INFINITY,
  ): { block: SampleBlock; first_s: number } | null {
    const { from, end } = this.extent;
    if (end === 0) return null;
    // Slots outside by the nominal rate and its tolerance need not be looked at.
    const last_s = this.clock.timeOf(end - 1);
    const back = Math.ceil((last_s - from_s) * this.settings.rate_hz * (1 + this.description.rate_tolerance)) + 2;
    const all = this.slots.slotsIn(Number.isFinite(back) ? Math.max(from, end - back) : from, end);
    const times = this.clock.timesOf(all);
    let [low, high] = [0, all.length];
    while (low < high && times[low] < from_s) low++;
    while (high > low && times[high - 1] > to_s) high--;
    if (high === low) return null;
    return { block: this.toBlock(all.slice(low, high), times.slice(low, high)), first_s: times[low] };
  }

  private toBlock(slots: Float64Array, times: Float64Array): SampleBlock {
    const first_s = times[0];
    const time_s = times.map((time) => time - first_s);
    // Where a sensor began anew, its new time is only known from arrival; the column must rise all the same.
    const least_step_s = 0.01 / this.settings.rate_hz;
    for (let i = 1; i < time_s.length; i++) time_s[i] = Math.max(time_s[i], time_s[i - 1] + least_step_s);
    const gaps: Gap[] = [];
    for (let i = 1; i < slots.length; i++) {
      const missing = slots[i] - slots[i - 1] - 1;
      if (missing > 0) gaps.push({ start_s: time_s[i - 1], end_s: time_s[i], lost_samples: missing });
    }
    const column = (channel: number) => this.slots.column(channel, slots);
    const span_slots = slots[slots.length - 1] - slots[0];
    const span_s = time_s[time_s.length - 1];
    return {
      start_utc: null,
      sampling_rate_hz: span_s > 0 ? span_slots / span_s : this.settings.rate_hz,
      time_s,
      acc_mps2: { x: column(0), y: column(1), z: column(2) },
      gyr_radps: this.description.gyr === null ? null : { x: column(3), y: column(4), z: column(5) },
      gaps,
      ...fullScales(this.description, this.settings),
    };
  }
}

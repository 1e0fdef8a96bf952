import { packetStreams } from '../../../shared/packet-streams.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import type { DecodedPacket } from '../packets/decode-packet.ts';
import { ArrivalClock, type ArrivalFit } from './arrival-clock.ts';
import { blockOf } from './block-of-lanes.ts';
import type { Placed } from './packet-grid.ts';
import { StreamLane } from './stream-lane.ts';

/** Arrivals that both clocks are compared by are held at least so long, seconds. */
const LEAST_ARRIVALS_S = 120;

export interface StreamCounts {
  packets: number;
  samples: number;
  /** Slots between the first and the last sample that no packet has filled. */
  lost_samples: number;
  duplicate_packets: number;
  unreadable_packets: number;
  /** Of a kind that the description does not speak of. */
  other_packets: number;
  /** Readable, but with an impossible counter. */
  out_of_sequence_packets: number;
  /** Sent before start was written, by a counter that start set back. */
  before_start_packets: number;
  /** How often the sensor began to count anew. */
  restarts: number;
  /** How often its stamps jumped while its counter went on. */
  stamp_jumps: number;
}

/** The sampling rate as it is. */
export interface MeasuredRate {
  rate_hz: number;
  /** By the sensor's own stamps, or by the host's clock. */
  by: 'stamps' | 'arrival';
  /** True where it differs from the description's by more than that allows. */
  off: boolean;
}

/**
 * From packets in any order to a sample block on the sensor's clock. The one path for radio, browser and replay.
 * With `keep_s` only that much of the recent past is held, and memory stays flat however long the capture runs.
 */
export class StreamAssembler {
  readonly description: StreamDescription;
  readonly settings: StreamSettings;
  readonly lanes: StreamLane[];
  battery_percent: number | null = null;
  private readonly main: StreamLane;
  private readonly arrivals: ArrivalClock;
  private readonly keep_s: number;
  private readonly received = { packets: 0, unreadable_packets: 0, other_packets: 0 };
  /** Of a sensor without stamps: the rate that its samples are timed by. */
  private used_rate_hz: number;
  private rate_is_settled = false;
  private rate_looked_s = 0;

  /**
   * @param measured_rate_hz for a sensor without stamps: what an earlier part of the same recording has shown its rate to be
   * @throws FaultError STREAM_SETTINGS_INVALID
   */
  constructor(
    description: StreamDescription,
    settings: StreamSettings,
    keep_s = Number.POSITIVE_INFINITY,
    measured_rate_hz: number | null = null,
  ) {
    this.description = description;
    this.settings = settings;
    this.lanes = packetStreams(description).map((stream) => new StreamLane(description, settings, stream));
    [this.main] = this.lanes;
    this.arrivals = new ArrivalClock(description.time_stamp?.tolerance ?? description.rate_tolerance);
    this.keep_s = keep_s;
    this.used_rate_hz = settings.rate_hz;
    if (measured_rate_hz !== null && this.main.stream.time_stamp === null) this.useRate(measured_rate_hz);
  }

  get counts(): StreamCounts {
    const sum = (of: (lane: StreamLane) => number) => this.lanes.reduce((total, lane) => total + of(lane), 0);
    return {
      ...this.received,
      samples: sum((lane) => lane.slots.filled),
      lost_samples: sum((lane) => lane.lost_samples),
      duplicate_packets: sum((lane) => lane.duplicate_packets),
      out_of_sequence_packets: sum((lane) => lane.sequence.out_of_sequence_packets),
      before_start_packets: sum((lane) => lane.sequence.before_start_packets),
      restarts: sum((lane) => lane.restarts),
      stamp_jumps: sum((lane) => lane.sequence.stamp_jumps + lane.clock.jumps),
    };
  }

  /**
   * The link was made (again).
   * @param awaits_start true where `streamStarted` follows once start has been written
   */
  linkStarted(at_s = 0, awaits_start = false): void {
    for (const lane of this.lanes) this.use(lane, lane.sequence.linkStarted(at_s, awaits_start));
  }

  /** Start is about to be written. */
  startWritten(at_s: number): void {
    for (const { sequence } of this.lanes) sequence.startWritten(at_s);
  }

  /** Start has been written: the recording begins here. */
  streamStarted(at_s: number): void {
    for (const { sequence } of this.lanes) sequence.streamStarted(at_s);
  }

  /** The recording has ended: packets whose place was still open get the likeliest one. */
  finish(): void {
    for (const lane of this.lanes) this.use(lane, lane.sequence.finish());
  }

  /**
   * Takes one packet as it came.
   * @param arrival_s host's monotonic clock, seconds
   * @param source which of the description's characteristics it came from
   * @returns null when nothing new came of it (damaged or repeated); the counts say which
   */
  add(bytes: Uint8Array, arrival_s: number, source = 0): DecodedPacket | null {
    this.received.packets++;
    const lane = this.lanes.find((one) => one.takes(source, bytes));
    if (lane === undefined) {
      this.received.other_packets++;
      return null;
    }
    let packet: DecodedPacket;
    try {
      packet = lane.decode(bytes);
    } catch {
      this.received.unreadable_packets++;
      return null;
    }
    this.battery_percent = packet.battery_percent ?? this.battery_percent;
    const placed = lane.sequence.take(packet, arrival_s);
    if (placed === null) {
      lane.duplicate_packets++;
      return null;
    }
    const filled = this.use(lane, placed);
    return placed.length > 0 && filled === 0 ? null : packet;
  }

  private use(lane: StreamLane, placed: Placed[]): number {
    const filled = lane.fill(placed);
    if (lane !== this.main) return filled.length;
    for (const { last_s, arrival_s } of filled) this.arrivals.add(last_s, arrival_s);
    if (filled.length > 0) this.measureRate(filled[filled.length - 1].arrival_s);
    this.forgetOld();
    return filled.length;
  }

  private forgetOld(): void {
    for (const lane of this.lanes) {
      const kept = this.keep_s * lane.rate_hz;
      if (lane.slots.end - lane.slots.from <= 1.5 * kept) continue;
      lane.dropBefore(lane.slots.end - Math.round(kept));
      if (lane !== this.main) continue;
      this.arrivals.dropBefore(lane.clock.timeOf(lane.slots.end - 1) - Math.max(this.keep_s, LEAST_ARRIVALS_S));
    }
  }

  /** From now on samples keep their times: the rate is not corrected any more. */
  settleRate(): void {
    this.rate_is_settled = true;
  }

  /** Lets samples before an instant of sensor time go, for whoever has used them. */
  forgetBefore(sensor_s: number): void {
    for (const lane of this.lanes) {
      const shift_s = this.main.sequence.stampShift() - lane.sequence.stampShift();
      lane.dropBefore(lane.slotAt(sensor_s - shift_s));
    }
    this.arrivals.dropBefore(sensor_s - LEAST_ARRIVALS_S);
  }

  /** Once a second, for a sensor without stamps: does the host's clock agree with the rate that its samples are timed by? */
  private measureRate(now_s: number): void {
    if (this.rate_is_settled || this.main.stream.time_stamp !== null || now_s - this.rate_looked_s < 1) return;
    this.rate_looked_s = now_s;
    const measured = this.arrivals.measuredDrift();
    if (measured === null) return;
    // Once corrected, it is made better as the recording grows.
    const corrected = this.used_rate_hz !== this.settings.rate_hz;
    const limit = corrected ? measured.error : this.description.rate_tolerance + 0.002 + 4 * measured.error;
    if (Math.abs(measured.drift) > limit) this.useRate(this.used_rate_hz / (1 + measured.drift));
  }

  private useRate(rate_hz: number): void {
    const scale = this.used_rate_hz / rate_hz;
    this.used_rate_hz = rate_hz;
    for (const lane of this.lanes) {
      lane.sequence.rescale(scale);
      lane.clock.setRate(rate_hz * (lane.stream.rate_ratio ?? 1));
    }
    this.arrivals.rescale(scale);
  }

  /** The true rate; null until it can be told. */
  measuredRate(): MeasuredRate | null {
    const { rate_hz } = this.settings;
    const off = (value: number) => Math.abs(value / rate_hz - 1) > this.description.rate_tolerance + 0.002;
    const stamped = this.main.clock.stampedRate();
    if (stamped !== null) return { rate_hz: stamped, by: 'stamps', off: off(stamped) };
    if (this.arrivals.measuredDrift() === null && this.used_rate_hz === rate_hz) return null;
    const drift = this.clockFit()?.drift ?? 0;
    const by_arrival = this.used_rate_hz / (1 + drift);
    return { rate_hz: by_arrival, by: 'arrival', off: this.used_rate_hz !== rate_hz };
  }

  /** What the log must say for a part of this recording to be timed the same; null where the nominal rate is used. */
  get corrected_rate_hz(): number | null {
    return this.used_rate_hz === this.settings.rate_hz ? null : this.used_rate_hz;
  }

  /** Sensor clock against host clock; null before the first packet. */
  clockFit(): ArrivalFit | null {
    return this.arrivals.fit();
  }

  /** Slots held: from the first to one past the last. */
  get extent(): { from: number; end: number } {
    return this.main.extent;
  }

  /** Sensor time of the first sample at or after an instant; null when there is none. */
  timeFrom(sensor_s: number): number | null {
    return this.main.timeFrom(sensor_s);
  }

  /** Sensor time of the latest sample, seconds; null before the first packet. */
  latestTime(): number | null {
    const { end } = this.main.slots;
    return end === 0 ? null : this.main.clock.timeOf(end - 1);
  }

  /**
   * The samples between two instants of sensor time as a block that starts at 0.
   * @returns null when there is none; `first_s` is the sensor time of the block's first sample
   */
  block(
    from_s = Number.NEGATIVE_INFINITY,
    to_s = Number.POSITIVE_INFINITY,
  ): { block: SampleBlock; first_s: number } | null {
    const { slots, times } = this.main.cut(from_s, to_s);
    if (slots.length === 0) return null;
    return { block: blockOf(this.description, this.settings, this.lanes, slots, times), first_s: times[0] };
  }
}

import { dataCharacteristics, type PacketStream } from '../../../shared/packet-streams.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { CHANNELS, createPacketDecoder, type DecodedPacket } from '../packets/decode-packet.ts';
import type { Placed } from './packet-grid.ts';
import { PacketSequence } from './packet-sequence.ts';
import { SampleSlots } from './sample-slots.ts';
import { StampClock } from './stamp-clock.ts';

/** Where a sensor began anew, its times may lie this much out of order, seconds. */
const MARGIN_S = 0.1;

/** What a packet led to: samples that were new, at their time. */
export interface Filled {
  last_s: number;
  arrival_s: number;
}

/** One kind of packet of a sensor: decoded, put in its place, timed by its own stamps or counter. */
export class StreamLane {
  readonly stream: PacketStream;
  /** Which of the description's characteristics it comes from. */
  readonly source: number;
  readonly rate_hz: number;
  /** Indices of the block's channels that it carries, in the order of `slots`. */
  readonly carries: number[];
  readonly sequence: PacketSequence;
  readonly slots: SampleSlots;
  readonly clock: StampClock;
  duplicate_packets = 0;
  restarts = 0;
  private readonly decoder;

  constructor(description: StreamDescription, settings: StreamSettings, stream: PacketStream) {
    this.stream = stream;
    this.source = dataCharacteristics(description).findIndex(
      (one) => one.service_uuid === stream.service_uuid && one.characteristic_uuid === stream.characteristic_uuid,
    );
    this.rate_hz = settings.rate_hz * (stream.rate_ratio ?? 1);
    this.decoder = createPacketDecoder(description, settings, stream);
    this.carries = channelsOf(description, stream);
    this.sequence = new PacketSequence(stream, settings, description.rate_tolerance);
    this.slots = new SampleSlots(this.carries.length);
    this.clock = new StampClock(this.rate_hz);
  }

  takes(source: number, bytes: Uint8Array): boolean {
    const { kind } = this.stream;
    return source === this.source && (kind === undefined || bytes[kind.at] === kind.value);
  }

  /** @throws FaultError PACKET_UNREADABLE */
  decode(bytes: Uint8Array): DecodedPacket {
    return this.decoder.decode(bytes);
  }

  /** Fills what has found its place. */
  fill(placed: Placed[]): Filled[] {
    return placed.flatMap(({ packet, arrival_s, first_slot, stamp_s, begins_segment }) => {
      if (begins_segment) {
        if (this.slots.end > 0) this.restarts++;
        this.clock.beginSegment(first_slot);
      }
      const columns = this.carries.map((channel) => packet.channels[channel]);
      const added = first_slot >= 0 ? this.slots.fill(first_slot, columns) : 0;
      if (added === 0) {
        this.duplicate_packets++;
        return [];
      }
      const last_slot = first_slot + packet.samples - 1;
      if (stamp_s !== null) {
        this.clock.addStamp(this.stream.time_stamp!.of === 'first_sample' ? first_slot : last_slot, stamp_s);
      }
      return [{ last_s: this.clock.timeOf(last_slot), arrival_s }];
    });
  }

  get lost_samples(): number {
    return this.slots.end === 0 ? 0 : this.slots.end - this.slots.begin - this.slots.filled;
  }

  /** Slots held: from the first to one past the last. */
  get extent(): { from: number; end: number } {
    return { from: Math.max(this.slots.from, Math.min(this.slots.begin, this.slots.end)), end: this.slots.end };
  }

  /** Slots between two instants of sensor time, and their times. */
  cut(from_s: number, to_s: number): { slots: Float64Array; times: Float64Array } {
    if (this.extent.end === 0) return { slots: new Float64Array(0), times: new Float64Array(0) };
    const margin = Math.ceil(MARGIN_S * this.rate_hz);
    const all = this.slots.slotsIn(this.slotAt(from_s) - margin, this.slotAt(to_s) + margin);
    const times = this.clock.timesOf(all);
    let [low, high] = [0, all.length];
    while (low < high && times[low] < from_s) low++;
    while (high > low && times[high - 1] > to_s) high--;
    return { slots: all.slice(low, high), times: times.slice(low, high) };
  }

  /** Sensor time of the first sample at or after an instant; null when there is none. */
  timeFrom(time_s: number): number | null {
    const slot = this.slots.nextFilled(this.slotAt(time_s));
    return slot === null ? null : this.clock.timeOf(slot);
  }

  /** The first slot held whose time is not before an instant, filled or not; `extent.end` when there is none. */
  slotAt(time_s: number): number {
    let { from: low, end: high } = this.extent;
    while (low < high) {
      const middle = Math.floor((low + high) / 2);
      if (this.clock.timeOf(middle) < time_s) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  dropBefore(slot: number): void {
    this.slots.dropBefore(slot);
    this.clock.dropBefore(slot);
  }
}

/** Block channels of a kind of packet, after its axes are mapped. */
function channelsOf(description: StreamDescription, stream: PacketStream): number[] {
  return CHANNELS.flatMap((name, index) => {
    const quantity = name.startsWith('acc') ? description.acc : description.gyr;
    if (quantity === null) return [];
    const raw = quantity.axes[name[4] as 'x' | 'y' | 'z'][1];
    return stream.packet.sample.some(({ channel }) => channel === `${name.slice(0, 3)}_${raw}`) ? [index] : [];
  });
}

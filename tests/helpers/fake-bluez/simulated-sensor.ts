/**
 * What is inside a sensor of the fake radio: it samples on its own clock from the moment it is made, packs samples as its
 * stream description says, and hands over packets on a grid of connection intervals with the losses asked for.
 */
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import type { StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { dataCharacteristics, type PacketStream, packetStreams } from '../../../shared/packet-streams.ts';
import { hexBytes } from '../../../shared/stream-writes.ts';
import { numberedBlock } from '../numbered-samples.ts';
import type { FakeSensor } from './fake-sensor.ts';
import type { Disturbances, SimulatedSensorOptions } from './sensor-options.ts';

export type { Disturbances, SimulatedSensorOptions } from './sensor-options.ts';

interface Packet {
  source: number;
  bytes: Uint8Array;
}

/** Recorded streams begin so long after the first sensor is started: until then all should be connected. */
const RECORDED_DELAY_S = 2;
let recorded_from_s: number | null = null;

export class SimulatedSensor implements FakeSensor {
  readonly options: SimulatedSensorOptions;
  readonly settings: StreamSettings;
  disturbances: Disturbances;
  /** First and one past the last sample taken since streaming first began. */
  first_sample: number | null = null;
  end_sample = 0;
  delivered_packets = 0;
  dropped_packets = 0;
  /** Host time at which the last packet was handed over, by packet number of a recorded stream. */
  last_delivery_s = 0;
  writes: string[] = [];
  private readonly born_s = now();
  private streaming_from: number | null = null;
  private packed_to = 0;
  private counted = 0;
  private to_answer: { characteristic_uuid: string; bytes: Uint8Array }[] = [];
  private recorded_next = 0;
  private held: Packet[] = [];
  private release_s = 0;
  private random = 12345;

  constructor(options: SimulatedSensorOptions) {
    this.options = options;
    this.settings = options.settings ?? defaultSettings(options.description);
    this.disturbances = options.disturbances ?? {};
    this.counted = options.first_counter ?? 0;
  }

  /** @returns false when the description knows no such write */
  write(bytes: string): boolean {
    this.writes.push(bytes);
    const { start, stop, rates, acc, gyr } = this.options.description;
    const all = [...start, ...stop, ...[...rates, ...acc.ranges, ...(gyr?.ranges ?? [])].flatMap((o) => o.writes)];
    const asked = all.find((entry) => entry.bytes === bytes)?.answer;
    if (asked) {
      const { characteristic_uuid, begins_with } = asked;
      this.to_answer.push({ characteristic_uuid, bytes: hexBytes(begins_with) });
    }
    // A write that holds the time has other bytes each time.
    const timed = all.some((entry) => entry.host_time && entry.bytes.slice(0, 2) === bytes.slice(0, 2));
    if (start.some((entry) => entry.bytes === bytes)) this.start();
    else if (timed) return true;
    else if (stop.some((entry) => entry.bytes === bytes)) this.streaming_from = null;
    else {
      const known = [...rates, ...acc.ranges, ...(gyr?.ranges ?? [])].flatMap((option) => option.writes);
      if (!known.some((entry) => entry.bytes === bytes)) return false;
      const rate = rates.find((option) => option.writes.some((entry) => entry.bytes === bytes));
      if (rate) this.settings.rate_hz = rate.rate_hz;
    }
    return true;
  }

  private start(): void {
    const per_packet = this.perPacket();
    recorded_from_s ??= now() + (this.options.recorded_delay_s ?? RECORDED_DELAY_S);
    if (this.options.description.counter?.on_start === 'restarts') {
      this.packed_to = this.sampleNow();
      this.counted = 0;
    } else if (this.first_sample === null) {
      this.packed_to = Math.floor(this.sampleNow() / per_packet) * per_packet;
    }
    this.first_sample ??= this.packed_to;
    this.streaming_from = this.packed_to;
    this.held = [];
  }

  /** Drops the link: what is sampled meanwhile is never sent. */
  linkLost(): void {
    this.streaming_from = null;
    this.held = [];
  }

  /** Packets to deliver now; `linked` false lets the sensor sample on without sending. */
  due(linked: boolean): Packet[] {
    if (linked && this.options.unasked && this.streaming_from === null) this.start();
    const made = this.options.recorded ? this.takeRecorded() : this.takeNumbered();
    if (!linked || this.streaming_from === null) return [];
    const { drop = 0, repeat = 0, reorder = false, burst_ms = 0, stall_ms = 0 } = this.disturbances;
    for (const packet of made) {
      if (this.nextRandom() < drop) this.dropped_packets++;
      else this.held.push(...(this.nextRandom() < repeat ? [packet, packet] : [packet]));
    }
    if (stall_ms > 0) {
      this.release_s = now() + stall_ms / 1000;
      this.disturbances = { ...this.disturbances, stall_ms: 0 };
    }
    if (now() < this.release_s) return [];
    if (burst_ms > 0) this.release_s = now() + burst_ms / 1000;
    const out = this.held;
    this.held = [];
    if (reorder) out.reverse();
    this.delivered_packets += out.length;
    if (out.length > 0) this.last_delivery_s = now();
    return out;
  }

  private perPacket(): number {
    const { packet } = this.options.description;
    return typeof packet.samples === 'number' ? packet.samples : packet.max_samples;
  }

  private sampleNow(): number {
    return Math.floor((now() - this.born_s) * this.settings.rate_hz * (1 + (this.options.drift ?? 0)));
  }

  private takeNumbered(): Packet[] {
    const per_packet = this.perPacket();
    const goes_on = this.options.description.counter?.on_start !== 'restarts' && this.first_sample !== null;
    if (this.streaming_from === null && !goes_on) return [];
    const packets: Packet[] = [];
    const end = this.sampleNow();
    const streams = packetStreams(this.options.description);
    while (this.packed_to + per_packet <= end) {
      packets.push(...streams.flatMap((stream) => this.pack(stream, per_packet)));
      this.packed_to += per_packet;
      this.counted += this.options.description.counter?.counts === 'packets' ? 1 : per_packet;
      this.end_sample = this.packed_to;
    }
    return packets;
  }

  /** One kind of packet for the next samples. */
  private pack(stream: PacketStream, per_packet: number): Packet[] {
    const { description, battery_percent = 90 } = this.options;
    const every = Math.round(1 / (stream.rate_ratio ?? 1));
    const whole = numberedBlock(description, per_packet, this.packed_to, this.settings);
    const pick = (column: Float64Array) => column.filter((_, i) => i % every === 0);
    const axes = (of: typeof whole.acc_mps2) => ({ x: pick(of.x), y: pick(of.y), z: pick(of.z) });
    const block = {
      ...whole,
      time_s: pick(whole.time_s),
      acc_mps2: axes(whole.acc_mps2),
      gyr_radps: whole.gyr_radps && axes(whole.gyr_radps),
    };
    const source = dataCharacteristics(description).findIndex(
      (one) => one.characteristic_uuid === stream.characteristic_uuid,
    );
    return encodePackets(description, this.settings, block, {
      stream,
      first_counter: this.counted,
      first_time_s: this.packed_to / this.settings.rate_hz,
      battery_percent,
    }).map(({ bytes }) => ({ source, bytes }));
  }

  answers(): { characteristic_uuid: string; bytes: Uint8Array }[] {
    return this.to_answer.splice(0);
  }

  report() {
    const { first_sample, end_sample, delivered_packets, dropped_packets, writes, last_delivery_s, settings } = this;
    return {
      first_sample,
      end_sample,
      delivered_packets,
      dropped_packets,
      writes,
      last_delivery_s,
      rate_hz: settings.rate_hz,
    };
  }

  close(): void {}

  private takeRecorded(): Packet[] {
    const recorded = this.options.recorded!;
    const packets: Packet[] = [];
    if (recorded_from_s === null) return packets;
    const elapsed_s = now() - recorded_from_s;
    while (this.recorded_next < recorded.length && recorded[this.recorded_next].due_s <= elapsed_s) {
      packets.push({ source: 0, bytes: Buffer.from(recorded[this.recorded_next++].bytes, 'hex') });
    }
    return packets;
  }

  private nextRandom(): number {
    this.random = (this.random * 48271) % 2147483647;
    return this.random / 2147483647;
  }
}

function now(): number {
  return Number(process.hrtime.bigint()) / 1e9;
}

/**
 * A recording over a radio that misbehaves, made from a seed: losses, stalls, bursts, wrong order, repeats, reconnects, stamps
 * that jump, a clock that drifts. Every sample carries its own number, so that what comes out can be held against what was sent.
 */
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { type EncodedPacket, encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { dataCharacteristics, packetStreams } from '../../../shared/packet-streams.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { account, numberedBlock, numbersOf } from '../numbered-samples.ts';
import { uniform } from '../random.ts';

export interface SeededResult {
  seed: number;
  faults: string[];
  sent: number;
  stored: number;
  /** Samples stored twice, and samples that are neither stored nor in a told gap. */
  repeated: number;
  unaccounted: number;
  /** Within stretches that the sensor's own clock or counter times: greatest error, seconds. */
  worst_s: number;
  /** Greatest error at a join that only arrival could place (a sensor without stamps that began anew), seconds. */
  worst_join_s: number;
  joins: number;
}

interface Flying extends EncodedPacket {
  source: number;
  arrival_s: number;
}

const LENGTH_S = 12;

export function seededRun(description: StreamDescription, seed: number): SeededResult {
  const random = uniform(seed);
  const chance = (part: number) => random() < part;
  const between = (low: number, high: number) => low + (high - low) * random();
  const settings = defaultSettings(description);
  const { rate_hz } = settings;
  const drift = between(-1, 1) * Math.min(60e-6, description.rate_tolerance / 2);
  const faults: string[] = [`drift ${(drift * 1e6).toFixed(0)} ppm`];
  const first = Math.floor(between(0, 4e5));
  const sources = dataCharacteristics(description);
  const interval_s = between(0.0075, 0.03);
  const link_s = chance(0.4) ? between(0.2, 0.8) * LENGTH_S : Number.POSITIVE_INFINITY;
  const anew = Number.isFinite(link_s);
  const can_jump = description.time_stamp !== null && description.counter !== null && !anew;
  const jump_s = can_jump && chance(0.4) ? between(-20, 20) : 0;
  // What changes the sensor's own count or clock does so between two packets of every kind.
  const grid = 720;
  const cut = Math.round(((anew ? link_s : LENGTH_S / 2) * rate_hz) / grid) * grid;
  const counter = Math.floor(between(0, 70_000));
  if (jump_s !== 0) faults.push(`stamps jump ${jump_s.toFixed(1)} s`);
  let flying = packetStreams(description).flatMap((stream): Flying[] => {
    const ratio = stream.rate_ratio ?? 1;
    const source = sources.findIndex((one) => one.characteristic_uuid === stream.characteristic_uuid);
    const per_packet = typeof stream.packet.samples === 'number' ? stream.packet.samples : stream.packet.max_samples;
    const piece = (from: number, to: number, first_counter: number, ahead_s: number) => {
      const block = numberedBlock(description, to - from, first + from, settings);
      const own = ratio === 1 ? block : thinned(block, ratio);
      const first_time_s = 3000 + (first + from) / rate_hz + ahead_s;
      return encodePackets(description, settings, own, { stream, first_counter, first_time_s }).map((packet) => ({
        ...packet,
        first_sample: packet.first_sample + from * ratio,
      }));
    };
    const sent = (cut * ratio) / (stream.counter?.counts === 'samples' ? 1 : per_packet);
    const restarts = anew && stream.counter?.on_start === 'restarts';
    const all = [
      ...piece(0, cut, counter, 0),
      ...piece(cut, LENGTH_S * rate_hz, restarts ? 0 : counter + sent, jump_s),
    ];
    return all.map((packet) => {
      const last_s = (packet.first_sample + packet.samples - 1) / (rate_hz * ratio) / (1 + drift);
      return { ...packet, source, arrival_s: 5000 + Math.ceil((last_s + 1e-6) / interval_s) * interval_s };
    });
  });
  // The first and the last packet of each kind come through, so that the ends are known.
  const ends = new Set(sources.flatMap((_, source) => edges(flying.filter((packet) => packet.source === source))));
  if (chance(0.5)) {
    const part = between(0.005, 0.08);
    faults.push(`${(100 * part).toFixed(1)} % lost`);
    flying = flying.filter((packet) => ends.has(packet) || !chance(part));
  }
  for (let n = Math.floor(between(0, 3)); n > 0; n--) {
    const [from_s, length_s] = [5000 + between(0.3, 0.7) * LENGTH_S, between(0.2, 3)];
    if (chance(0.5)) {
      faults.push(`${length_s.toFixed(1)} s lost`);
      flying = flying.filter(({ arrival_s }) => arrival_s < from_s || arrival_s > from_s + length_s);
    } else {
      faults.push(`stalled ${length_s.toFixed(1)} s`);
      for (const packet of flying) {
        const due_s = packet.arrival_s;
        if (due_s > from_s && due_s < from_s + length_s) packet.arrival_s = from_s + length_s + 1e-4 * (due_s - from_s);
      }
    }
  }
  // A host that reads late reads in order.
  const jitter_s = between(0, 0.02);
  flying.sort((a, b) => a.arrival_s - b.arrival_s);
  let read_s = 0;
  for (const packet of flying) {
    read_s = Math.max(read_s + 1e-6, packet.arrival_s + jitter_s * random() ** 3);
    packet.arrival_s = read_s;
  }
  if (chance(0.2)) {
    faults.push('wrong order');
    for (let i = 1; i + 1 < flying.length - 1; i++) {
      if (!chance(0.02) || flying[i].arrival_s - flying[i - 1].arrival_s > 0.1) continue;
      [flying[i].arrival_s, flying[i - 1].arrival_s] = [flying[i - 1].arrival_s, flying[i].arrival_s];
    }
  }
  if (chance(0.3)) {
    faults.push('sent twice');
    flying = flying.flatMap((packet) =>
      chance(0.05) ? [packet, { ...packet, arrival_s: packet.arrival_s + 0.01 }] : [packet],
    );
  }
  flying.sort((a, b) => a.arrival_s - b.arrival_s);
  const assembler = new StreamAssembler(description, settings);
  assembler.linkStarted(4999);
  let linked = !anew;
  if (anew) {
    faults.push('link made anew');
    const away_s = between(0.3, 2);
    const at_s = 5000 + cut / rate_hz / (1 + drift) + 0.03;
    flying = flying.filter(({ arrival_s }) => arrival_s < at_s || arrival_s > at_s + away_s);
  }
  const broken_s = 5000 + cut / rate_hz / (1 + drift) + 0.03;
  for (const { bytes, arrival_s, source } of flying) {
    if (!linked && arrival_s > broken_s) {
      linked = true;
      assembler.linkStarted(arrival_s - 0.2);
    }
    assembler.add(bytes, arrival_s, source);
  }
  assembler.finish();
  const made = assembler.block()!.block;
  const numbers = Array.from({ length: LENGTH_S * rate_hz }, (_, i) => first + i);
  // What was sent after the last packet that came is not claimed.
  const stored = numbersOf(made, description, settings);
  const sent = numbers.filter((n) => n >= stored[0] && n <= Math.max(...stored));
  const result = account(made, description, sent, (n) => n / rate_hz, settings);
  return {
    seed,
    faults,
    sent: result.sent,
    stored: result.stored,
    repeated: result.repeated,
    unaccounted: result.unaccounted,
    worst_s: result.worst_time_error_s,
    worst_join_s: 0,
    joins: assembler.counts.restarts,
  };
}

function edges<T>(all: T[]): T[] {
  return all.length === 0 ? [] : [all[0], all[all.length - 1]];
}

function thinned(block: ReturnType<typeof numberedBlock>, ratio: number): typeof block {
  const every = Math.round(1 / ratio);
  const pick = (column: Float64Array) => column.filter((_, i) => i % every === 0);
  const axes = (of: typeof block.acc_mps2) => ({ x: pick(of.x), y: pick(of.y), z: pick(of.z) });
  return {
    ...block,
    time_s: pick(block.time_s),
    acc_mps2: axes(block.acc_mps2),
    gyr_radps: block.gyr_radps && axes(block.gyr_radps),
  };
}

import { describe, expect, it } from 'vitest';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { type EncodedPacket, encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { account, numberedBlock } from '../../helpers/numbered-samples.ts';

const [bramble, teasel] = shippedDescriptions();

/** Same numbers on every run (Park and Miller 1988). */
function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

interface Sent extends EncodedPacket {
  arrival_s: number;
}

/** A minute of packets on a radio with a 15 ms connection interval; the sensor's clock runs fast by `drift`. */
function minute(description: StreamDescription, seconds = 60, drift = 40e-6, first_counter = 0): Sent[] {
  const settings = defaultSettings(description);
  const random = randomNumbers(7);
  const block = numberedBlock(description, Math.round(seconds * settings.rate_hz));
  return encodePackets(description, settings, block, { first_counter, first_time_s: 100 }).map((packet) => {
    const last_s = (packet.first_sample + packet.samples - 1) / settings.rate_hz / (1 + drift);
    return { ...packet, arrival_s: 5000 + Math.ceil((last_s + 0.004) / 0.015) * 0.015 + 0.002 * random() };
  });
}

function numbers(packets: EncodedPacket[]): number[] {
  return packets.flatMap((packet) => Array.from({ length: packet.samples }, (_, i) => packet.first_sample + i));
}

function play(description: StreamDescription, packets: Sent[], keep_s?: number): StreamAssembler {
  const assembler = new StreamAssembler(description, defaultSettings(description), keep_s);
  assembler.linkStarted();
  for (const packet of packets) assembler.add(packet.bytes, packet.arrival_s);
  assembler.finish();
  return assembler;
}

describe.each([bramble, teasel])('assembling the stream of $id', (description) => {
  const rate_hz = defaultSettings(description).rate_hz;
  const ownTime = (n: number) => n / rate_hz;
  const hold = (assembler: StreamAssembler, sent: EncodedPacket[]) =>
    account(assembler.block()!.block, description, numbers(sent), ownTime);

  it('stores every sample of a clean minute once, at its time', () => {
    const sent = minute(description);
    const assembler = play(description, sent);
    const result = hold(assembler, sent);
    expect(result).toMatchObject({ sent: 60 * rate_hz, stored: 60 * rate_hz, repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-4);
    expect(assembler.counts.lost_samples).toBe(0);
    expect(assembler.block()!.block.sampling_rate_hz).toBeCloseTo(rate_hz, 1);
  });

  it('counts 5 per cent of lost packets as gaps, and misplaces none', () => {
    const sent = minute(description);
    const random = randomNumbers(11);
    const kept = sent.filter((_, i) => i === 0 || i === sent.length - 1 || random() > 0.05);
    const assembler = play(description, kept);
    const result = hold(assembler, sent);
    expect(result).toMatchObject({ repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
    expect(assembler.counts.lost_samples).toBe(numbers(sent).length - numbers(kept).length);
    const told = assembler.block()!.block.gaps.reduce((sum, gap) => sum + gap.lost_samples!, 0);
    expect(told).toBe(assembler.counts.lost_samples);
  });

  it('puts packets that come in the wrong order, twice, or after a 5 s stall in one burst in their places', () => {
    const sent = minute(description);
    const random = randomNumbers(3);
    const stall_from_s = sent[0].arrival_s + 20;
    const mixed = sent
      .flatMap((packet) => (random() < 0.1 ? [packet, packet] : [packet]))
      .map((packet) => {
        const late = packet.arrival_s > stall_from_s && packet.arrival_s < stall_from_s + 5;
        return { packet, order: (late ? stall_from_s + 5 : packet.arrival_s) + 0.1 * random(), late };
      })
      .sort((a, b) => a.order - b.order)
      .map(({ packet, order }) => ({ ...packet, arrival_s: order }));
    const assembler = play(description, mixed);
    const result = hold(assembler, sent);
    expect(result).toMatchObject({ repeated: 0, unaccounted: 0, stored: numbers(sent).length });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
    expect(assembler.counts.duplicate_packets).toBe(mixed.length - sent.length);
  });

  it('follows the counter through its wrap', () => {
    const modulus = description.packet.header[0].type === 'uint8' ? 256 : 65536;
    const sent = minute(description, 60, 40e-6, modulus - 20);
    const result = hold(play(description, sent), sent);
    expect(result).toMatchObject({ repeated: 0, unaccounted: 0, stored: numbers(sent).length });
  });

  it('goes on after a break of 7 s during which the counter may have wrapped', () => {
    const sent = minute(description);
    const from_s = sent[0].arrival_s + 30;
    const kept = sent.filter((packet) => packet.arrival_s < from_s || packet.arrival_s > from_s + 7);
    const assembler = new StreamAssembler(description, defaultSettings(description));
    assembler.linkStarted();
    for (const packet of kept) {
      // A sensor whose counter goes on over the break; one that begins anew is the next test.
      if (packet.arrival_s > from_s && description.counter?.on_start === 'continues') assembler.linkStarted();
      assembler.add(packet.bytes, packet.arrival_s);
    }
    assembler.finish();
    const result = hold(assembler, sent);
    expect(result).toMatchObject({ repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
  });

  it('rejects a damaged counter instead of tearing the recording apart', () => {
    if (description.time_stamp !== null) return; // There the stamp decides; see the test of impossible stamps below.
    const sent = minute(description, 10);
    const damaged = sent.map((packet, i) => {
      if (i !== 100) return packet;
      const bytes = packet.bytes.slice();
      bytes[1] ^= 0x40;
      return { ...packet, bytes };
    });
    const assembler = play(description, damaged);
    expect(assembler.counts.out_of_sequence_packets).toBe(1);
    expect(assembler.counts.lost_samples).toBe(20);
  });

  it('keeps memory bounded and still counts everything when told how much to keep', () => {
    const sent = minute(description, 60);
    const assembler = play(description, sent, 10);
    expect(assembler.counts.samples).toBe(numbers(sent).length);
    const { from, end } = assembler.extent;
    expect(end - from).toBeLessThan(20 * rate_hz + 4096);
    expect(assembler.block()!.block.time_s.at(-1)).toBeGreaterThan(9.9);
  });

  it('relates the clock to the host: drift within half an interval over the minutes, offset within 10 ms, of the truth', () => {
    const drift = 80e-6;
    const sent = minute(description, 120, drift);
    const fit = play(description, sent).clockFit()!;
    // Sensor time runs fast, so host time per sensor second is 1 - 80e-6.
    expect(Math.abs(fit.drift + drift)).toBeLessThan(0.0075 / 120 / 2);
    const first = play(description, sent.slice(0, 1)).latestTime()!;
    const at_s = fit.offset_s + first * (1 + fit.drift);
    const truth_s = 5000 + (sent[0].samples - 1) / rate_hz / (1 + drift);
    expect(at_s - truth_s).toBeGreaterThan(0);
    expect(at_s - truth_s).toBeLessThan(0.01);
    expect(fit.offset_u_s).toBeGreaterThan(0);
  });
});

describe('a sensor that begins to count anew', () => {
  it('with a time stamp that goes on, keeps its time to 1 ms over 20 breaks', () => {
    const settings = defaultSettings(teasel);
    const sent: Sent[] = [];
    const assembler = new StreamAssembler(teasel, settings);
    for (let piece = 0; piece < 21; piece++) {
      const first = piece * 1111;
      const packets = encodePackets(teasel, settings, numberedBlock(teasel, 600, first), {
        first_time_s: 4290 + first / settings.rate_hz,
      });
      assembler.linkStarted();
      for (const packet of packets) {
        const arrival_s = 70 + (first + packet.first_sample + packet.samples) / settings.rate_hz;
        sent.push({ ...packet, first_sample: first + packet.first_sample, arrival_s });
        assembler.add(packet.bytes, arrival_s);
      }
    }
    const result = account(assembler.block()!.block, teasel, numbers(sent), (n) => n / settings.rate_hz);
    expect(result).toMatchObject({ stored: 21 * 600, repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
    expect(assembler.counts.restarts).toBe(20);
    expect(assembler.block()!.block.gaps).toHaveLength(20);
  });

  it('without one, is placed by arrival, and the recording goes on after a gap', () => {
    const settings = defaultSettings(bramble);
    const assembler = new StreamAssembler(bramble, settings);
    for (const [first, counter, base_s] of [
      [0, 40_000, 0],
      [9000, 0, 9],
    ]) {
      assembler.linkStarted();
      for (const packet of encodePackets(bramble, settings, numberedBlock(bramble, 4000, first), {
        first_counter: counter,
      })) {
        assembler.add(packet.bytes, 300 + base_s + (packet.first_sample + packet.samples) / 1000);
      }
    }
    const { block } = assembler.block()!;
    expect(block.gaps).toHaveLength(1);
    expect(block.gaps[0].end_s - block.gaps[0].start_s).toBeCloseTo(5, 1);
    expect(account(block, bramble, [], (n) => n / 1000).worst_time_error_s).toBeLessThan(0.05);
  });

  it('whose oscillator is off by 2.5 per cent is timed by its stamps, not by its nominal rate', () => {
    const settings = defaultSettings(teasel);
    const assembler = new StreamAssembler(teasel, settings);
    const true_rate_hz = 400 * 1.025;
    const packets = encodePackets(teasel, settings, numberedBlock(teasel, 12_000));
    for (const packet of packets) {
      const last_s = (packet.first_sample + packet.samples - 1) / true_rate_hz;
      new DataView(packet.bytes.buffer).setUint32(1, Math.round(last_s * 1e6));
      assembler.add(packet.bytes, 10 + last_s);
    }
    const { block } = assembler.block()!;
    expect(block.sampling_rate_hz).toBeCloseTo(true_rate_hz, 1);
    expect(account(block, teasel, numbers(packets), (n) => n / true_rate_hz).worst_time_error_s).toBeLessThan(1e-3);
  });
});

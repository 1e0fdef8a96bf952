/**
 * Sensors that count in a byte, send before they are asked, come late, jump in time or run at another rate than described:
 * each case judged by the numbers that the stored samples carry themselves.
 */
import { inWords } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { checkDescription, readStreamDescription } from '../../../ingest/ble/description/read-stream-description.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { type EncodedPacket, encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { account, numberedBlock } from '../../helpers/numbered-samples.ts';
import { uniform } from '../../helpers/random.ts';
import { seededRun } from '../../helpers/seeded-radio/seeded-run.ts';

const [bramble, teasel] = shippedDescriptions();

/** A board as many send: a counter of one byte, three samples a packet, no time stamp, 1000 Hz. It wraps every 0.77 s. */
function byteCounter(on_start: 'continues' | 'restarts' = 'continues'): StreamDescription {
  const copy = structuredClone(bramble);
  copy.id = 'byte-counter';
  copy.packet.header = [{ field: 'counter', type: 'uint8' }];
  copy.packet.samples = 3;
  copy.packet.max_samples = 3;
  copy.counter = { counts: 'packets', on_start };
  return readStreamDescription('byte-counter', JSON.stringify(copy));
}

interface Sent extends EncodedPacket {
  sent_s: number;
  arrival_s: number;
}

/** Packets of `seconds`, numbered from `first`, each arriving on a 15 ms grid, a little late. */
function stream(
  description: StreamDescription,
  seconds: number,
  options: { first?: number; counter?: number; at_s?: number; rate_hz?: number } = {},
) {
  const { first = 0, counter = 0, at_s = 100, rate_hz = defaultSettings(description).rate_hz } = options;
  const random = uniform(5 + first);
  const block = numberedBlock(description, Math.round(seconds * rate_hz), first);
  return encodePackets(description, defaultSettings(description), block, {
    first_counter: counter,
    first_time_s: first / rate_hz,
  }).map((packet): Sent => {
    const sent_s = at_s + (packet.first_sample + packet.samples - 1) / rate_hz;
    const arrival_s = Math.ceil(sent_s / 0.015) * 0.015 + 0.002 * random();
    return { ...packet, first_sample: packet.first_sample + first, sent_s, arrival_s };
  });
}

const numbers = (packets: EncodedPacket[]) =>
  packets.flatMap((packet) => Array.from({ length: packet.samples }, (_, i) => packet.first_sample + i));

function play(description: StreamDescription, packets: Sent[]) {
  const assembler = new StreamAssembler(description, defaultSettings(description));
  for (const packet of packets) assembler.add(packet.bytes, packet.arrival_s);
  assembler.finish();
  return assembler;
}

/** Those due in a stretch come in one burst at its end. */
function stalled(packets: Sent[], from_s: number, length_s: number): Sent[] {
  return packets.map((packet) =>
    packet.arrival_s > from_s && packet.arrival_s < from_s + length_s
      ? { ...packet, arrival_s: from_s + length_s + 1e-5 * (packet.arrival_s - from_s) }
      : packet,
  );
}

describe('a counter of one byte with three samples a packet', () => {
  const description = byteCounter();

  it.each([0.5, 1, 1.7, 3, 6])('misplaces nothing when a stall of %d s is delivered late and whole', (stall_s) => {
    const sent = stalled(stream(description, 30), 112, stall_s);
    const assembler = play(description, sent);
    const result = account(assembler.block()!.block, description, numbers(sent), (n) => n / 1000);
    expect(result).toMatchObject({ stored: sent.length * 3, repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
    expect(assembler.block()!.block.gaps).toEqual([]);
    expect(assembler.counts).toMatchObject({ restarts: 0, lost_samples: 0 });
  });

  it.each([0.5, 1, 2.5, 7])('tells the gap at its true length when %d s are lost, wraps and all', (lost_s) => {
    const sent = stream(description, 30);
    const kept = sent.filter(({ sent_s }) => sent_s < 112 || sent_s > 112 + lost_s);
    const assembler = play(description, kept);
    const { block } = assembler.block()!;
    const result = account(block, description, numbers(sent), (n) => n / 1000);
    expect(result).toMatchObject({ stored: kept.length * 3, repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
    expect(block.gaps).toHaveLength(1);
    expect(block.gaps[0].lost_samples).toBe((sent.length - kept.length) * 3);
  });

  it('is warned about when its description is read, and the others are not', () => {
    const { warnings } = checkDescription(JSON.stringify(description));
    expect(inWords(warnings)).toEqual([
      { field: '/counter', words: expect.stringMatching(/every 0\.77 s.*time stamp/) },
    ]);
    for (const shipped of shippedDescriptions().filter(({ id }) => id !== 'fescue')) {
      expect(checkDescription(JSON.stringify(shipped)).warnings).toEqual([]);
    }
  });
});

describe('packets around the start command', () => {
  it.each([
    ['with stamps', teasel],
    ['without', byteCounter('restarts')],
  ])('from before it, of a counter that it sets back, are left out: %s', (_name, description) => {
    const settings = defaultSettings(description);
    const assembler = new StreamAssembler(description, settings);
    const before = stream(description, 0.9, { first: 0, counter: 23, at_s: 100 });
    const samples = description.packet.max_samples;
    const first = Math.ceil((0.9 * settings.rate_hz) / samples) * samples;
    const after = stream(description, 20, { first, counter: 0, at_s: 100 + first / settings.rate_hz });
    const written_s = after[0].arrival_s - 0.03;
    assembler.linkStarted(99, true);
    let written = false;
    let started = false;
    for (const { bytes, arrival_s } of [...before, ...after]) {
      if (!written && arrival_s > written_s) assembler.startWritten(written_s);
      written ||= arrival_s > written_s;
      if (written && !started && arrival_s > written_s + 0.06) {
        assembler.streamStarted(written_s + 0.06);
        started = true;
      }
      assembler.add(bytes, arrival_s);
    }
    assembler.finish();
    const { block } = assembler.block()!;
    const result = account(block, description, numbers(after), (n) => n / settings.rate_hz, settings);
    expect(result).toMatchObject({ stored: numbers(after).length, repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
    expect(assembler.counts).toMatchObject({ before_start_packets: before.length, duplicate_packets: 0, restarts: 0 });
  });

  it('of a link before the present one, coming late, find their old places', () => {
    const sent = stream(bramble, 30);
    const assembler = new StreamAssembler(bramble, defaultSettings(bramble));
    const late = sent.filter(({ sent_s }) => sent_s > 110 && sent_s < 110.6);
    const rest = sent.filter((packet) => !late.includes(packet) && !(packet.sent_s > 110.6 && packet.sent_s < 113));
    let linked = false;
    for (const { bytes, arrival_s } of rest) {
      if (!linked && arrival_s > 111) {
        linked = true;
        assembler.linkStarted(112.9, true);
        assembler.startWritten(112.95);
        for (const packet of late) assembler.add(packet.bytes, 112.96);
        assembler.streamStarted(112.97);
      }
      assembler.add(bytes, arrival_s);
    }
    assembler.finish();
    const result = account(assembler.block()!.block, bramble, numbers(sent), (n) => n / 1000);
    expect(result).toMatchObject({ stored: (rest.length + late.length) * 20, repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
  });

  it('of a counter set back without any word of a start begin a piece of their own', () => {
    const before = stream(bramble, 10, { counter: 345 });
    const after = stream(bramble, 10, { first: 10_000, counter: 0, at_s: 110 });
    const assembler = play(bramble, [...before, ...after]);
    const result = account(assembler.block()!.block, bramble, numbers([...before, ...after]), (n) => n / 1000);
    expect(result).toMatchObject({ stored: 20_000, repeated: 0, unaccounted: 0 });
    expect(assembler.counts.restarts).toBe(1);
    // Placed by arrival, which a connection interval blurs.
    expect(result.worst_time_error_s).toBeLessThan(0.016);
  });
});

describe('stamp clocks that jump', () => {
  it.each([0.004, 0.03, 0.7, 5, 60, -0.004, -0.7, -30])(
    'by %d s begin a new piece, said, and time goes on by the counter',
    (jump_s) => {
      const settings = defaultSettings(teasel);
      const sent = stream(teasel, 40, { first: 40_000 });
      const view = (packet: EncodedPacket) => new DataView(packet.bytes.buffer, packet.bytes.byteOffset);
      for (const packet of sent.slice(500)) {
        view(packet).setUint32(1, (view(packet).getUint32(1) + Math.round(jump_s * 1e6)) >>> 0);
      }
      const assembler = play(teasel, sent);
      const result = account(assembler.block()!.block, teasel, numbers(sent), (n) => n / settings.rate_hz);
      expect(result).toMatchObject({ stored: numbers(sent).length, repeated: 0, unaccounted: 0 });
      expect(result.worst_time_error_s).toBeLessThan(1e-3);
      expect(assembler.counts).toMatchObject({ stamp_jumps: 1, out_of_sequence_packets: 0, lost_samples: 0 });
    },
  );

  it('is not seen in the jitter of stamps that are written to the millisecond', () => {
    const sent = stream(teasel, 40);
    const random = uniform(9);
    for (const packet of sent) {
      const view = new DataView(packet.bytes.buffer, packet.bytes.byteOffset);
      view.setUint32(1, Math.round(view.getUint32(1) / 1000 + 0.8 * (random() - 0.5)) * 1000);
    }
    const assembler = play(teasel, sent);
    const result = account(assembler.block()!.block, teasel, numbers(sent), (n) => n / 400);
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
    expect(assembler.counts.stamp_jumps).toBe(0);
  });
});

describe('a rate that is not the one described', () => {
  it.each([0.96, 1.04, 0.5, 2])('by a factor of %d is measured, told, and used', (factor) => {
    const rate_hz = 1000 * factor;
    const sent = stream(bramble, 40, { rate_hz });
    const assembler = play(bramble, sent);
    expect(assembler.measuredRate()).toMatchObject({ by: 'arrival', off: true });
    expect(assembler.measuredRate()!.rate_hz / rate_hz).toBeCloseTo(1, 3);
    const { block } = assembler.block()!;
    const result = account(block, bramble, numbers(sent), (n) => n / rate_hz);
    expect(result).toMatchObject({ stored: sent.length * 20, repeated: 0, unaccounted: 0 });
    // Over the whole recording by the host's clock, which a connection interval blurs.
    expect(result.worst_time_error_s).toBeLessThan(0.016);
  });

  it('is told where stamps show it as well, and nothing is told of a rate within what the description allows', () => {
    const slow = stream(teasel, 20);
    for (const packet of slow) {
      const view = new DataView(packet.bytes.buffer, packet.bytes.byteOffset);
      view.setUint32(1, view.getUint32(1) * 2);
    }
    const at_half = slow.map((packet) => ({ ...packet, arrival_s: 100 + (packet.arrival_s - 100) * 2 }));
    const assembler = play(teasel, at_half);
    expect(assembler.measuredRate()).toMatchObject({ by: 'stamps', off: true, rate_hz: expect.closeTo(200, 1) });
    expect(account(assembler.block()!.block, teasel, numbers(slow), (n) => n / 200).worst_time_error_s).toBeLessThan(
      1e-3,
    );
    expect(play(bramble, stream(bramble, 20)).measuredRate()).toMatchObject({ off: false });
    expect(play(teasel, stream(teasel, 20)).measuredRate()).toMatchObject({ off: false });
  });
});

describe('recordings with faults from a seed', () => {
  it.each(shippedDescriptions())('of $id: every sample at its time or in a told gap, none twice', (description) => {
    for (const seed of [42, 7]) {
      expect(seededRun(description, seed)).toMatchObject({ repeated: 0, unaccounted: 0 });
      expect(seededRun(description, seed).worst_s).toBeLessThan(1e-3);
    }
  });

  // Seeds that were misplaced once: a second silence within a backlog, one packet after it taken for its end, packets sent twice
  // within a backlog longer than the counter's wrap.
  it.each([119, 245, 365, 455, 485, 719])('of a byte counter through backlogs longer than its wrap (%d)', (seed) => {
    const result = seededRun(shippedDescriptions().find(({ id }) => id === 'fescue')!, seed);
    expect(result).toMatchObject({ repeated: 0, unaccounted: 0, joins: 0 });
    expect(result.worst_s).toBeLessThan(1e-3);
  });
});

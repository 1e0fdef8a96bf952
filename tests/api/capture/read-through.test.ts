/** A packet log of any length read a stretch at a time: the same samples as when it is held whole. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { afterAll, describe, expect, it, test } from 'vitest';
import { samplesCsv, summarise } from '../../../api/capture/archive/log-content.ts';
import { readThrough, type Stretch } from '../../../api/capture/archive/read-through.ts';
import { findMissed } from '../../../api/capture/results/find-missed.ts';
import { assembleLog, readPacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { packetStreams } from '../../../shared/packet-streams.ts';
import { encodeRecord, type LogHeader, type PacketRecord } from '../../../shared/packet-record.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';
import { uniform } from '../../helpers/random.ts';
import { runningPackets } from '../../helpers/running-packets.ts';

const folder = mkdtempSync(join(tmpdir(), 'read-through-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Two parts of a recording, when each began; in between the link was away for an hour. */
const PARTS = [
  { from_s: 0, seconds: 150 },
  { from_s: 3800, seconds: 40 },
];

const AGAIN_S = 3000;

function headerOf(description: StreamDescription, settings: StreamSettings): LogHeader {
  const format = 'packet-log/1';
  return { format, sensor_id: 's', sensor_name: 's', side: 'left', mounting: 'foot', description, settings };
}

function logOf(description: StreamDescription, rate_factor: number): { file: string; bytes: Buffer } {
  const settings = { ...defaultSettings(description), rate_hz: description.rates.at(-1)!.rate_hz };
  const random = uniform(7);
  const streams = packetStreams(description);
  const characteristics = [...new Set(streams.map((stream) => stream.characteristic_uuid))];
  const packets = streams
    .flatMap((stream) => {
      const rate_hz = settings.rate_hz * (stream.rate_ratio ?? 1);
      const { packet, counter } = stream;
      const per_packet = typeof packet.samples === 'number' ? packet.samples : packet.max_samples;
      return PARTS.flatMap(({ from_s, seconds }) => {
        const slot = Math.floor((from_s * rate_hz) / per_packet) * per_packet;
        const block = numberedBlock(description, seconds * rate_hz, 0, settings);
        return encodePackets(description, settings, block, {
          stream,
          first_counter: counter?.counts === 'packets' ? slot / per_packet : slot,
          first_time_s: slot / rate_hz,
        }).map(({ bytes, first_sample, samples }) => ({
          bytes,
          source: characteristics.indexOf(stream.characteristic_uuid),
          arrival_s: 500 + (slot + first_sample + samples) / rate_hz / rate_factor + 0.01 * random(),
        }));
      });
    })
    .filter(() => random() > 0.02)
    .sort((a, b) => a.arrival_s - b.arrival_s);
  const header = headerOf(description, settings);
  const clock = { event: 'clock' as const, utc_ms: 1.79e12, monotonic_s: 500, boot_id: 'b' };
  const records: PacketRecord[] = [
    { kind: 'header', arrival_s: 500, header },
    { kind: 'event', arrival_s: 500, event: clock },
    { kind: 'event', arrival_s: 500, event: { event: 'link_started' } },
    ...packets.map((packet): PacketRecord => ({ kind: 'packet', ...packet })),
    { kind: 'event', arrival_s: AGAIN_S, event: { event: 'link_started' } },
  ];
  const bytes = Buffer.concat(records.sort((a, b) => a.arrival_s - b.arrival_s).map(encodeRecord));
  // One damaged place.
  bytes[Math.floor(bytes.length / 3)] ^= 0xff;
  const file = join(folder, `${description.id}-${rate_factor}.packets`);
  writeFileSync(file, bytes);
  return { file, bytes };
}

describe('a packet log read a stretch at a time', () => {
  it.each([
    ['with stamps', 'teasel', 1],
    ['without stamps', 'bramble', 1],
    ['without stamps, four per cent fast', 'bramble', 1.04],
    ['of several kinds of packet', 'sorrel', 1],
  ])('holds the same samples at the same times as read whole: %s', async (_what, id, rate_factor) => {
    const description = shippedDescriptions().find((one) => one.id === id)!;
    const { file, bytes } = logOf(description, rate_factor);
    const log = readPacketLog(file, bytes);
    const whole = assembleLog(log);
    const { block, first_s } = whole.block()!;
    const stretches: Stretch[] = [];
    for await (const stretch of readThrough({ file, header: log.header })) stretches.push(stretch);
    const column = (of: (stretch: Stretch) => Float64Array) => stretches.flatMap((one) => [...of(one)]);
    const times = column((one) => one.block.time_s.map((time_s) => time_s + one.first_s));
    expect(times.length).toBe(block.time_s.length);
    let worst_s = 0;
    for (const [i, time_s] of times.entries())
      worst_s = Math.max(worst_s, Math.abs(time_s - first_s - block.time_s[i]));
    // Where the rate is measured, it is that of the log's last ten minutes instead of all of it.
    expect(worst_s).toBeLessThan(rate_factor === 1 ? 1e-4 : 5e-5 * block.time_s.at(-1)!);
    expect(
      Buffer.from(Float64Array.from(column((one) => one.block.acc_mps2.x)).buffer).equals(
        Buffer.from(block.acc_mps2.x.buffer),
      ),
    ).toBe(true);
    // Put on the times of the acceleration where it comes in packets of its own, so the last digits may differ.
    const turning = column((one) => one.block.gyr_radps!.y);
    const differ = turning.filter(
      (value, i) => !(Object.is(value, block.gyr_radps!.y[i]) || Math.abs(value - block.gyr_radps!.y[i]) < 1e-9),
    );
    // Beside a gap a sample may fall to either side by rounding.
    expect(differ.length).toBeLessThan(5);
    expect(Math.max(...stretches.map((one) => one.block.time_s.at(-1)!))).toBeLessThan(10.001);

    const content = await summarise({ file, header: log.header });
    expect(content).toMatchObject({ ...whole.counts });
    // A gap between two stretches is counted once, whatever the kinds of packet that it is in.
    expect(block.gaps.length - content.gaps).toBeGreaterThanOrEqual(0);
    expect(block.gaps.length - content.gaps).toBeLessThan(packetStreams(description).length);
    expect(content.damaged_bytes).toBe(log.damaged.reduce((sum, part) => sum + part.bytes, 0));
    expect(content.rate_hz! / block.sampling_rate_hz).toBeCloseTo(1, 4);
    const lines = (await text(samplesCsv({ file, header: log.header }))).trimEnd().split('\n');
    expect(lines.length).toBe(block.time_s.length + 1);
  });
});

test('repetitions are looked for over days without a packet and past times that make no sense, and the search ends', () => {
  const [description] = shippedDescriptions();
  const settings = defaultSettings(description);
  const header = headerOf(description, settings);
  const { blocks, contacts } = runningPackets(description, settings, { seed: 5, stand_before_s: 4, stand_after_s: 4 });
  const packets = encodePackets(description, settings, blocks.left);
  const records = [0, 1e6, 1e300].flatMap((begin_s) => [
    { kind: 'event' as const, arrival_s: begin_s, event: { event: 'link_started' as const } },
    ...packets.map(
      ({ bytes, first_sample, samples }): PacketRecord => ({
        kind: 'packet',
        arrival_s: begin_s + (first_sample + samples) / settings.rate_hz,
        bytes,
      }),
    ),
  ]);
  const file = join(folder, 'days.packets');
  const first: PacketRecord = { kind: 'header', arrival_s: 0, header };
  writeFileSync(file, Buffer.concat([first, ...records].map(encodeRecord)));
  const wanted = { capture_id: 'c', sensors: [{ file, header }], first_s: 0, last_s: 1e300, handled_s: -1 };
  const found = [...findMissed(wanted)].map(({ start_s }) => Math.floor(start_s / 1e6));
  expect(contacts).toBeGreaterThan(4);
  expect(found.slice(0, 2)).toEqual([0, 1]);
});

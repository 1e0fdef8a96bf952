/** The reference sensor's own C program, through the whole path: core -> radio -> decoder -> contacts, and its memory after. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { analyse } from '../../../dsp/analyse.ts';
import { alignStreams } from '../../../ingest/ble/assembly/align-streams.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { createPacketDecoder, defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { NodeBleSource } from '../../../ingest/ble/sources/node-ble/node-ble-source.ts';
import { packetsOfRecording } from '../../../ingest/ble/sources/recording-store.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { FakeBluez, pause } from '../../helpers/fake-bluez/fake-bluez.ts';
import { compileCore, inCounts } from '../../helpers/reference-core.ts';
import { runningPackets } from '../../helpers/running-packets.ts';

const description = shippedDescriptions().find(({ id }) => id === 'reference-sensor')!;
const settings = defaultSettings(description);
const folder = mkdtempSync(join(tmpdir(), 'reference-sensor-'));
const binary = join(folder, 'core');

afterAll(() => rmSync(folder, { recursive: true, force: true }));

function compile(): void {
  const built = compileCore(binary);
  expect(built.stderr).toBe('');
  expect(built.status).toBe(0);
}

/** Commands in, lines out: the core without any radio. */
function talk(lines: string[]): string[] {
  return spawnSync(binary, { input: `${lines.join('\n')}\n`, encoding: 'utf8' })
    .stdout.trim()
    .split('\n');
}

describe('the reference sensor', () => {
  it('compiles without a warning', compile);

  it('sends counter, stamp, battery and samples as its description says', () => {
    const samples = Array.from({ length: 40 }, (_, i) => `sample ${1000 + 1250 * i} ${i} ${-i} 1024 ${2 * i} 0 -${i}`);
    const out = talk(['sample 0 9 9 9 9 9 9', 'control 1001', ...samples, 'control 1000']);
    const decoder = createPacketDecoder(description, settings);
    const packets = out.flatMap((line) =>
      line.startsWith('data') ? [decoder.decode(Buffer.from(line.slice(5), 'hex'))] : [],
    );
    expect(packets.map((packet) => [packet.counter, packet.samples, packet.time_stamp])).toEqual([
      [1, 17, 1000],
      [18, 17, 1000 + 17 * 1250],
      [35, 6, 1000 + 34 * 1250],
    ]);
    // 3900 mV between 3300 and 4200.
    expect(packets[0].battery_percent).toBe(67);
    expect(packets[1].channels[0][0]).toBeCloseTo((17 / 1024) * STANDARD_GRAVITY_MPS2, 9);
    expect(packets[0].channels[2][0]).toBeCloseTo(STANDARD_GRAVITY_MPS2, 9);
    expect(packets[2].channels[5][5]).toBeCloseTo(((-39 * 4000) / 32_768) * RADIANS_PER_DEGREE, 9);
  });

  it('refuses settings that it does not have, and what it does not know', () => {
    expect(talk(['control 11e803', 'control 119001', 'control 1210', 'control ff', 'control 32090000000000'])).toEqual([
      'refused',
      'done',
      'refused',
      'refused',
      'refused',
    ]);
  });

  it('finds its recordings again after a flat battery, whole up to the last packet', () => {
    const samples = Array.from({ length: 17 * 30 }, (_, i) => `sample ${1250 * i} ${i} 0 1024 0 0 0`);
    const out = talk(['control 2001', ...samples, 'restart', 'control 30', 'idle 9']);
    const entry = Buffer.from(out.find((line) => line.startsWith('answer 31'))!.slice(7), 'hex');
    expect(entry.readUInt32LE(3)).toBe(30 * (2 + 214));
    expect(entry.readUInt32LE(7)).toBe(30);
    expect(out.at(-1)).toBe('done');
  });

  it('is whole up to a packet wherever a flat battery cut it, and what is recorded afterwards is whole too', () => {
    const samples = Array.from({ length: 17 * 40 }, (_, i) => `sample ${1250 * i} ${i} 0 1024 0 0 0`);
    const packet = 2 + 214;
    for (const left of [0, 1, 3, 7, 12, 15, 16, 17, 100, 215, 216, 217, 231, 232, 233, 3000, 4095, 4096, 4097, 6001]) {
      const out = talk([
        `cut ${left}`,
        'control 2001',
        ...samples,
        'restart',
        'control 2001',
        ...samples,
        'control 2000',
        'control 30',
        'idle 9',
      ]);
      const entries = out
        .filter((line) => line.startsWith('answer 31'))
        .map((line) => Buffer.from(line.slice(7), 'hex'));
      const kept = entries.map((entry) => [entry.readUInt32LE(3), entry.readUInt32LE(7)]);
      // 16 bytes of mark, then packets, each behind its length.
      const whole = Math.floor((left - 16) / packet);
      const expected = left < 16 ? [] : [[packet * whole, whole]];
      expect(kept, `cut after ${left} bytes`).toEqual([...expected, [packet * 40, 40]]);
      expect(new Set(entries.map((entry) => entry.readUInt16LE(1))).size).toBe(entries.length);
    }
  });

  it('goes round its memory: order and content stay right over its end and over a restart, and the newest is never given up first', () => {
    const long = (packets: number, mark: number) =>
      Array.from({ length: 17 * packets }, (_, i) => `sample ${1250 * i} ${mark} ${i % 1000} 1024 0 0 0`);
    const record = (packets: number, mark: number) => ['control 2001', ...long(packets, mark), 'control 2000'];
    // Three of a third of the memory each: the fourth goes over its end.
    const rounds = [1, 2, 3, 4].flatMap((mark) => record(1500, mark));
    const list = (out: string[]) =>
      out
        .filter((line) => line.startsWith('answer 31'))
        .map((line) => Buffer.from(line.slice(7), 'hex'))
        .map((entry) => ({ id: entry.readUInt16LE(1), bytes: entry.readUInt32LE(3) }));
    const before = list(talk([...rounds, 'control 30', 'idle 30']));
    const after = talk([...rounds, 'restart', 'control 30', 'idle 30', 'control 320400' + '00000000', 'idle 3000']);
    expect(before.map(({ id }) => id)).toEqual([2, 3, 4]);
    expect(list(after)).toEqual(before);
    const blocks = after
      .filter((line) => line.startsWith('answer 33'))
      .map((line) => Buffer.from(line.slice(7), 'hex'));
    const content = Buffer.concat(blocks.map((block) => block.subarray(5, -4)));
    expect(content.length).toBe(1500 * 216);
    const decoder = createPacketDecoder(description, settings);
    const marks = packetsOfRecording(content).map((bytes) =>
      Math.round((decoder.decode(bytes).channels[0][0] * 1024) / STANDARD_GRAVITY_MPS2),
    );
    expect(new Set(marks)).toEqual(new Set([4]));
    expect(after.find((line) => line.startsWith('answer 34'))).toBeDefined();
    // What comes after the restart takes the place of the oldest.
    const more = list(talk([...rounds, 'restart', ...record(1500, 5), 'control 30', 'idle 30']));
    expect(more.map(({ id }) => id)).toEqual([3, 4, 5]);
  });

  it('does not tell a recording before it has ended', () => {
    const samples = Array.from({ length: 34 }, (_, i) => `sample ${1250 * i} 1 0 1024 0 0 0`);
    const out = talk([
      'control 2001',
      ...samples,
      'control 30',
      'idle 9',
      'control 320100' + '00000000',
      'control 2000',
      'control 30',
      'idle 9',
    ]);
    expect(out.filter((line) => line.startsWith('answer'))).toEqual([
      'answer 3000',
      'answer 3001',
      expect.stringMatching(/^answer 310100/),
    ]);
    expect(out).toContain('refused');
  });

  it('counts what the board could not read, in a packet of its own after it', () => {
    const sample = (n: number) => `sample ${1250 * n} ${n} 0 1024 0 0 0`;
    const numbers = (from: number, count: number) => Array.from({ length: count }, (_, i) => sample(from + i));
    const out = talk(['control 1001', ...numbers(0, 20), 'missed 7', ...numbers(27, 5), 'control 1000']);
    const decoder = createPacketDecoder(description, settings);
    const packets = out.flatMap((line) =>
      line.startsWith('data') ? [decoder.decode(Buffer.from(line.slice(5), 'hex'))] : [],
    );
    expect(packets.map(({ counter, samples, time_stamp }) => [counter, samples, time_stamp])).toEqual([
      [0, 17, 0],
      [17, 3, 17 * 1250],
      [27, 5, 27 * 1250],
    ]);
  });

  it('knows when a recording began by the time that it was told, an hour and more before', () => {
    const told = 1_795_000_000;
    const time = Buffer.alloc(4);
    time.writeUInt32LE(told);
    // A sample a minute is enough for its clock; stamps of 32 bits begin anew after 71 minutes.
    const minutes = Array.from({ length: 91 }, (_, i) => `sample ${(60_000_000 * i) % 2 ** 32} 0 0 1024 0 0 0`);
    const out = talk([
      minutes[0],
      `control 14${time.toString('hex')}`,
      ...minutes.slice(1),
      'control 2001',
      minutes[90],
      'control 2000',
      'control 30',
      'idle 9',
    ]);
    const entry = Buffer.from(out.find((line) => line.startsWith('answer 31'))!.slice(7), 'hex');
    expect(entry.readUInt32LE(11)).toBe(told + 90 * 60);
  });

  it('lets its oldest recordings give way when its memory is full', () => {
    const long = Array.from({ length: 17 * 1500 }, (_, i) => `sample ${1250 * i} 1 0 1024 0 0 0`);
    const rounds = Array.from({ length: 6 }, () => ['control 2001', ...long, 'control 2000']).flat();
    const out = talk([...rounds, 'control 30', 'idle 30']);
    const ids = out
      .filter((line) => line.startsWith('answer 31'))
      .map((line) => Buffer.from(line.slice(7), 'hex').readUInt16LE(1));
    expect(ids.length).toBeGreaterThanOrEqual(2);
    expect(ids).toContain(6);
    expect(ids).not.toContain(1);
  });

  it('from the core over the radio to the contacts, and the same again from its memory over a radio that loses blocks', async () => {
    const run = runningPackets(description, settings, { seed: 21 });
    const sides = ['left', 'right'] as const;
    const address = { left: 'C0:00:5E:00:53:2A', right: 'C0:00:5E:00:53:2B' };
    const fake = await FakeBluez.start(
      sides.map((side) => ({
        address: address[side],
        name: `Cinder ${side}`,
        description,
        core: { binary, samples: inCounts(description, run.blocks[side]) },
      })),
    );
    process.env.DBUS_SYSTEM_BUS_ADDRESS = fake.address;
    const source = new NodeBleSource(4);
    try {
      const live = sides.map(() => new StreamAssembler(description, settings));
      const links = await Promise.all(
        sides.map((side, i) => {
          live[i].linkStarted();
          return source.open(
            address[side],
            description,
            settings,
            { packet: (bytes, arrival_s) => live[i].add(bytes, arrival_s), lost: () => {} },
            { record_on_sensor: true },
          );
        }),
      );
      const samples = run.blocks.left.time_s.length;
      for (let waited = 0; live.some((one) => one.counts.samples < samples - 17) && waited < 30_000; waited += 100) {
        await pause(100);
      }
      for (const link of links) await link.close();
      for (const one of live) one.finish();
      const contactsOf = (assemblers: StreamAssembler[]) => {
        const placed = sides.map((side, i) => ({ side, mounting: 'foot' as const, assembler: assemblers[i] }));
        const { sensors } = alignStreams(placed)!;
        return analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS }).repetitions;
      };
      const [repetition] = contactsOf(live);
      expect(repetition.contacts.length).toBe(run.contacts);

      await fake.disturb(address.left, { drop: 0.03 });
      for (const [i, side] of sides.entries()) {
        const store = await source.recordings(address[side], description);
        const [entry] = await store.list();
        const part = { bytes: new Uint8Array(0), have: 0 };
        const packets = packetsOfRecording(await store.fetch(entry, part));
        expect(packets).toHaveLength(entry.packets);
        const fetched = new StreamAssembler(description, settings);
        for (const [n, bytes] of packets.entries()) fetched.add(bytes, 10 + (n * 17) / settings.rate_hz);
        fetched.finish();
        const [sent, kept] = [live[i].block()!.block, fetched.block()!.block];
        // It records from a moment after it streams, up to the same last sample.
        const from = sent.time_s.length - kept.time_s.length;
        expect(from).toBeLessThan(settings.rate_hz);
        expect(kept.acc_mps2.z).toEqual(sent.acc_mps2.z.slice(from));
        expect(kept.gyr_radps!.x).toEqual(sent.gyr_radps!.x.slice(from));
        await store.clear(entry.id);
        expect(await store.list()).toEqual([]);
        await store.close();
      }
    } finally {
      await source.close();
      await fake.close();
    }
  }, 90_000);
});

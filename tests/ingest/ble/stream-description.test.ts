import { refusalOf } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import { createPacketDecoder, defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { checkDescription, readStreamDescription } from '../../../ingest/ble/description/read-stream-description.ts';
import { speechOf } from '../../../shared/messages/speeches.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';

const [bramble, teasel] = shippedDescriptions();
const bytes = (hex: string) => Uint8Array.from(hex.split(' '), (byte) => Number.parseInt(byte, 16));

function changed(change: (description: StreamDescription) => void): string {
  const copy = structuredClone(bramble);
  change(copy);
  return JSON.stringify(copy);
}

describe('stream descriptions', () => {
  it.each([
    ['text that is not JSON', '{', /is not JSON/],
    ['a misspelt field', changed((d) => Object.assign(d, { rate: 1 })), /\/rate there is no such field/],
    ['a bad UUID', changed((d) => Object.assign(d, { service_uuid: '1814' })), /\/service_uuid/],
    ['no counter', changed((d) => d.packet.header.shift()), /exactly one counter/],
    [
      'a time stamp that no header field carries',
      changed((d) => {
        d.time_stamp = { tick_s: 1e-6, of: 'first_sample', tolerance: 1e-4 };
      }),
      /one time_stamp/,
    ],
    [
      'a signed counter',
      changed((d) => {
        d.packet.header[0].type = 'int16';
      }),
      /counter must be an unsigned integer/,
    ],
    [
      'a channel twice',
      changed((d) => {
        d.packet.sample[1].channel = 'acc_x';
      }),
      /twice/,
    ],
    [
      'a mirror image',
      changed((d) => {
        d.acc.axes.x = '-x';
      }),
      /mirror image/,
    ],
    [
      'a gyroscope without channels',
      changed((d) => {
        d.packet.sample.length = 3;
      }),
      /0 of the 3 gyr/,
    ],
    [
      'wide differences',
      changed((d) => {
        d.packet.sample[0].delta_type = 'int32';
      }),
      /wider/,
    ],
    ['an unknown number type', changed((d) => Object.assign(d.packet.sample[0], { type: 'int13' })), /uint8, int8/],
  ])('refuses %s and says where', (_name, text, message) => {
    expect(refusalOf(() => readStreamDescription('mine.json', text))).toMatch(message);
    expect(refusalOf(() => readStreamDescription('mine.json', text))).toMatch(/mine\.json/);
  });

  it('tells every fault and every warning in German as well, and has words for each pattern of the form', () => {
    const wrong = {
      ...structuredClone(bramble),
      id: 'Not Short',
      service_uuid: 'X',
      start: [{ characteristic_uuid: bramble.service_uuid, bytes: 'zz' }],
      connection: { bonding: 'with_code', code: 'abc' },
      rates: [],
      rate_tolerance: 'little',
      more: 1,
    };
    const { faults } = checkDescription(JSON.stringify({ ...wrong, name: undefined }));
    const speech = speechOf('de');
    expect(faults.map(({ field, words }) => `${field} ${speech.notice(words)}`).sort()).toEqual([
      ' „name“ fehlt',
      '/connection/code müssen sechs Ziffern sein (gefunden: "abc")',
      expect.stringMatching(/^\/id muss ein kurzer Name aus Kleinbuchstaben/),
      '/more dieses Feld gibt es nicht; ist es falsch geschrieben oder am falschen Ort?',
      '/rate_tolerance muss eine Zahl sein (gefunden: "little")',
      '/rates braucht mindestens 1 Eintrag',
      expect.stringMatching(/^\/service_uuid muss eine UUID aus 32 Hexadezimalziffern/),
      expect.stringMatching(/^\/start\/0\/bytes müssen Bytes aus je zwei Hexadezimalziffern/),
    ]);
    const narrow = structuredClone(bramble);
    narrow.packet.header[0].type = 'uint8';
    narrow.packet.max_samples = 3;
    const { warnings } = checkDescription(JSON.stringify(narrow));
    expect(warnings.map(({ words }) => speech.notice(words))).toEqual([
      expect.stringMatching(/^bei 1000 Hz beginnt der Zähler alle 0,77 s von vorn/),
    ]);
  });

  it('refuses a rate or range that the sensor does not have, and names those it has', () => {
    expect(refusalOf(() => createPacketDecoder(bramble, { ...defaultSettings(bramble), rate_hz: 333 }))).toMatch(
      /1000, 500, or 400/,
    );
  });
});

describe('packet decoder', () => {
  it('reads little-endian int16 in g and deg/s, byte by byte', () => {
    // Counter 0x0102, battery 0x5a = 90 %, one sample: acc x 2048 counts = 1 g, y -2048, z 1; gyr x 16384 counts = 1000 deg/s.
    const packet = createPacketDecoder(bramble, defaultSettings(bramble)).decode(
      bytes('02 01 5a 00 00 08 00 f8 01 00 00 40 00 c0 00 00'),
    );
    expect(packet).toMatchObject({ counter: 0x0102, battery_percent: 90, samples: 1, time_stamp: null });
    expect(packet.channels.map((channel) => channel[0])).toEqual([
      9.80665,
      -9.80665,
      9.80665 / 2048,
      expect.closeTo((1000 * Math.PI) / 180, 12),
      expect.closeTo((-1000 * Math.PI) / 180, 12),
      0,
    ]);
  });

  it('reads big-endian int24 and turns the axes', () => {
    // Counter 7, stamp 0x00010000 us, one sample; gyr 1, 2, 3 counts of 0.002; acc raw 0x000064 = 100, -100, 0x7fffff.
    const packet = createPacketDecoder(teasel, defaultSettings(teasel)).decode(
      bytes('07 00 01 00 00 01 00 01 00 02 00 03 00 00 64 ff ff 9c 7f ff ff'),
    );
    expect(packet).toMatchObject({ counter: 7, time_stamp: 65536, samples: 1 });
    // Block x is raw y, block y is raw -x, block z is raw z.
    const expected = [-100 * 0.00005, -100 * 0.00005, 8388607 * 0.00005, 0.004, -0.002, 0.006];
    packet.channels.forEach((channel, i) => {
      expect(channel[0]).toBeCloseTo(expected[i], 12);
    });
  });

  it('refuses packets that are cut, too long, empty or claim samples that are not there', () => {
    const decoder = createPacketDecoder(teasel, defaultSettings(teasel));
    const good = encodePackets(teasel, defaultSettings(teasel), numberedBlock(teasel, 15))[0].bytes;
    expect(decoder.decode(good).samples).toBe(15);
    for (const bad of [
      good.subarray(0, 3),
      good.subarray(0, good.length - 1),
      new Uint8Array(0),
      Uint8Array.of(...good, 0),
    ]) {
      expect(refusalOf(() => decoder.decode(bad))).toMatch(/bytes from Teasel/);
    }
  });

  it.each([
    ['int16', undefined, 'little'],
    ['int16', 'int8', 'little'],
    ['int24', 'int16', 'big'],
    ['int32', 'int24', 'big'],
    ['float32', undefined, 'big'],
    ['float64', undefined, 'little'],
  ] as const)('gives back what was encoded: %s, differences %s, %s-endian', (type, delta_type, byte_order) => {
    const description = structuredClone(teasel);
    description.packet.byte_order = byte_order;
    for (const entry of description.packet.sample) Object.assign(entry, { type, delta_type });
    for (const range of description.acc.ranges) range.per_count = 0.05;
    for (const range of description.gyr!.ranges) range.per_count = 0.05;
    const checked = readStreamDescription('variant', JSON.stringify(description));
    const settings = defaultSettings(checked);
    const wave = (phase: number) =>
      Float64Array.from({ length: 60 }, (_, i) => 0.05 * Math.round(100 * Math.sin(i / 9 + phase)));
    const block = { ...numberedBlock(checked, 60), acc_mps2: { x: wave(0), y: wave(1), z: wave(2) } };
    const decoder = createPacketDecoder(checked, settings);
    const decoded = encodePackets(checked, settings, block).map(({ bytes: sent }) => decoder.decode(sent));
    (['x', 'y', 'z'] as const).forEach((axis, channel) => {
      const got = decoded.flatMap((packet) => [...packet.channels[channel]]);
      got.forEach((value, i) => {
        expect(value).toBeCloseTo(block.acc_mps2[axis][i], 5);
      });
    });
  });
});

import { refusalOf } from '../../helpers/told.ts';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { BrowserSource } from '../../../ingest/ble/sources/browser-source.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { said } from '../../helpers/told.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { notice } from '../../../shared/notice.ts';
import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { decodeRecords, encodeRecord } from '../../../shared/packet-record.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';

const [bramble] = shippedDescriptions();
const settings = defaultSettings(bramble);
const sensor = { sensor_id: 'browser-1', name: 'Bramble', service_uuid: bramble.service_uuid, battery_percent: 70 };

describe('packets that a browser sends on', () => {
  let source: BrowserSource;
  let assembler: StreamAssembler;
  let lost: string[];
  beforeEach(() => {
    source = new BrowserSource();
    assembler = new StreamAssembler(bramble, settings);
    lost = [];
  });
  afterEach(() => source.close());

  const open = () =>
    source.open('browser-1', bramble, settings, {
      packet: (bytes, arrival_s) => assembler.add(bytes, arrival_s),
      lost: (reason) => lost.push(said(reason)),
    });
  /** Batches of ten packets, received on a browser's clock that is 5000 s ahead of its host's. */
  const batches = (seconds: number, zero_s: number) => {
    const records = encodePackets(bramble, settings, numberedBlock(bramble, seconds * 1000)).map((packet) =>
      encodeRecord({ kind: 'packet', arrival_s: zero_s + packet.first_sample / 1000 + 0.02, bytes: packet.bytes }),
    );
    return Array.from({ length: Math.ceil(records.length / 10) }, (_, i) =>
      Buffer.concat(records.slice(10 * i, 10 * i + 10)),
    );
  };

  it('are taken in order, once each, also when a batch is sent again because its answer was lost', async () => {
    source.announce(sensor);
    expect((await open()).information.battery_percent).toBe(70);
    for (const [i, bytes] of batches(2, 5000).entries()) {
      const records = decodeRecords(bytes).records.length;
      expect(source.receive('browser-1', 'page', 10 * i, 5000 + 0.2 * (i + 1), bytes)).toBe(10 * i + records);
      expect(source.receive('browser-1', 'page', 10 * i, 5000 + 0.2 * (i + 1), bytes)).toBe(10 * i + records);
    }
    expect(assembler.counts).toMatchObject({ samples: 2000, lost_samples: 0, duplicate_packets: 0 });
  });

  it('that a page sends once more together with what waited, as it is left, are taken from the first new one on', async () => {
    source.announce(sensor);
    await open();
    const [a, b, c] = batches(0.6, 5000);
    expect(source.receive('browser-1', 'page', 0, 5000.2, a)).toBe(10);
    expect(source.receive('browser-1', 'page', 0, 5000.4, Buffer.concat([a, b, c]))).toBe(30);
    // What follows a hole is not taken: it would be a loss that nobody can fill.
    expect(source.receive('browser-1', 'page', 40, 5000.5, a)).toBe(30);
    expect(assembler.counts).toMatchObject({ samples: 600, lost_samples: 0, duplicate_packets: 0 });
  });

  it('are put on the host’s clock by the least delay, whatever the browser’s clock shows', async () => {
    source.announce(sensor);
    await open();
    const before_s = hostTime();
    const [first] = batches(0.2, 5000);
    source.receive('browser-1', 'page', 0, 5000.2, first);
    const fit = assembler.clockFit()!;
    const last_s = fit.offset_s + assembler.latestTime()!;
    // The last packet arrived 0.18 + 0.02 - 0.2 = 0 s before the batch was sent; the batch took no time.
    expect(last_s).toBeGreaterThan(before_s - 0.05);
    expect(last_s).toBeLessThan(hostTime() + 0.001);
  });

  it('are left with the browser while no capture runs', () => {
    source.announce(sensor);
    expect(source.receive('browser-1', 'page', 0, 1, batches(0.2, 0)[0])).toBe(0);
  });

  it('of a sensor that the server knows no more, after it was started again, are refused until it is announced', () => {
    expect(refusalOf(() => source.receive('browser-1', 'page', 7, 1, new Uint8Array(0)))).toMatch(/held by a browser/);
    source.announce(sensor);
    expect(source.receive('browser-1', 'page', 0, 1, new Uint8Array(0))).toBe(0);
  });

  it('are refused whole where a record is damaged, and the batch is still waited for', async () => {
    source.announce(sensor);
    await open();
    const [first] = batches(0.2, 0);
    const damaged = Buffer.from(first);
    damaged[40] ^= 1;
    for (const bytes of [damaged, first.subarray(0, first.length - 1)])
      expect(() => source.receive('browser-1', 'page', 0, 1, bytes)).toThrow(/PACKET_UNREADABLE/);
    expect(assembler.counts.samples).toBe(0);
    expect(source.receive('browser-1', 'page', 0, 1, first)).toBe(decodeRecords(first).records.length);
  });

  it.each([1e300, 5020, -1e9])('are refused where they would have arrived at %d, sent at 5000.2', async (arrival_s) => {
    source.announce(sensor);
    await open();
    const bytes = encodeRecord({ kind: 'packet', arrival_s, bytes: new Uint8Array(20) });
    expect(() => source.receive('browser-1', 'page', 0, 5000.2, bytes)).toThrow(/PACKET_UNREADABLE/);
    expect(assembler.counts.packets).toBe(0);
  });

  it.each([
    ['that the link broke', notice('link_to_browser_broke'), 'the radio link to the browser that holds it broke'],
    ['that the sensor fell silent', notice('no_data_for', { seconds: 8 }), 'no data for 8 s'],
    ['that it was let go', notice('let_go_by_page'), 'it was let go on the page that held it'],
    ['words of its own', 'x'.repeat(5000), 'x'.repeat(200)],
    [
      'what no page says',
      { notice: 'of_fault', values: { fault: 7 } },
      'the radio link to the browser that holds it broke',
    ],
  ])('tell of a lost link: %s', async (_what, reason, words) => {
    source.announce(sensor);
    await open();
    const event = { event: 'link_lost' as const, reason };
    source.receive('browser-1', 'page', 0, 1, encodeRecord({ kind: 'event', arrival_s: 1, event }));
    expect(lost).toEqual([words]);
  });

  it('that stay away are the page’s fault only where the page says nothing at all', async () => {
    vi.useFakeTimers();
    try {
      source = new BrowserSource();
      source.announce(sensor);
      await open();
      for (let second = 3; second <= 30; second += 3) {
        vi.advanceTimersByTime(3000);
        // A page without packets says that it is still there.
        source.receive('browser-1', 'page', 0, second, new Uint8Array(0));
      }
      expect(lost).toEqual([]);
      vi.advanceTimersByTime(12_000);
      expect(lost).toEqual(['the browser that holds it sends nothing any more']);
    } finally {
      await source.close();
      vi.useRealTimers();
    }
  });
});

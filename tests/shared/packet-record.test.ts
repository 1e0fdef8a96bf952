import { crc32 as zlibCrc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { crc32, StretchChecksums } from '../../shared/crc32.ts';
import { decodeRecords, encodeRecord, type PacketRecord } from '../../shared/packet-record.ts';
import { uniform } from '../helpers/random.ts';

const packet = (n: number, length = 20): PacketRecord => ({
  kind: 'packet',
  arrival_s: n / 100,
  bytes: Uint8Array.from({ length }, (_, i) => (n * 7 + i * 31) & 0xff),
});

/** Bytes in each of which a record of 64 kB seems to begin: what used to be summed anew at every place. */
function manyHeads(length: number): Uint8Array {
  return Uint8Array.from({ length }, (_, i) => [0, 0, 1, 0, 80][i % 5]);
}

describe('checksums of stretches', () => {
  it('are those of zlib, for any start and end, across blocks', () => {
    const random = uniform(7);
    const bytes = Uint8Array.from({ length: 200_000 }, () => Math.floor(random() * 256));
    const stretches = new StretchChecksums(bytes);
    for (let n = 0; n < 300; n++) {
      const start = Math.floor(random() * bytes.length);
      const end = start + Math.floor(random() * (bytes.length - start + 1));
      const expected = zlibCrc32(bytes.subarray(start, end));
      expect(stretches.of(start, end)).toBe(expected);
      expect(crc32(bytes.subarray(start, end))).toBe(expected);
      if (n % 50 === 0) stretches.forget(100_000);
    }
  });
});

describe('records', () => {
  it('come back as they were, of every kind', () => {
    const records: PacketRecord[] = [
      { kind: 'event', arrival_s: 1, event: { event: 'link_lost', reason: 'ü' } },
      packet(3),
      { ...packet(4), kind: 'packet', source: 2 } as PacketRecord,
    ];
    const bytes = Buffer.concat(records.map(encodeRecord));
    expect(decodeRecords(bytes)).toEqual({ records, good_bytes: bytes.length, damaged: [] });
  });

  it('behind damage are found again, and the damage is told', () => {
    const [first, second] = [encodeRecord(packet(1)), encodeRecord(packet(2))];
    const noise = manyHeads(5000);
    const { records, damaged, good_bytes } = decodeRecords(
      Buffer.concat([first, noise, second, first.subarray(0, 20)]),
    );
    expect(records).toEqual([packet(1), packet(2)]);
    expect(damaged).toEqual([{ at: first.length, bytes: noise.length }]);
    expect(good_bytes).toBe(first.length + noise.length + second.length);
  });

  it('with a right checksum and JSON, or an arrival, that makes no sense are damage, not a crash', () => {
    const event = (text: string) => {
      const bytes = encodeRecord({ kind: 'event', arrival_s: 1, event: JSON.parse('"x"') });
      const payload = new TextEncoder().encode(text);
      const made = new Uint8Array(13 + payload.length + 4);
      made.set(bytes.subarray(0, 13));
      new DataView(made.buffer).setUint32(0, payload.length, true);
      made.set(payload, 13);
      new DataView(made.buffer).setUint32(13 + payload.length, crc32(made.subarray(0, 13 + payload.length)), true);
      return made;
    };
    const odd = [
      event('{broken'),
      event('null'),
      event('{"event":7}'),
      encodeRecord({ ...packet(1), arrival_s: Number.NaN }),
    ];
    for (const bytes of odd) {
      const decoded = decodeRecords(Buffer.concat([bytes, encodeRecord(packet(2))]));
      expect(decoded.records).toEqual([packet(2)]);
      expect(decoded.damaged).toEqual([{ at: 0, bytes: bytes.length }]);
    }
  });

  it('are looked for in a time that grows with the length, where every byte looks like a beginning', () => {
    // Summing each stretch anew would be 26 thousand million steps, minutes; the bound is that of every test.
    expect(decodeRecords(manyHeads(2_000_000)).records).toEqual([]);
  });
});

import { appendFileSync, mkdtempSync, readFileSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { stuckNotice } from '../../../api/capture/recording/disk-watch.ts';
import { said } from '../../helpers/told.ts';
import { PacketLogWriter } from '../../../api/capture/recording/packet-log-writer.ts';
import { decodeRecords, type PacketRecord } from '../../../shared/packet-record.ts';

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-log-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const packet = (n: number): PacketRecord => ({
  kind: 'packet',
  arrival_s: n / 50,
  bytes: Uint8Array.from({ length: 244 }, (_, i) => (n + i) % 256),
});
const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

describe('packet log writer', () => {
  it('has every record in the file as soon as append returns, without closing', () => {
    const file = join(folder, 'at-once.packets');
    const writer = new PacketLogWriter(file);
    for (let n = 0; n < 200; n++) {
      writer.append(packet(n));
      if (n % 50 === 0) expect(decodeRecords(readFileSync(file)).records).toHaveLength(n + 1);
    }
    writer.close();
    expect(decodeRecords(readFileSync(file)).records).toEqual(Array.from({ length: 200 }, (_, n) => packet(n)));
  });

  it('keeps records in memory while the disk is full, and writes all of them, in order, once there is room', async () => {
    const file = join(folder, 'full.packets');
    let room = 10_000;
    const writer = new PacketLogWriter(file, undefined, {
      write(fd, bytes) {
        // As ext4 does: a write that does not fit whole takes what fits, the next one fails.
        if (room <= 0) throw Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' });
        const part = bytes.subarray(0, Math.min(bytes.length, room));
        room -= part.length;
        return writeSync(fd, part);
      },
    });
    for (let n = 0; n < 100; n++) writer.append(packet(n));
    expect(writer.problem).toMatch(/ENOSPC/);
    expect(writer.waiting_records).toBeGreaterThan(50);
    expect(said(stuckNotice(writer))).toMatch(
      /^The disk is full\. \d+ packets wait in memory .* Free some space now\.$/,
    );
    // The part of a record that was written has been taken back.
    expect(decodeRecords(readFileSync(file)).damaged).toEqual([]);
    expect(decodeRecords(readFileSync(file)).good_bytes).toBe(statSync(file).size);
    room = Number.POSITIVE_INFINITY;
    await pause(1200);
    expect(writer.problem).toBe('');
    writer.append(packet(100));
    writer.close();
    expect(decodeRecords(readFileSync(file)).records).toEqual(Array.from({ length: 101 }, (_, n) => packet(n)));
  });

  it('opened again after a torn write, cuts the torn tail and goes on', () => {
    const file = join(folder, 'torn.packets');
    const first = new PacketLogWriter(file);
    for (let n = 0; n < 5; n++) first.append(packet(n));
    first.close();
    appendFileSync(file, Uint8Array.of(244, 0, 0, 0, 80, 1, 2));
    const { good_bytes } = decodeRecords(readFileSync(file));
    const second = new PacketLogWriter(file, good_bytes);
    second.append(packet(5));
    second.close();
    const { records, damaged } = decodeRecords(readFileSync(file));
    expect(damaged).toEqual([]);
    expect(records).toHaveLength(6);
  });
});

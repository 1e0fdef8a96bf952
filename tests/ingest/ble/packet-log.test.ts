import { refusalOf } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../../shared/crc32.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { encodeRecord, type LogHeader } from '../../../shared/packet-record.ts';
import { assembleLog, readPacketLog, utcOfHostZero } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { ReplaySource } from '../../../ingest/ble/sources/replay-source.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';

const [bramble] = shippedDescriptions();
const settings = defaultSettings(bramble);
const header: LogHeader = {
  format: 'packet-log/1',
  sensor_id: 'AA:01',
  sensor_name: 'Bramble 1',
  side: 'left',
  mounting: 'foot',
  description: bramble,
  settings,
};

function logBytes(seconds: number): Uint8Array {
  const records = [
    encodeRecord({ kind: 'header', arrival_s: 50, header }),
    encodeRecord({
      kind: 'event',
      arrival_s: 50,
      event: { event: 'clock', utc_ms: 1_700_000_000_000, monotonic_s: 50, boot_id: 'b' },
    }),
    encodeRecord({ kind: 'event', arrival_s: 50, event: { event: 'link_started' } }),
    ...encodePackets(bramble, settings, numberedBlock(bramble, seconds * 1000)).map(({ bytes, first_sample }) =>
      encodeRecord({ kind: 'packet', arrival_s: 50 + first_sample / 1000 + 0.03, bytes }),
    ),
  ];
  return Buffer.concat(records);
}

describe('packet log', () => {
  it('has the checksum of the standard', () => {
    // Check value of CRC-32/ISO-HDLC: the ASCII digits 1 to 9 give CBF43926 (ITU-T V.42; catalogues of CRCs).
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  });

  it('gives back header, clocks and every packet', () => {
    const log = readPacketLog('one', logBytes(2));
    expect(log.header).toEqual(header);
    expect(utcOfHostZero(log)).toBe(1_700_000_000_000 - 50_000);
    expect(log.damaged).toEqual([]);
    const { block } = assembleLog(log).block()!;
    expect(block.time_s).toHaveLength(2000);
    expect(block.gaps).toEqual([]);
  });

  it('cut at any byte keeps every whole record before the cut', () => {
    const whole = logBytes(1);
    const all = readPacketLog('whole', whole).records.length;
    let least = all;
    for (let cut = whole.length; cut > whole.length - 600; cut -= 7) {
      const { records, good_bytes } = readPacketLog('cut', whole.subarray(0, cut));
      expect(good_bytes).toBeLessThanOrEqual(cut);
      expect(records.length).toBeLessThanOrEqual(least);
      least = records.length;
    }
    expect(all - least).toBe(3);
  });

  it('with a damaged byte loses that record alone, and says where', () => {
    const bytes = logBytes(1);
    bytes[bytes.length - 1000] ^= 1;
    const log = readPacketLog('damaged', bytes);
    expect(log.damaged).toHaveLength(1);
    expect(assembleLog(log).counts.lost_samples).toBe(20);
  });

  it('that is no log is refused', () => {
    expect(refusalOf(() => readPacketLog('photo.jpg', Uint8Array.of(1, 2, 3)))).toMatch(/photo.jpg.*not the header/);
  });

  it('played by the replay source gives the block that the log itself gives', async () => {
    const log = readPacketLog('one', logBytes(3));
    const source = new ReplaySource([log], 10);
    const assembler = new StreamAssembler(bramble, settings);
    await source.open('AA:01', bramble, settings, {
      packet: (bytes, arrival_s) => assembler.add(bytes, arrival_s),
      lost: () => {},
    });
    await source.whenEnded;
    await source.close();
    expect(assembler.block()!.block).toEqual(assembleLog(log).block()!.block);
  });
});

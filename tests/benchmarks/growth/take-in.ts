import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PacketLogWriter } from '../../../api/capture/recording/packet-log-writer.ts';
import { RecentRecords } from '../../../api/capture/recording/recent-records.ts';
import { KEEP_S } from '../../../api/capture/recording/sensor-session.ts';
import { Movement } from '../../../api/capture/sensors/movement.ts';
import { SignalStrip } from '../../../api/capture/sensors/signal-strip.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';
import { measured } from './measured.ts';

const RATE_HZ = 400;

/** Everything that holds on to packets of live sensors, as fast as it goes. */
export async function takeIn(count: number, seconds: number) {
  const [description] = shippedDescriptions();
  const settings = { ...defaultSettings(description), rate_hz: RATE_HZ };
  const folder = mkdtempSync(join(tmpdir(), 'growth-live-'));
  const sensors = Array.from({ length: count }, (_, i) => ({
    assembler: new StreamAssembler(description, settings, KEEP_S),
    recent: new RecentRecords(KEEP_S),
    strip: new SignalStrip(RATE_HZ),
    movement: new Movement(RATE_HZ),
    log: new PacketLogWriter(join(folder, `${i}.packets`)),
  }));
  try {
    return await measured(async () => {
      let sent = 0;
      for (let second = 0; second < seconds; second++) {
        const block = numberedBlock(description, RATE_HZ, second * RATE_HZ);
        const packets = encodePackets(description, settings, block, { first_counter: sent });
        sent += packets.length;
        for (const { assembler, recent, strip, movement, log } of sensors) {
          for (const { bytes, first_sample, samples } of packets) {
            const arrival_s = 1000 + second + (first_sample + samples) / RATE_HZ;
            const record = { kind: 'packet' as const, arrival_s, bytes };
            log.append(record);
            recent.add(record);
            const added = assembler.add(bytes, arrival_s);
            if (!added) continue;
            strip.add(added);
            movement.add(added, arrival_s);
          }
          assembler.clockFit();
        }
        // Writing goes on beside it, as it does in a server.
        await new Promise((resolve) => setImmediate(resolve));
      }
    });
  } finally {
    for (const { log } of sensors) log.close();
    rmSync(folder, { recursive: true });
  }
}

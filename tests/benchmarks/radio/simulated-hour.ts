import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Movement } from '../../../api/capture/sensors/movement.ts';
import { PacketLogWriter } from '../../../api/capture/recording/packet-log-writer.ts';
import { RecentRecords } from '../../../api/capture/recording/recent-records.ts';
import { KEEP_S } from '../../../api/capture/recording/sensor-session.ts';
import { SignalStrip } from '../../../api/capture/sensors/signal-strip.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';

/** Everything that holds on to packets, fed with an hour of two sensors as fast as it goes: does memory stay flat? */
export async function simulatedHour(seconds: number, say: (text: string) => void): Promise<void> {
  const [bramble] = shippedDescriptions();
  const settings = defaultSettings(bramble);
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-hour-'));
  const sensors = [0, 1].map((i) => ({
    assembler: new StreamAssembler(bramble, settings, KEEP_S),
    recent: new RecentRecords(KEEP_S),
    strip: new SignalStrip(settings.rate_hz),
    movement: new Movement(settings.rate_hz),
    log: new PacketLogWriter(join(folder, `${i}.packets`)),
  }));
  const started = performance.now();
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (let second = 0; second < seconds; second++) {
    const block = numberedBlock(bramble, 1000, second * 1000);
    const packets = encodePackets(bramble, settings, block, { first_counter: second * 50 });
    for (const { assembler, recent, strip, movement, log } of sensors) {
      for (const { bytes, first_sample, samples } of packets) {
        const arrival_s = 1000 + second + (first_sample + samples) / 1000;
        const record = { kind: 'packet' as const, arrival_s, bytes };
        log.append(record);
        recent.add(record);
        const added = assembler.add(bytes, arrival_s);
        if (added) {
          strip.add(added);
          movement.add(added, arrival_s);
        }
      }
      assembler.clockFit();
    }
    if ((second + 1) % (seconds / 6) !== 0) continue;
    await new Promise((resolve) => setTimeout(resolve, 20));
    (globalThis as { gc?: () => void }).gc?.();
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    const mb = (heapUsed + arrayBuffers) / 1e6;
    // The first sixth fills what is kept.
    if (second + 1 > seconds / 6) [least, most] = [Math.min(least, mb), Math.max(most, mb)];
    say(`  after ${Math.round((second + 1) / 60)} min: ${mb.toFixed(1)} MB, ${sensors[0].recent.length} records kept`);
  }
  const [{ assembler }] = sensors;
  for (const sensor of sensors) sensor.log.close();
  say(
    `  ${assembler.counts.samples} samples a sensor, ${assembler.counts.lost_samples} lost; memory between ${least.toFixed(1)} and ${most.toFixed(1)} MB; ` +
      `${(statSync(join(folder, '0.packets')).size / 1e6).toFixed(0)} MB on disk a sensor; ${((seconds * 1000) / (performance.now() - started)).toFixed(0)} times real time`,
  );
  if (most > 1.3 * least) process.exitCode = 1;
  rmSync(folder, { recursive: true, force: true });
}

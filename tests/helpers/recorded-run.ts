/** Records fake sensors over the real radio code to disk, and holds what is on disk against what was sent. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { CaptureFolder } from '../../api/capture/recording/capture-folder.ts';
import { CaptureRun } from '../../api/capture/recording/capture-run.ts';
import { defaultSettings } from '../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../ingest/ble/descriptions/index.ts';
import { NodeBleSource } from '../../ingest/ble/sources/node-ble/node-ble-source.ts';
import { assembleLog, readPacketLog } from '../../ingest/ble/assembly/read-packet-log.ts';
import type { StreamCounts } from '../../ingest/ble/assembly/stream-assembler.ts';
import type { StreamDescription, StreamSettings } from '../../shared/schemas/stream-description.ts';
import { FakeBluez, pause, type SensorReport } from './fake-bluez/fake-bluez.ts';
import type { SimulatedSensorOptions } from './fake-bluez/simulated-sensor.ts';
import { type Account, account, numbersOf } from './numbered-samples.ts';

export interface RunSensor extends Omit<SimulatedSensorOptions, 'address' | 'name' | 'description'> {
  kind: 'bramble' | 'teasel';
}

export interface RunResult extends Account {
  counts: StreamCounts;
  gaps: number;
  report: SensorReport;
  reconnects: number;
}

export interface RunContext {
  fake: FakeBluez;
  addresses: string[];
  run: CaptureRun;
  source: NodeBleSource;
}

const [bramble, teasel] = shippedDescriptions();

/**
 * @param between what happens while it is recorded; it takes as long as the recording
 * @returns one result a sensor, from the packet logs on disk
 */
export async function recordedRun(
  sensors: RunSensor[],
  between: (context: RunContext) => Promise<void>,
): Promise<RunResult[]> {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-run-'));
  const placed = sensors.map(({ kind, ...options }, i) => {
    const description = kind === 'bramble' ? bramble : teasel;
    const settings = options.settings ?? defaultSettings(description);
    return {
      ...options,
      settings,
      description,
      address: `C0:00:5E:00:54:${(16 + i).toString(16).toUpperCase()}`,
      name: `${kind} ${i}`,
    };
  });
  const fake = await FakeBluez.start(placed);
  process.env.DBUS_SYSTEM_BUS_ADDRESS = fake.address;
  const source = new NodeBleSource();
  const captures = new CaptureFolder(folder);
  try {
    const run = new CaptureRun({
      folder: captures,
      record: {
        format: 'capture/1',
        capture_id: 'run',
        kind: 'live',
        started_utc: new Date().toISOString(),
        session_id: null,
        state: 'running',
        sensors: placed.map(({ address, name, description, settings }, i) => ({
          sensor_id: address,
          athlete_ids: [],
          place: {
            name,
            description_id: description.id,
            settings,
            side: i % 2 === 0 ? 'left' : 'right',
            mounting: 'foot',
            athlete_id: null,
          },
        })),
        handled: [],
      },
      describe: (id) => (id === bramble.id ? bramble : teasel),
      sourceOf: () => source,
      say: () => {},
    });
    const tending = setInterval(() => run.sessions.forEach((session) => void session.tend()), 250);
    const addresses = placed.map(({ address }) => address);
    while (!run.sessions.every((session) => session.live && session.assembler.counts.samples > 0)) await pause(20);
    await between({ fake, addresses, run, source });
    // What has been sampled last is still on its way.
    await pause(300);
    clearInterval(tending);
    const reconnects = run.sessions.map((session) => session.status(null).reconnects);
    await run.stopSensors();
    run.finish();
    return await Promise.all(
      placed.map(async ({ address, description, settings }, i) => {
        const report = await fake.report(address);
        const bytes = readFileSync(captures.logFile('run', address));
        return { ...heldAgainst(bytes, description, settings, report), report, reconnects: reconnects[i] };
      }),
    );
  } finally {
    await source.close();
    await fake.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What a log holds, against everything the sensor took from its first stored sample to its last. */
export function heldAgainst(
  bytes: Uint8Array,
  description: StreamDescription,
  settings: StreamSettings,
  report: SensorReport,
): Account & { counts: StreamCounts; gaps: number } {
  const assembler = assembleLog(readPacketLog('log', bytes));
  const { block } = assembler.block()!;
  const numbers = numbersOf(block, description, settings);
  const first = Math.min(report.first_sample!, numbers[0]);
  const sent = Array.from({ length: numbers[numbers.length - 1] - first + 1 }, (_, i) => first + i);
  const result = account(block, description, sent, (n) => n / settings.rate_hz, settings);
  return { ...result, counts: assembler.counts, gaps: block.gaps.length };
}

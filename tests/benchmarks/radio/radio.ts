/**
 * The radio's long proofs, with figures: `npm run bench:radio`, `npm run bench:radio -- --quick`, or names of scenarios.
 * Everything runs on a private D-Bus with a fake org.bluez; what is judged are the packet logs on disk.
 */
import { appendFileSync } from 'node:fs';
import { pause } from '../../helpers/fake-bluez/fake-bluez.ts';
import { type RunSensor, type RunResult, recordedRun } from '../../helpers/recorded-run.ts';
import { killedServer } from './killed-server.ts';
import { liveAgainstFile } from './live-against-file.ts';
import { resultLatency } from './result-latency.ts';
import { seededRuns } from './seeded-runs.ts';
import { twoFeet } from './two-feet.ts';
import { simulatedHour } from './simulated-hour.ts';

const quick = process.argv.includes('--quick');
const wanted = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const seconds = (full: number, short: number) => 1000 * (quick ? short : full);

const PAIR: RunSensor[] = [
  { kind: 'bramble', drift: 40e-6, first_counter: 65_000 },
  { kind: 'bramble', drift: -60e-6 },
];
const BOTH_KINDS: RunSensor[] = [
  { kind: 'bramble', drift: 40e-6, first_counter: 65_400 },
  { kind: 'teasel', drift: -60e-6 },
];
const SIX: RunSensor[] = Array.from({ length: 6 }, (_, i) => ({
  kind: 'bramble' as const,
  settings: { rate_hz: 400, acc_full_scale: 32, gyr_full_scale: 4000 },
  drift: 30e-6 * (i - 3),
}));

const scenarios: Record<string, () => Promise<void>> = {
  'two sensors, 1000 Hz x 6 channels': async () => {
    const cpu = process.cpuUsage();
    const started = performance.now();
    const results = await recordedRun(PAIR, () => pause(seconds(60, 8)));
    const used = process.cpuUsage(cpu);
    tell(results);
    say(
      `  processor of the receiving side: ${((used.user + used.system) / 10 / (performance.now() - started)).toFixed(1)} %`,
    );
  },
  'six sensors, 400 Hz': async () => tell(await recordedRun(SIX, () => pause(seconds(60, 6)))),
  '5 % dropped, bursts of 150 ms, wrong order, 5 % twice': async () =>
    tell(
      await recordedRun(BOTH_KINDS, async ({ fake, addresses }) => {
        for (const address of addresses)
          await fake.disturb(address, { drop: 0.05, repeat: 0.05, burst_ms: 150, reorder: true });
        await pause(seconds(60, 8));
      }),
    ),
  'a stall of 5 s': async () =>
    tell(
      await recordedRun(BOTH_KINDS, async ({ fake, addresses }) => {
        await pause(3000);
        for (const address of addresses) await fake.disturb(address, { stall_ms: 5000 });
        await pause(9000);
      }),
    ),
  'counter wraps (8 bits: every 9.6 s; 16 bits: after the start)': async () =>
    tell(await recordedRun(BOTH_KINDS, () => pause(seconds(60, 12)))),
  '20 drops and reconnects': async () =>
    tell(
      await recordedRun(BOTH_KINDS, async ({ fake, addresses, source }) => {
        const rules = new Set<number>();
        for (let i = 0; i < (quick ? 4 : 20); i++) {
          for (const address of addresses) await fake.drop(address);
          await pause(2000);
          rules.add(source.matchRules());
        }
        say(`  match rules in force after each reconnect: ${[...rules].join(', ')}`);
      }),
    ),
  'bluetoothd restarted twice, adapter gone for 2 s': async () =>
    tell(
      await recordedRun(BOTH_KINDS, async ({ fake }) => {
        for (let i = 0; i < 2; i++) {
          await pause(2000);
          await fake.restartBluetoothd(1000);
          await pause(4000);
        }
        await fake.setAdapterPresent(false);
        await pause(2000);
        await fake.setAdapterPresent(true);
        await pause(5000);
      }),
    ),
  'the message bus killed and started again': async () =>
    tell(
      await recordedRun(PAIR, async ({ fake }) => {
        await pause(2000);
        await fake.killBus();
        await pause(1000);
        await fake.startBus();
        await fake.startBluetoothd();
        await pause(6000);
      }),
    ),
  'recordings with faults from a seed, over all kinds of sensor': async () => {
    if (!seededRuns(quick ? 60 : 1008, say)) process.exitCode = 1;
  },
  'two feet on one clock': async () => twoFeet(quick ? 10 : 60, say),
  'server killed with SIGKILL in mid-recording': async () => tell(await killedServer(quick ? 2 : 8)),
  'from the last contact to the result': async () => resultLatency(quick ? 2 : 8, say),
  'live contacts against the same data as a file': async () => liveAgainstFile(quick ? 4 : 20, say),
  'a simulated hour of two sensors': async () => simulatedHour(quick ? 600 : 3600, say),
  'connections made and broken': async () => {
    const { connectionsAtSpeed } = await import('./connections.ts');
    await connectionsAtSpeed(quick ? 20 : 200, say);
  },
};

function tell(results: RunResult[]): void {
  for (const [i, result] of results.entries()) {
    const { counts } = result;
    say(
      `  sensor ${i + 1}: sent ${result.sent}, stored ${result.stored}, lost inside told gaps ${counts.lost_samples} (${result.gaps} gaps), ` +
        `unaccounted ${result.unaccounted}, twice ${result.repeated}, repeats refused ${counts.duplicate_packets}, ` +
        `reconnects ${result.reconnects}, worst time error ${(result.worst_time_error_s * 1000).toFixed(3)} ms`,
    );
    const good = result.unaccounted === 0 && result.repeated === 0 && result.worst_time_error_s < 1e-3;
    if (!good) process.exitCode = 1;
    say(`    ${good ? 'as promised' : 'NOT AS PROMISED'}`);
  }
}

function say(text: string): void {
  process.stdout.write(`${text}\n`);
  if (process.env.CINDERLANE_BENCH_LOG) appendFileSync(process.env.CINDERLANE_BENCH_LOG, `${text}\n`);
}

for (const [name, run] of Object.entries(scenarios)) {
  if (wanted.length > 0 && !wanted.some((word) => name.includes(word))) continue;
  say(name);
  await run();
}
process.exit();

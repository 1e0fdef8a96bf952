import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { pause } from '../../helpers/fake-bluez/fake-bluez.ts';
import { recordedRun, type RunResult } from '../../helpers/recorded-run.ts';

const has_bus = spawnSync('dbus-daemon', ['--version']).status === 0;

/** Every sample that was sent is on disk at its right time, or inside a gap that is told; none twice. */
function expectNothingLost(results: RunResult[]): void {
  for (const result of results) {
    expect(result).toMatchObject({ repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
    expect(result.counts).toMatchObject({ unreadable_packets: 0, out_of_sequence_packets: 0 });
  }
}

// The long versions, with figures: npm run bench:radio.
describe.skipIf(!has_bus)('recording over a disturbed radio', () => {
  it('six sensors at 400 Hz lose nothing', async () => {
    const settings = { rate_hz: 400, acc_full_scale: 32, gyr_full_scale: 4000 };
    const sensors = Array.from({ length: 6 }, (_, i) => ({ kind: 'bramble' as const, settings, drift: 20e-6 * i }));
    const results = await recordedRun(sensors, () => pause(2000));
    expectNothingLost(results);
    for (const result of results) expect(result.counts.lost_samples).toBe(0);
  });

  it('drops, repeats, bursts, wrong order, a stall and breaks of the link leave only gaps that are told', async () => {
    const results = await recordedRun(
      [
        { kind: 'bramble', first_counter: 65_450, drift: 60e-6 },
        { kind: 'teasel', first_counter: 200, drift: -80e-6 },
      ],
      async ({ fake, addresses }) => {
        for (const address of addresses) {
          await fake.disturb(address, { drop: 0.05, repeat: 0.05, burst_ms: 150, reorder: true });
        }
        await pause(2500);
        for (const address of addresses) await fake.disturb(address, { stall_ms: 1000 });
        await pause(1500);
        for (let i = 0; i < 2; i++) {
          for (const address of addresses) await fake.drop(address);
          await pause(1200);
        }
      },
    );
    expectNothingLost(results);
    for (const result of results) {
      expect(result.reconnects).toBe(2);
      expect(result.counts.duplicate_packets).toBeGreaterThan(0);
      expect(result.counts.lost_samples).toBeGreaterThan(0);
    }
  });
});

import { expect, test } from 'vitest';
import { sideLog } from '../../../api/capture/replay/side-log.ts';
import { assembleLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import type { PacketRecord } from '../../../shared/packet-record.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';

const RATE_HZ = 200;
const SENSOR = { id: 'replay-1-left', name: 'Replay left' };

/** 6 s in which every axis has a wave of its own, so that no sample is like another. */
function recorded(gaps: SensorRecording['samples']['gaps'] = []): SensorRecording {
  const time_s = Float64Array.from({ length: 6 * RATE_HZ }, (_, k) => k / RATE_HZ);
  const wave = (size: number, hz: number) => time_s.map((t) => size * Math.sin(2 * Math.PI * hz * t));
  return {
    side: 'left',
    mounting: 'foot',
    clock_offset_s: 0,
    clock_offset_u_s: 0,
    samples: {
      sampling_rate_hz: RATE_HZ,
      time_s,
      acc_mps2: { x: wave(30, 1.1), y: wave(20, 1.7), z: wave(40, 0.9) },
      gyr_radps: { x: wave(3, 1.3), y: wave(5, 0.7), z: wave(2, 1.9) },
      acc_range_mps2: 157,
      gyr_range_radps: 35,
      gaps,
    },
  } as SensorRecording;
}

const logOf = (recording: SensorRecording, from_s: number, total_s: number) =>
  sideLog(BRAMBLE, SENSOR, [{ recording, from_s }], total_s);
const BRAMBLE = shippedDescriptions().find(({ id }) => id === 'bramble')!;

test('an evening as long as one likes begins at once: only what is asked for is made', () => {
  const { records } = logOf(recorded(), 4, 1e9);
  let made = 0;
  let last: PacketRecord | null = null;
  for (const record of records) {
    last = record;
    if (++made === 100) break;
  }
  // 20 samples a packet.
  expect(last!.arrival_s).toBeCloseTo(10, 9);
});

test('what the pieces say together is the recording, without a sample lost where one piece meets the next', () => {
  const { header, records } = logOf(recorded(), 4, 14);
  const assembler = assembleLog({ header, records: [...records], good_bytes: 0, damaged: [] });
  expect(assembler.counts.lost_samples).toBe(0);
  const { block } = assembler.block()!;
  expect(block.time_s.length).toBe(14 * RATE_HZ);
  const { acc_mps2 } = recorded().samples;
  for (const axis of ['x', 'y', 'z'] as const) {
    const played = block.acc_mps2[axis].subarray(4 * RATE_HZ, 10 * RATE_HZ);
    // Sixteen bits over 16 g either way.
    expect(Math.max(...played.map((value, k) => Math.abs(value - acc_mps2[axis][k])))).toBeLessThan(0.003);
    // Somebody who stands still before and after.
    expect(new Set(block.acc_mps2[axis].subarray(0, 4 * RATE_HZ)).size).toBe(1);
    expect(new Set(block.acc_mps2[axis].subarray(10 * RATE_HZ)).size).toBe(1);
  }
});

test('a gap of the recording is a gap of the play', () => {
  const { header, records } = logOf(recorded([{ start_s: 2, end_s: 2.5 }] as never), 4, 14);
  const { lost_samples } = assembleLog({ header, records: [...records], good_bytes: 0, damaged: [] }).counts;
  // 0.5 s, and the rest of the packets that it begins and ends in.
  expect(lost_samples).toBeGreaterThanOrEqual(0.5 * RATE_HZ);
  expect(lost_samples).toBeLessThanOrEqual(0.5 * RATE_HZ + 40);
});

test('played again it is the same', () => {
  const { records } = logOf(recorded(), 4, 8);
  expect([...records]).toEqual([...records]);
});

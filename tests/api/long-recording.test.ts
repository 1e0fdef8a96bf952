import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { analyseSources } from '../../api/measuring/analyse-sources.ts';
import { SampleSpool } from '../../api/measuring/sample-spool.ts';
import { describeRecording } from '../../api/store/chunks.ts';
import { CHANNELS } from '../../api/store/channels.ts';
import { indexAt, LONG_SAMPLES, readPart, type SampleSource, sourceInMemory } from '../../api/store/sample-source.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { uniform } from '../helpers/random.ts';
import { sensorCsv } from '../helpers/sensor-csv.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi } from '../helpers/test-api.ts';

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-long-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** One sprint's block many times over, one after the other on one clock. */
function repeated(block: SampleBlock, times: number): SampleBlock {
  const n = block.time_s.length;
  const length = n / block.sampling_rate_hz;
  const column = (values: Float64Array, step = 0) =>
    Float64Array.from({ length: n * times }, (_, i) => values[i % n] + step * Math.floor(i / n));
  const axes = (of: SampleBlock['acc_mps2']) => ({ x: column(of.x), y: column(of.y), z: column(of.z) });
  return {
    ...block,
    time_s: column(block.time_s, length),
    acc_mps2: axes(block.acc_mps2),
    gyr_radps: block.gyr_radps && axes(block.gyr_radps),
  };
}

function sources(times: number): SampleSource[] {
  const { left, right } = sprintFiles().recording.sensors.foot;
  return (['left', 'right'] as const).map((side) => {
    const samples = repeated(side === 'left' ? left : right, times);
    const place = { side, mounting: 'foot', clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 } as const;
    return sourceInMemory(describeRecording({ ...place, samples }), samples);
  });
}

/** Bit by bit; the runner's own comparison of long arrays takes seconds. */
function expectSame(a: Float64Array, b: Float64Array): void {
  const bytes = (of: Float64Array) => Buffer.from(of.buffer, of.byteOffset, of.byteLength);
  expect(bytes(a).equals(bytes(b))).toBe(true);
}

describe('a spool', () => {
  it('gives back what was put in, whatever the sizes of the blocks and of the parts read', () => {
    const next = uniform(2);
    const { left } = sprintFiles().recording.sensors.foot;
    const block = repeated(left, 8);
    const spool = new SampleSpool(folder, true);
    for (let at = 0; at < block.time_s.length; ) {
      const end = Math.min(block.time_s.length, at + 1 + Math.floor(9000 * next()));
      const cut = (of: SampleBlock['acc_mps2']) => ({
        x: of.x.subarray(at, end),
        y: of.y.subarray(at, end),
        z: of.z.subarray(at, end),
      });
      spool.append({
        ...block,
        time_s: block.time_s.subarray(at, end),
        acc_mps2: cut(block.acc_mps2),
        gyr_radps: cut(block.gyr_radps!),
      });
      at = end;
    }
    spool.finish();
    const [source] = sources(8);
    const spooled: SampleSource = { ...source, columns: spool };
    for (let i = 0; i < 20; i++) {
      const [a, b] = [next(), next()].map((part) => Math.floor(part * block.time_s.length)).sort((x, y) => x - y);
      for (const channel of CHANNELS) expectSame(spool.read(channel, a, b), source.columns.read(channel, a, b));
      expect(indexAt(spooled, block.time_s[a])).toBe(a);
      expect(readPart(spooled, a, a + 100)).toEqual(readPart(source, a, a + 100));
    }
    spool.close(false);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('a long recording', () => {
  it('is analysed in windows cut at rests, with the contacts that a short one has', () => {
    const length = sprintFiles().recording.sensors.foot.left.time_s.length / 500;
    const times = 12;
    const limits = { long: 20_000, window: 15_000 };
    const short = analyseSources(sources(1), UNKNOWN_COURSE, UNKNOWN_CONDITIONS).repetitions[0];
    const long = analyseSources(sources(times), UNKNOWN_COURSE, UNKNOWN_CONDITIONS, undefined, { limits });
    expect(long.repetitions.length).toBe(times);
    expect(long.faults.filter((fault) => fault.code === 'LONG_RUN_CUT')).toEqual([]);
    long.repetitions.forEach((repetition, k) => {
      expect(repetition.repetition).toBe(k + 1);
      expect(Math.abs(repetition.contacts.length - short.contacts.length)).toBeLessThanOrEqual(1);
      const wanted = k * length + short.contacts[10].touchdown_s;
      const nearest = Math.min(...repetition.contacts.map((contact) => Math.abs(contact.touchdown_s - wanted)));
      expect(nearest).toBeLessThan(0.02);
    });
    expect(long.quality[0].samples).toBe(sources(times)[0].samples);
  });

  it('is imported piece by piece and can be analysed again from the store', { timeout: 120_000 }, async () => {
    const api = await openTestApi();
    const place = await api.athleteAndSession();
    const { left } = sprintFiles().recording.sensors.foot;
    const times = Math.ceil((LONG_SAMPLES + 1) / left.time_s.length);
    // Acceleration alone: half the bytes to write and read.
    const { body } = await api.import(
      { ...place, mounting: 'foot' },
      { left: sensorCsv({ ...repeated(left, times), gyr_radps: null }) },
    );
    expect(body).toMatchObject({ state: 'done', fault: null });
    const { body: repetition } = await api.call('GET', `/repetitions/${body.repetition_ids[0]}`);
    expect(repetition.recordings[0].samples).toBeGreaterThan(LONG_SAMPLES);
    const { body: again } = await api.call('POST', `/repetitions/${body.repetition_ids[0]}/analyses`);
    expect(again.result.contacts).toEqual(repetition.analysis.result.contacts);
    expect(readdirSync(api.folder).filter((name) => name.startsWith('spool'))).toEqual([]);
    await api.close();
  });
});

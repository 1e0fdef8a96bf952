import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { CaptureService } from '../../../api/capture/capture-service.ts';
import { erasePerson } from '../../../api/coach/people/erase-person.ts';
import { createAthlete } from '../../../api/store/athletes.ts';
import { listRepetitions } from '../../../api/store/repetitions.ts';
import { getAnalysis } from '../../../api/store/analyses.ts';
import { listRecordings } from '../../../api/store/recordings.ts';
import { readRecording } from '../../../api/store/read-samples.ts';
import { getSession } from '../../../api/store/sessions.ts';
import { localDate } from '../../../shared/dates.ts';
import { inWords } from '../../helpers/told.ts';
import { Store } from '../../../api/store/store.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import type { RecordingStore } from '../../../ingest/ble/sources/recording-store.ts';
import { runningPackets } from '../../helpers/running-packets.ts';
import { ScriptedSource } from '../../helpers/scripted-source.ts';

const description = shippedDescriptions().find(({ id }) => id === 'reference-sensor')!;

/** A sensor whose memory holds one repetition; the first fetch breaks off half way. */
class WithMemory extends ScriptedSource {
  cleared: number[] = [];
  starts: number[] = [];
  private readonly memory: Uint8Array;

  constructor(packets: Uint8Array[]) {
    super([{ sensor_id: 'S:1', name: 'Cinder one' }]);
    this.memory = memoryOf(packets);
  }

  async recordings(): Promise<RecordingStore> {
    const { memory, cleared, starts } = this;
    return {
      list: async () => [{ id: 3, bytes: memory.length, packets: 1, start_unix_s: 1_795_000_000 }],
      async fetch(_entry, part) {
        starts.push(part.have);
        Object.assign(part, { bytes: memory, have: starts.length === 1 ? memory.length / 2 : memory.length });
        if (starts.length === 1) throw new Error('the radio link broke');
        return memory;
      },
      clear: async (id) => void cleared.push(id),
      close: async () => {},
    };
  }
}

describe('recordings fetched from a sensor', () => {
  const folder = mkdtempSync(join(tmpdir(), 'fetched-'));
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('become captures and stored repetitions, once, go on after a break, and are cleared only then', async () => {
    const { recorded } = runningPackets(description, defaultSettings(description), { seed: 5 });
    const radio = new WithMemory(recorded.left.map(({ bytes }) => Buffer.from(bytes, 'hex')));
    const store = Store.open(join(folder, 'cinderlane.sqlite'));
    const service = new CaptureService({ store, folder, radio });
    const { athlete_id } = createAthlete(store, { name: 'Moss Aldane' });
    await service.place('S:1', { name: 'Cinder one', description_id: description.id, side: 'left', athlete_id });
    await expect(service.fetchRecordings('S:1', true)).rejects.toThrow(/link broke/);
    expect(radio.cleared).toEqual([]);
    const { capture_ids, stored } = await service.fetchRecordings('S:1', true);
    expect(radio.starts[1]).toBeGreaterThan(0);
    expect(stored).toBe(1);
    expect(radio.cleared).toEqual([3]);
    expect(listRepetitions(store, { athlete_id })).toMatchObject([{ state: 'analysed' }]);
    expect(await service.archive.open(capture_ids[0])).toMatchObject({
      started_utc: new Date(1_795_000_000_000).toISOString(),
      logs: [{ lost_samples: 0, unreadable_packets: 0, gaps: 0 }],
    });
    // Fetched again, it is the same capture, and nothing is stored twice.
    expect(await service.fetchRecordings('S:1', false)).toEqual({ capture_ids, stored: 0, waiting: [] });
    expect(listRepetitions(store, { athlete_id })).toHaveLength(1);
    // Analysed again by hand, what is stored is not stored twice.
    expect(await service.archive.analyse(capture_ids[0])).toEqual({ stored: 0 });
    expect(listRepetitions(store, { athlete_id })).toHaveLength(1);
    await service.close();
    store.close();
  });

  it('of a run that was measured with gaps take its place, and of one that was measured whole add nothing', async () => {
    const { recorded } = runningPackets(description, defaultSettings(description), { seed: 5 });
    const packets = recorded.left.map(({ bytes }) => Buffer.from(bytes, 'hex'));
    const own = { id: 'S:1', memory: memoryOf(packets.filter((_, i) => i % 50 !== 20)) };
    const folder = mkdtempSync(join(tmpdir(), 'fetched-again-'));
    const store = Store.open(join(folder, 'cinderlane.sqlite'));
    const service = new CaptureService({ store, folder, radio: new TwoMemories([own], 1_795_000_000, new Set()) });
    const { athlete_id } = createAthlete(store, { name: 'Moss Aldane' });
    const gapsOf = (repetition_id: number) =>
      listRecordings(store, repetition_id).map(({ recording_id }) => readRecording(store, recording_id).samples.gaps);
    await service.place('S:1', { name: 'S:1', description_id: description.id, side: 'left', athlete_id });
    expect((await service.fetchRecordings('S:1', false)).stored).toBe(1);
    const [first] = listRepetitions(store, { athlete_id });
    expect(gapsOf(first.repetition_id)[0].length).toBeGreaterThan(2);

    // The sensor's memory as a second recording of the same run, whole.
    Object.assign(own, { memory: memoryOf(packets), recording: 4 });
    expect((await service.fetchRecordings('S:1', false)).stored).toBe(1);
    const after = listRepetitions(store, { athlete_id });
    expect(after.map(({ repetition_id, state, session_id }) => ({ repetition_id, state, session_id }))).toEqual([
      { repetition_id: first.repetition_id, state: 'analysed', session_id: first.session_id },
    ]);
    expect(after[0].analysis_id).not.toBe(first.analysis_id);
    expect(gapsOf(first.repetition_id)).toEqual([[]]);
    Object.assign(own, { recording: 5 });
    expect((await service.fetchRecordings('S:1', false)).stored).toBe(0);
    expect(listRepetitions(store, { athlete_id })).toEqual(after);
    await service.close();
    store.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('of somebody who is erased while they are fetched are not kept', async () => {
    const { recorded } = runningPackets(description, defaultSettings(description), { seed: 5 });
    const own = { id: 'S:1', memory: memoryOf(recorded.left.map(({ bytes }) => Buffer.from(bytes, 'hex'))) };
    const folder = mkdtempSync(join(tmpdir(), 'fetched-erased-'));
    const store = Store.open(join(folder, 'cinderlane.sqlite'));
    const radio = new TwoMemories([own], 1_795_000_000, new Set());
    const service = new CaptureService({ store, folder, radio });
    const { athlete_id } = createAthlete(store, { name: 'Moss Aldane' });
    await service.place('S:1', { name: 'S:1', description_id: description.id, side: 'left', athlete_id });
    radio.fetching = () => erasePerson(store, athlete_id, 'Moss Aldane', (id) => service.stopWearing(id));
    await expect(service.fetchRecordings('S:1', true)).rejects.toThrow(/CAPTURE_STATE/);
    expect(readdirSync(join(folder, 'captures'))).toEqual([]);
    expect(radio.cleared).toEqual([]);
    await service.close();
    store.close();
    rmSync(folder, { recursive: true, force: true });
  });

  describe('of both feet', () => {
    const settings = defaultSettings(description);
    const START_S = 1_795_000_000;
    /** The right sensor began this much later, in the same second of its calendar. */
    const LATER_S = 0.62;
    const options = { seed: 5, repetitions: [{ distance_m: 40, effort: 0.95, run_out_s: 0.3 }], stand_before_s: 3 };
    const { recorded, touchdowns_s } = runningPackets(description, settings, options);
    const packets = (side: 'left' | 'right', from_s: number) =>
      recorded[side].filter(({ due_s }) => due_s > from_s).map(({ bytes }) => Buffer.from(bytes, 'hex'));
    const sensors = [
      { id: 'S:L', side: 'left' as const, memory: memoryOf(packets('left', 0)) },
      { id: 'S:R', side: 'right' as const, memory: memoryOf(packets('right', LATER_S)) },
    ];

    async function begin(out_of_reach: Set<string>) {
      const folder = mkdtempSync(join(tmpdir(), 'both-feet-'));
      const store = Store.open(join(folder, 'cinderlane.sqlite'));
      const radio = new TwoMemories(sensors, START_S, out_of_reach);
      const service = new CaptureService({ store, folder, radio });
      const { athlete_id } = createAthlete(store, { name: 'Moss Aldane' });
      for (const { id, side } of sensors) {
        await service.place(id, { name: id, description_id: description.id, side, athlete_id });
      }
      const repetitions = () => listRepetitions(store, { athlete_id });
      const close = async () => {
        await service.close();
        store.close();
        rmSync(folder, { recursive: true, force: true });
      };
      return { store, service, radio, repetitions, close };
    }

    it('become one capture and one repetition of both sides, whichever of them is asked for', async () => {
      const { store, service, radio, repetitions, close } = await begin(new Set());
      const { capture_ids, stored, waiting } = await service.fetchRecordings('S:R', true);
      expect({ captures: capture_ids.length, stored, waiting }).toEqual({ captures: 1, stored: 1, waiting: [] });
      expect(radio.cleared.sort()).toEqual(['S:L/3', 'S:R/3']);
      const [{ repetition_id, session_id, analysis_id }] = repetitions();
      expect(getSession(store, session_id).session_date).toBe(localDate(new Date(START_S * 1000)));
      const lines = listRecordings(store, repetition_id);
      expect(lines.map(({ side }) => side)).toEqual(['left', 'right']);
      const { result } = getAnalysis(store, analysis_id!);
      expect(result.contacts.length).toBe(touchdowns_s.length);
      // Left and right against each other, by the generator's truth: better than arrival times over the air.
      const own = (times: number[]) => times.slice(1).map((time, i) => time - times[i]);
      const steps = own(result.contacts.map(({ touchdown_s }) => touchdown_s));
      const off_ms = own(touchdowns_s).map((step, i) => 1000 * (steps[i] - step) * (i % 2 === 0 ? 1 : -1));
      const mean_ms = off_ms.reduce((sum, value) => sum + value, 0) / off_ms.length;
      expect(Math.abs(mean_ms)).toBeLessThan(8);
      // And it is said how well the two are on one clock.
      const u_ms = 1000 * Math.max(...lines.map(({ clock_offset_u_s }) => clock_offset_u_s));
      expect(u_ms).toBeGreaterThan(Math.abs(mean_ms) / 3);
      expect(u_ms).toBeLessThan(15);
      expect(await service.fetchRecordings('S:L', false)).toEqual({ capture_ids, stored: 0, waiting: [] });
      expect(repetitions()).toHaveLength(1);
      await close();
    });

    it('one waits for the other that cannot be reached, is not cleared meanwhile, and is joined when that comes', async () => {
      const out_of_reach = new Set(['S:R']);
      const { store, service, radio, repetitions, close } = await begin(out_of_reach);
      const first = await service.fetchRecordings('S:L', true);
      expect(first).toMatchObject({ stored: 0, capture_ids: [expect.any(String)] });
      expect(inWords(first).waiting).toEqual([
        expect.stringMatching(/S:L: its recording is kept, and waits for that of S:R/),
      ]);
      expect([repetitions(), radio.cleared]).toEqual([[], []]);
      out_of_reach.clear();
      expect(await service.fetchRecordings('S:L', true)).toMatchObject({ stored: 1, waiting: [] });
      expect(listRecordings(store, repetitions()[0].repetition_id)).toHaveLength(2);
      expect(radio.cleared.sort()).toEqual(['S:L/3', 'S:R/3']);
      await close();
    });

    it('one can be analysed alone by hand', async () => {
      const { store, service, repetitions, close } = await begin(new Set(['S:R']));
      const { capture_ids } = await service.fetchRecordings('S:L', false);
      expect(await service.archive.analyse(capture_ids[0])).toEqual({ stored: 1 });
      expect(listRecordings(store, repetitions()[0].repetition_id)).toHaveLength(1);
      await close();
    });
  });
});

/** Recordings as a sensor's memory gives them: packets, each with its length before it. */
function memoryOf(packets: Uint8Array[]): Buffer {
  return Buffer.concat(packets.flatMap((packet) => [Buffer.from([packet.length & 255, packet.length >> 8]), packet]));
}

/** Two sensors with one recording each, of which some are out of reach. */
class TwoMemories extends ScriptedSource {
  readonly cleared: string[] = [];
  /** Happens while a recording is fetched. */
  fetching: () => Promise<unknown> = async () => {};
  private readonly own: { id: string; memory: Buffer; recording?: number }[];
  private readonly start_unix_s: number;
  private readonly out_of_reach: Set<string>;

  constructor(
    own: { id: string; memory: Buffer; recording?: number }[],
    start_unix_s: number,
    out_of_reach: Set<string>,
  ) {
    super(own.map(({ id }) => ({ sensor_id: id, name: id })));
    this.own = own;
    this.start_unix_s = start_unix_s;
    this.out_of_reach = out_of_reach;
  }

  async recordings(sensor_id: string): Promise<RecordingStore> {
    if (this.out_of_reach.has(sensor_id)) throw new Error('it was not heard');
    const { memory, recording: id = 3 } = this.own.find((one) => one.id === sensor_id)!;
    return {
      list: async () => [{ id, bytes: memory.length, packets: 1, start_unix_s: this.start_unix_s }],
      fetch: async () => {
        await this.fetching();
        return memory;
      },
      clear: async (cleared) => void this.cleared.push(`${sensor_id}/${cleared}`),
      close: async () => {},
    };
  }
}

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { CaptureService } from '../../../api/capture/capture-service.ts';
import { createAthlete } from '../../../api/store/athletes.ts';
import { listRepetitions } from '../../../api/store/repetitions.ts';
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
    this.memory = Buffer.concat(
      packets.flatMap((packet) => [Buffer.from([packet.length & 255, packet.length >> 8]), packet]),
    );
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
    expect(service.archive.open(capture_ids[0])).toMatchObject({
      started_utc: new Date(1_795_000_000_000).toISOString(),
      logs: [{ lost_samples: 0, unreadable_packets: 0, gaps: 0 }],
    });
    // Fetched again, it is the same capture, and nothing is stored twice.
    expect(await service.fetchRecordings('S:1', false)).toEqual({ capture_ids, stored: 0 });
    expect(listRepetitions(store, { athlete_id })).toHaveLength(1);
    // Analysed again by hand, what is stored is not stored twice.
    expect(await service.archive.analyse(capture_ids[0])).toEqual({ stored: 0 });
    expect(listRepetitions(store, { athlete_id })).toHaveLength(1);
    await service.close();
    store.close();
  });
});

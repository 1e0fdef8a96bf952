import type { FetchedPart } from '../../../ingest/ble/sources/recording-store.ts';
import type { PacketSource } from '../../../ingest/ble/sources/packet-source.ts';
import { localDate } from '../../../shared/dates.ts';
import type { SensorPlace } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { createSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import { wrongState } from '../recording/capture-faults.ts';
import type { CaptureFolder } from '../recording/capture-folder.ts';
import type { CaptureArchive } from './capture-archive.ts';
import { fetchedId, keepFetched } from './keep-fetched.ts';

export interface FetcherParts {
  store: Store;
  folder: CaptureFolder;
  archive: CaptureArchive;
  places(): Record<string, SensorPlace>;
  describe(description_id: string): StreamDescription;
  sourceOf(sensor_id: string): PacketSource;
}

/** Fetches recordings from sensors' own memories. */
export class MemoryFetcher {
  private readonly parts: FetcherParts;
  /** What has come so far of recordings that are being fetched. */
  private readonly fetched_parts = new Map<string, FetchedPart>();

  constructor(parts: FetcherParts) {
    this.parts = parts;
  }

  /**
   * Fetches what a paired sensor has recorded by itself. Each recording becomes a capture, is analysed, and only then cleared on
   * the sensor, where that is asked. A fetch that broke off goes on where it stopped.
   * @throws FaultError CAPTURE_STATE, SENSOR_UNREACHABLE, SENSOR_NOT_AS_DESCRIBED, SENSOR_RECORDING_DAMAGED
   */
  async fetch(sensor_id: string, clear: boolean): Promise<{ capture_ids: string[]; stored: number }> {
    const { store, folder, archive, places, describe, sourceOf } = this.parts;
    const place = places()[sensor_id];
    const source = sourceOf(sensor_id);
    if (place === undefined || source.recordings === undefined) {
      throw wrongState('not_paired_here');
    }
    const description = describe(place.description_id);
    const memory = await source.recordings(sensor_id, description, { code: place.code ?? null });
    const [capture_ids, known] = [[] as string[], new Set(archive.list().items.map((one) => one.capture_id))];
    let stored = 0;
    try {
      for (const entry of await memory.list()) {
        const key = `${sensor_id}/${entry.id}/${entry.start_unix_s}`;
        const part = this.fetched_parts.get(key) ?? { bytes: new Uint8Array(0), have: 0 };
        this.fetched_parts.set(key, part);
        const bytes = await memory.fetch(entry, part);
        if (known.has(fetchedId(sensor_id, entry))) {
          capture_ids.push(fetchedId(sensor_id, entry));
          if (clear) await memory.clear(entry.id);
          continue;
        }
        const session_date = localDate(new Date());
        const { session_id } = createSession(store, { session_date, title: "From a sensor's memory" });
        const whole = { sensor_id, place, description, entry, bytes, session_id };
        const capture_id = keepFetched(folder, whole, Date.now());
        this.fetched_parts.delete(key);
        capture_ids.push(capture_id);
        stored += (await archive.analyse(capture_id)).stored;
        if (clear) await memory.clear(entry.id);
      }
    } finally {
      await memory.close();
    }
    return { capture_ids, stored };
  }
}

import { errorNotice } from '../../error-words.ts';
import type { FetchedPart, RecordingStore, SensorRecordingEntry } from '../../../ingest/ble/sources/recording-store.ts';
import type { PacketSource } from '../../../ingest/ble/sources/packet-source.ts';
import { type Notice, notice } from '../../../shared/notice.ts';
import type { SensorPlace } from '../../../shared/schemas/capture.ts';
import type { FetchedRecordings } from '../../../shared/schemas/captures.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { wrongState } from '../recording/capture-faults.ts';
import type { CaptureFolder, CaptureRecord } from '../recording/capture-folder.ts';
import type { CaptureArchive } from './capture-archive.ts';
import { joinFeet, pairsOf } from './join-feet.ts';
import { fetchedId, keepFetched } from './keep-fetched.ts';

export interface FetcherParts {
  folder: CaptureFolder;
  archive: CaptureArchive;
  places(): Record<string, SensorPlace>;
  describe(description_id: string): StreamDescription;
  sourceOf(sensor_id: string): PacketSource;
}

/** A connected sensor's memory, and what lies in it. */
interface OpenMemory {
  memory: RecordingStore;
  entries: SensorRecordingEntry[];
  sensor_id: string;
}

/** Fetches recordings from sensors' own memories, of both feet where both record, and puts them together. */
export class MemoryFetcher {
  private readonly parts: FetcherParts;
  /** What has come so far of recordings that are being fetched. */
  private readonly fetched_parts = new Map<string, FetchedPart>();

  constructor(parts: FetcherParts) {
    this.parts = parts;
  }

  /**
   * Fetches what a paired sensor, and the one on the athlete's other foot, have recorded by themselves. Each recording becomes a capture; those of
   * one run become one, on one clock. They are analysed, and only then cleared on the sensors, where that is asked. A fetch that broke off goes on
   * where it stopped. While the other foot's sensor cannot be reached, a recording is kept and waits: analysed alone it would be a repetition of
   * one side for good.
   * @throws FaultError CAPTURE_STATE, SENSOR_UNREACHABLE, SENSOR_NOT_AS_DESCRIBED, SENSOR_RECORDING_DAMAGED
   */
  async fetch(sensor_id: string, clear: boolean): Promise<FetchedRecordings> {
    const place = this.parts.places()[sensor_id];
    if (place === undefined || this.parts.sourceOf(sensor_id).recordings === undefined)
      throw wrongState('not_paired_here');
    const partner = this.partnerOf(sensor_id, place);
    const open: OpenMemory[] = [];
    let away: Notice | null = null;
    try {
      open.push(await this.fetchAll(sensor_id));
      if (partner !== null) {
        try {
          open.push(await this.fetchAll(partner.sensor_id));
        } catch (error) {
          away = notice('waits_for_other_foot', { name: place.name, other: partner.name, why: errorNotice(error) });
        }
      }
      const own = [sensor_id, ...(partner === null ? [] : [partner.sensor_id])];
      const { stored, waiting } = await this.read(own, away);
      const keys = open.flatMap(({ entries, ...one }) => entries.map((entry) => fetchedId(one.sensor_id, entry)));
      const kept = this.parts.folder
        .all()
        .filter(({ recordings = [] }) => recordings.some(({ key }) => keys.includes(key)));
      if (clear) await this.clearRead(open, kept);
      return { capture_ids: kept.map(({ capture_id }) => capture_id), stored, waiting };
    } finally {
      for (const { memory } of open) await memory.close();
    }
  }

  /** The sensor on the athlete's other foot, if it records by itself. */
  private partnerOf(
    sensor_id: string,
    { athlete_id, side, mounting }: SensorPlace,
  ): { sensor_id: string; name: string } | null {
    if (athlete_id === null || side === 'unknown') return null;
    const { places, describe, sourceOf } = this.parts;
    const found = Object.entries(places()).find(
      ([id, place]) =>
        id !== sensor_id &&
        place.athlete_id === athlete_id &&
        place.mounting === mounting &&
        place.side !== side &&
        place.side !== 'unknown' &&
        describe(place.description_id).recordings !== undefined &&
        sourceOf(id).recordings !== undefined,
    );
    return found === undefined ? null : { sensor_id: found[0], name: found[1].name };
  }

  /** Fetches and keeps what is not there yet. The memory stays open. */
  private async fetchAll(sensor_id: string): Promise<OpenMemory> {
    const { folder, places, describe, sourceOf } = this.parts;
    const place = places()[sensor_id];
    const description = describe(place.description_id);
    const memory = await sourceOf(sensor_id).recordings!(sensor_id, description, { code: place.code ?? null });
    try {
      const known = new Set(folder.all().flatMap(({ recordings = [] }) => recordings.map(({ key }) => key)));
      const entries = await memory.list();
      for (const entry of entries) {
        const key = fetchedId(sensor_id, entry);
        if (known.has(key)) continue;
        const part = this.fetched_parts.get(key) ?? { bytes: new Uint8Array(0), have: 0 };
        this.fetched_parts.set(key, part);
        const bytes = await memory.fetch(entry, part);
        // Minutes may have passed: whose it was may have been erased meanwhile, or the sensor given to somebody else.
        if (places()[sensor_id]?.athlete_id !== place.athlete_id) {
          this.fetched_parts.delete(key);
          throw wrongState('not_paired_here');
        }
        keepFetched(folder, { sensor_id, place, description, entry, bytes }, Date.now());
        this.fetched_parts.delete(key);
      }
      return { memory, entries, sensor_id };
    } catch (error) {
      await memory.close();
      throw error;
    }
  }

  /** Joins what belongs together, and looks through what waits for nothing. */
  private async read(
    sensor_ids: string[],
    away: Notice | null,
  ): Promise<Pick<FetchedRecordings, 'stored' | 'waiting'>> {
    const { folder, archive } = this.parts;
    const unread = () =>
      folder.all().filter(({ unread: waits, sensors }) => waits === true && sensor_ids.includes(sensors[0].sensor_id));
    const waiting: Notice[] = [];
    const apart = new Set<string>();
    for (const [left, right] of pairsOf(unread().filter(({ sensors }) => sensors.length === 1))) {
      if (await joinFeet(folder, left, right)) continue;
      for (const { capture_id } of [left, right]) apart.add(capture_id);
      const [name, with_name] = [left, right].map(({ sensors }) => sensors[0].place.name);
      waiting.push(notice('feet_not_joined', { name, other: with_name }));
    }
    let stored = 0;
    for (const { capture_id, sensors } of unread()) {
      if (apart.has(capture_id)) continue;
      if (sensors.length === 1 && away !== null) waiting.push(away);
      else stored += (await archive.analyse(capture_id)).stored;
    }
    return { stored, waiting };
  }

  /** Clears on the sensors what has been looked through. */
  private async clearRead(open: OpenMemory[], kept: CaptureRecord[]): Promise<void> {
    const read = new Set(
      kept.filter(({ unread }) => unread !== true).flatMap(({ recordings = [] }) => recordings.map(({ key }) => key)),
    );
    for (const { memory, entries, sensor_id } of open) {
      for (const entry of entries) if (read.has(fetchedId(sensor_id, entry))) await memory.clear(entry.id);
    }
  }
}

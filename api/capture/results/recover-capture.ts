import type { PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import type { Store } from '../../store/store.ts';
import { type CaptureFolder, type CaptureRecord, handledUntil } from '../recording/capture-folder.ts';
import { bootId } from '../recording/capture-run.ts';
import { KEEP_S } from '../recording/sensor-session.ts';
import { readLogTail } from '../recording/stream-log.ts';
import { freeMemory } from '../../free-memory.ts';
import { type FoundSpan, measuredInThread } from './capture-thread.ts';
import { alreadyStored, measuredByRadio } from './already-stored.ts';
import { type FoundLog, findLogs } from './logs-of-capture.ts';
import { groupSensors } from './sensor-groups.ts';
import { markRepetitionDeleted } from '../../store/repetitions.ts';
import { circumstancesOf, storePrepared } from './store-repetition.ts';

export interface Recovered {
  /** When the last record was written. */
  last_utc: string;
  away_s: number;
  /** True when the capture lies so short a time back, with the machine running all along, that it can simply go on. */
  resume: boolean;
  /** The ends of its logs, by file, for a capture that goes on. */
  tails: Map<string, PacketLog>;
  /** Repetitions found that were not in the store, and are now. */
  repetitions: number;
}

/** Repetitions stored between two collections of what their packets and samples left: some 20 MB. */
const COLLECT_EVERY = 4;

/**
 * Takes up a capture that was running when the program stopped. Where it lies too far back to be resumed, every repetition in it that had
 * not been stored is stored now. Its logs are read a piece at a time and looked through in a thread: memory does not grow with
 * their length, and the server answers meanwhile.
 */
export async function recoverCapture(
  store: Store,
  folder: CaptureFolder,
  record: CaptureRecord,
  resume_s: number,
  signal?: AbortSignal,
): Promise<Recovered> {
  const found = await findLogs(folder, record);
  const last_ms = Math.max(Date.parse(record.started_utc), ...found.map(({ end }) => end.last_utc_ms));
  const last_utc = new Date(last_ms).toISOString();
  const away_s = (Date.now() - last_ms) / 1000;
  const resume = away_s < resume_s && found.every(({ end }) => end.boot_id === bootId());
  const tails = new Map<string, PacketLog>();
  if (resume) for (const { file, end } of found) tails.set(file, await readLogTail(file, end, KEEP_S));
  const repetitions = resume ? 0 : await storeMissed(store, record, found, signal);
  return { last_utc, away_s, resume, tails, repetitions };
}

/** Stores every repetition of an ended capture that is not in the store yet. @returns how many there were */
export async function storeWhatIsMissing(store: Store, folder: CaptureFolder, record: CaptureRecord): Promise<number> {
  return (await recoverCapture(store, folder, record, 0)).repetitions;
}

async function storeMissed(
  store: Store,
  record: CaptureRecord,
  found: FoundLog[],
  signal?: AbortSignal,
): Promise<number> {
  const { session_id, capture_id } = record;
  // What reading the logs through has left is given back before a thread takes room of its own.
  freeMemory();
  let stored = 0;
  let failure: Error | null = null;
  for (const athlete_id of new Set(found.map(({ place }) => place.athlete_id))) {
    if (athlete_id === null || session_id === null) continue;
    const own = found.filter(({ place }) => place.athlete_id === athlete_id);
    const [group] = groupSensors(own, ({ end }) => ({ ...end.header, athlete_id })).groups;
    const sensors = group.sensors.map(({ file, end }) => ({ file, header: end.header }));
    const place = { athlete_id, session_id };
    const missed = {
      capture_id,
      sensors,
      first_s: Math.min(...group.sensors.map(({ end }) => end.first_s)),
      last_s: Math.max(...group.sensors.map(({ end }) => end.last_s)),
      handled_s: handledUntil(
        record,
        sensors.map(({ header }) => header.sensor_id),
      ),
    };
    const { mounting } = sensors[0].header;
    const wanted = (span: FoundSpan) => {
      if (alreadyStored(store, capture_id, athlete_id, span)) return null;
      const sent = record.recordings === undefined ? [] : measuredByRadio(store, { athlete_id, mounting }, span);
      if (sent.length === 0) return { ...circumstancesOf(store, place), parts: [] };
      // What was fetched takes the place of what was sent where that is in parts or has gaps, and nothing is lost by it.
      const sides = sensors.map(({ header }) => header.side);
      const covers = sent.every((one) => one.sides.every((side) => sides.includes(side)));
      const whole = sent.length === 1 && sent[0].whole;
      const [first, ...others] = sent.map(({ repetition_id }) => repetition_id);
      return covers && !whole ? { ...circumstancesOf(store, place, first), parts: others } : null;
    };
    const measured = measuredInThread({ missed }, wanted, signal);
    for await (const { excerpts, prepared, failure: why, wanted: as } of measured) {
      failure ??= why;
      if (prepared === null) continue;
      await storePrepared(store, place, excerpts, as.planned_id, prepared);
      // They can be brought back, as whatever is deleted.
      for (const repetition_id of as.parts) markRepetitionDeleted(store, repetition_id, true);
      if (++stored % COLLECT_EVERY === 0) freeMemory();
    }
  }
  if (failure !== null) throw failure;
  return stored;
}

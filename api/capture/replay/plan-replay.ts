import { setImmediate } from 'node:timers/promises';
import type { PlayedLog } from '../../../ingest/ble/sources/replay-source.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { readRecording } from '../../store/read-samples.ts';
import { listRecordings } from '../../store/recordings.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';
import { type PlacedRecording, sideLog } from './side-log.ts';

/** From the end of one repetition's recording to the start of the next, seconds: shorter than at the track. */
const PAUSE_S = 4;

/** When a stored repetition is played, on the replay's clock. */
export interface PlayedRepetition {
  repetition_id: number;
  athlete_id: number;
  from_s: number;
  to_s: number;
}

export interface ReplayPlan {
  logs: PlayedLog[];
  /** Who wears the sensor of each log. */
  athlete_ids: number[];
  /** In the order they are played. */
  repetitions: PlayedRepetition[];
}

/**
 * Turns a stored session into the packets that its sensors would have sent: everybody's repetitions in the order they were run,
 * one after the other. Each athlete wears sensors of their own, as at the track.
 * @param base the packet layout to send them in
 * @param athlete_id only this athlete's
 * @throws FaultError CAPTURE_STATE when the session holds nothing that can be played
 */
export async function planReplay(
  store: Store,
  session_id: number,
  base: StreamDescription,
  athlete_id?: number,
): Promise<ReplayPlan> {
  const recorded = inRunningOrder(listRepetitions(store, { session_id, athlete_id, state: 'analysed' }));
  const repetitions: PlayedRepetition[] = [];
  const sensors = new Map<string, { athlete_id: number; side: string; placed: PlacedRecording[] }>();
  const played = new Map<number, number>();
  let end_s = 0;
  for (const line of recorded) {
    const begin_s = end_s + PAUSE_S;
    for (const { recording_id } of listRecordings(store, line.repetition_id)) {
      // Several repetitions may lie in one recording: it is played once.
      if (played.has(recording_id)) continue;
      const recording = readRecording(store, recording_id);
      const from_s = begin_s + recording.clock_offset_s;
      played.set(recording_id, from_s);
      const key = `${line.athlete_id}-${recording.side}`;
      const sensor = sensors.get(key) ?? { athlete_id: line.athlete_id, side: recording.side, placed: [] };
      sensors.set(key, sensor);
      sensor.placed.push({ recording, from_s });
      end_s = Math.max(end_s, from_s + (recording.samples.time_s.at(-1) ?? 0));
    }
    await setImmediate();
    repetitions.push({ repetition_id: line.repetition_id, athlete_id: line.athlete_id, from_s: begin_s, to_s: end_s });
  }
  if (sensors.size === 0) {
    throw new FaultError(fault('CAPTURE_STATE.nothing_to_play', { session_id }, { session_id }));
  }
  const worn = [...sensors.values()];
  return {
    logs: worn.map(({ athlete_id, side, placed }) => {
      const sensor = { id: `replay-${athlete_id}-${side}`, name: `Replay ${side}` };
      return sideLog(base, sensor, placed, end_s + PAUSE_S);
    }),
    athlete_ids: worn.map((sensor) => sensor.athlete_id),
    repetitions,
  };
}

/** As the evening went: by the recordings' clock, or by rounds where a clock is missing. */
function inRunningOrder(lines: RepetitionLine[]): RepetitionLine[] {
  const dated = lines.every((line) => line.recorded_utc !== null);
  return [...lines].sort(
    (a, b) =>
      (dated ? a.recorded_utc!.localeCompare(b.recorded_utc!) : 0) ||
      a.order_number - b.order_number ||
      a.repetition_id - b.repetition_id,
  );
}

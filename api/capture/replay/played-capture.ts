import { type PlayedLog, ReplaySource } from '../../../ingest/ble/sources/replay-source.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { type CaptureRecord, newRecord } from '../recording/capture-folder.ts';
import { wearers } from '../recording/capture-run.ts';
import type { PlayedRepetition } from './plan-replay.ts';
import { ReplayProgress } from './replay-progress.ts';

/** What is played: logs, and whose they are. */
export interface Played {
  logs: PlayedLog[];
  athlete_ids: (number | null)[];
  session_id: number;
  speed: number;
  /** The stored repetitions in them, where they are a session's. */
  repetitions?: PlayedRepetition[];
}

/** Logs that play as a capture of their own: the source of their packets, the record of who wears what, and how far they have come. */
export class PlayedCapture {
  readonly record: CaptureRecord;
  readonly source: ReplaySource;
  readonly progress: ReplayProgress;
  private readonly kinds: ReadonlyMap<string, StreamDescription>;

  constructor({ logs, athlete_ids, session_id, speed, repetitions = [] }: Played) {
    this.source = new ReplaySource(logs, speed);
    this.progress = new ReplayProgress(repetitions, (host_s) => this.source.logTime(host_s));
    // Both sides may differ in rate and range, so each log brings its own.
    this.kinds = new Map(logs.map(({ header }) => [header.sensor_id, header.description]));
    const sensors = logs.map(({ header }, i) => {
      const place = {
        name: header.sensor_name,
        description_id: header.description.id,
        settings: header.settings,
        side: header.side,
        mounting: header.mounting,
        athlete_id: athlete_ids[i],
      };
      return { sensor_id: header.sensor_id, place, athlete_ids: wearers(place) };
    });
    this.record = newRecord('replay', session_id, sensors);
  }

  describe(sensor_id: string): StreamDescription {
    return this.kinds.get(sensor_id)!;
  }
}

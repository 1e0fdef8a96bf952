import type { PacketLog } from '../../ingest/ble/assembly/read-packet-log.ts';
import { hostTime } from '../../ingest/ble/sources/host-clock.ts';
import type { PacketSource } from '../../ingest/ble/sources/packet-source.ts';
import { type Notice, notice } from '../../shared/notice.ts';
import type { CaptureState, SensorPlace } from '../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../shared/schemas/stream-description.ts';
import type { Store } from '../store/store.ts';
import { wrongState } from './recording/capture-faults.ts';
import type { CaptureFolder, CaptureRecord } from './recording/capture-folder.ts';
import { CaptureRun, type RunParts } from './recording/capture-run.ts';
import { EndingRuns } from './recording/ending-runs.ts';
import type { PacketLogWriter } from './recording/packet-log-writer.ts';
import type { SensorSession } from './recording/sensor-session.ts';
import { type Played, PlayedCapture } from './replay/played-capture.ts';
import { LiveResults, type LiveResultsParts } from './results/live-results.ts';
import { warmUp } from './results/warm-up.ts';

export interface RunningParts {
  store: Store;
  folder: CaptureFolder;
  describe(description_id: string): StreamDescription;
  sourceOf(sensor_id: string): PacketSource;
  athleteName: LiveResultsParts['athleteName'];
  tell: LiveResultsParts['tell'];
  say(what: Notice): void;
  /** A capture is about to begin. */
  beginning(): void;
  /** Something about it has changed that a page shows. */
  changed(): void;
}

/** The capture or the replay that runs, if one does: its beginning, its results, its end. */
export class RunningCapture {
  private readonly parts: RunningParts;
  private readonly ending: EndingRuns;
  private run: CaptureRun | null = null;
  private results: LiveResults | null = null;
  private replay: PlayedCapture | null = null;
  /** A replay is being made ready. */
  private preparing = false;
  /** The running end of a capture. */
  private stopping: Promise<void> | null = null;

  constructor(parts: RunningParts) {
    this.parts = parts;
    this.ending = new EndingRuns(parts.say);
  }

  get record(): CaptureRecord | null {
    return this.run?.record ?? null;
  }

  get sessions(): SensorSession[] {
    return this.run?.sessions ?? [];
  }

  get ending_packets(): number {
    return this.ending.waiting_packets;
  }

  /** Those of the running capture, and of those whose last packets wait. */
  get logs(): PacketLogWriter[] {
    return [...this.sessions.map((session) => session.log), ...this.ending.logs];
  }

  state(now_s: number): CaptureState['capture'] {
    const { run } = this;
    if (run === null) return null;
    return {
      capture_id: run.record.capture_id,
      kind: run.record.kind,
      started_utc: run.record.started_utc,
      session_id: run.record.session_id,
      seconds: now_s - run.started_s,
      marked_s: run.marked_s === null ? null : now_s - run.marked_s,
      replay: this.replay?.progress.state() ?? null,
    };
  }

  /** @throws FaultError CAPTURE_STATE while a capture or a replay runs */
  mustNotRun(): void {
    if (this.preparing) throw wrongState('replay_runs');
    if (this.run !== null) throw wrongState(this.run.record.kind === 'replay' ? 'replay_runs' : 'capture_runs');
  }

  /** Looks for contacts that have come. Called many times a second. */
  look(): void {
    this.results?.tick();
  }

  /** Called a few times a second: silence, batteries, packets that wait for room. */
  tend(): void {
    for (const session of this.sessions) session.tend();
    this.ending.finish(false);
  }

  /** A sensor of the capture is worn elsewhere from now on. */
  async setPlace(sensor_id: string, place: SensorPlace): Promise<void> {
    const { run } = this;
    if (run === null || this.stopping !== null) return;
    run.setPlace(sensor_id, place);
    await this.results?.close();
    if (this.run === run && this.stopping === null) this.watch(run);
  }

  begin(
    record: CaptureRecord,
    {
      sourceOf,
      describe,
      tails,
    }: Partial<Pick<RunParts, 'sourceOf' | 'describe'>> & { tails?: Map<string, PacketLog> } = {},
  ): void {
    const { folder, store, say, changed, beginning, ...own } = this.parts;
    beginning();
    this.run = new CaptureRun({
      folder,
      record,
      describe: describe ?? own.describe,
      sourceOf: sourceOf ?? own.sourceOf,
      say,
      tails,
    });
    this.watch(this.run);
    changed();
    try {
      warmUp(store);
    } catch {
      // Whatever is wrong with an old recording is told where it is opened.
    }
  }

  /** Plays what is made ready meanwhile. @throws FaultError CAPTURE_STATE */
  async playWhenReady(plan: Promise<Played>): Promise<void> {
    this.preparing = true;
    try {
      const played = await plan;
      this.preparing = false;
      this.mustNotRun();
      this.play(played);
    } finally {
      this.preparing = false;
    }
  }

  play(played: Played): void {
    const replay = new PlayedCapture(played);
    this.replay = replay;
    void replay.source.whenEnded.then(() => this.stop());
    this.begin(replay.record, {
      sourceOf: () => replay.source,
      describe: (_id, sensor_id) => replay.describe(sensor_id),
    });
  }

  /**
   * Ends the capture: what is open is closed, sensors are stopped, logs are closed. Nothing happens when none runs. Packets
   * that the disk does not take go on waiting; `discard_waiting` gives them up.
   */
  async stop(discard_waiting = false): Promise<void> {
    const { run } = this;
    this.stopping ??= this.endRun().finally(() => {
      this.stopping = null;
    });
    await this.stopping;
    this.ending.finish(discard_waiting);
    if (run !== null && this.ending.has(run)) {
      this.parts.say(notice('waits_for_space', { packets: run.waiting_packets }));
    }
    this.parts.changed();
  }

  /** Ends the capture when one of its sensors is worn by this athlete. */
  async stopWearing(athlete_id: number): Promise<void> {
    if (this.run?.record.sensors.some((sensor) => sensor.athlete_ids.includes(athlete_id))) await this.stop(true);
  }

  /** The coach's own start and stop of a repetition. @throws FaultError CAPTURE_STATE */
  async mark(mark: 'start' | 'stop'): Promise<void> {
    const { run, results } = this;
    if (run === null || results === null) throw wrongState('none_runs');
    if (mark === 'start') run.marked_s = hostTime();
    else if (run.marked_s === null) throw wrongState('not_marked');
    else {
      const from_s = run.marked_s;
      run.marked_s = null;
      await results.closeMarked(from_s, hostTime());
    }
    this.parts.changed();
  }

  /** Ends what runs, and gives up packets that wait: the program ends. */
  async close(): Promise<void> {
    await this.stop(true);
    await this.replay?.source.close();
  }

  /** What is open ends and is told while the capture still stands: a replay's last result counts among what was played. */
  private async endRun(): Promise<void> {
    const { run, results, replay } = this;
    if (run === null) return;
    this.results = null;
    await results?.close();
    if (replay !== null) this.parts.changed();
    this.run = null;
    this.replay = null;
    await run.stopSensors();
    await replay?.source.close();
    this.ending.add(run);
  }

  private watch(run: CaptureRun): void {
    const { store, athleteName, tell, say } = this.parts;
    this.results = new LiveResults({
      store,
      run,
      athleteName,
      tell,
      say,
      replayed: (athlete_id, host_s) => this.replay?.progress.ended(athlete_id, host_s) ?? null,
    });
  }
}

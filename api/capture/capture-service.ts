import { errorWords } from '../error-words.ts';
import { localDate } from '../../shared/dates.ts';
import { join } from 'node:path';
import { BrowserSource } from '../../ingest/ble/sources/browser-source.ts';
import { hostTime } from '../../ingest/ble/sources/host-clock.ts';
import type { PacketLog } from '../../ingest/ble/assembly/read-packet-log.ts';
import type { PacketSource, SensorFound } from '../../ingest/ble/sources/packet-source.ts';
import { ReplaySource } from '../../ingest/ble/sources/replay-source.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import type { CaptureState, SensorPlace, SensorPlaceChange } from '../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../shared/schemas/stream-description.ts';
import { getAthlete } from '../store/athletes.ts';
import { createSession, getSession } from '../store/sessions.ts';
import { nowUtc, type Store } from '../store/store.ts';
import { CaptureArchive } from './archive/capture-archive.ts';
import { fetchedId, keepFetched } from './archive/keep-fetched.ts';
import type { FetchedPart } from '../../ingest/ble/sources/recording-store.ts';
import { SpeedChecks } from './checks/speed-checks.ts';
import { Exploration } from './explore/exploration.ts';
import { CaptureFolder, type CaptureRecord, newRecord } from './recording/capture-folder.ts';
import { CaptureRun, wearers } from './recording/capture-run.ts';
import { WORDS } from './sensors/capture-words.ts';
import { DiskWatch } from './recording/disk-watch.ts';
import { LiveResults } from './results/live-results.ts';
import { Pairing } from './sensors/pairing.ts';
import { recoverCapture } from './results/recover-capture.ts';
import { storePending } from './results/store-pending.ts';
import { planReplay } from './replay/plan-replay.ts';
import type { PlayedRepetition } from './replay/plan-replay.ts';
import { ReplayProgress } from './replay/replay-progress.ts';
import { RecentEvents } from './results/recent-events.ts';
import { warmUp } from './results/warm-up.ts';
import { StreamDescriptions } from './sensors/stream-descriptions.ts';

const STATE_MS = 500;
const SIGNAL_MS = 100;
const LOOK_MS = 40;
const MESSAGES = 50;
/** How often what could not be stored is tried again. */
const PENDING_MS = 10_000;
/** A capture whose program was away for longer is ended and recovered instead of resumed, seconds. */
const RESUME_S = 15 * 60;

export type CaptureListener = (
  event: 'state' | 'signal' | 'contacts' | 'repetition' | 'stored',
  value: unknown,
) => void;

export interface CaptureServiceOptions {
  store: Store;
  /** Folder for captures and added stream descriptions. */
  folder: string;
  /** The radio of this machine. */
  radio: PacketSource;
}

/** The one place that owns the sensors: search, pairing, the running capture, and telling the live view. */
export class CaptureService {
  readonly browser = new BrowserSource();
  readonly descriptions: StreamDescriptions;
  readonly archive: CaptureArchive;
  private readonly store: Store;
  private readonly folder: CaptureFolder;
  private readonly radio: PacketSource;
  private readonly listeners = new Set<CaptureListener>();
  private readonly pairing: Pairing;
  private readonly disk: DiskWatch;
  private readonly timers: NodeJS.Timeout[] = [];
  private readonly closing = new AbortController();
  private recovering: Promise<void> = Promise.resolve();
  private searching = false;
  private run: CaptureRun | null = null;
  private results: LiveResults | null = null;
  private replay: { source: ReplaySource; ended: Promise<void>; progress: ReplayProgress } | null = null;
  /** The running end of a capture. */
  private stopping: Promise<void> | null = null;
  /** A replay is being made ready. */
  private preparing = false;
  private messages: CaptureState['messages'] = [];
  private readonly recent = new RecentEvents();
  private readonly checks = new SpeedChecks();
  private radio_problem = '';
  private storing_pending = false;
  private exploration: Exploration | null = null;
  /** What has come so far of recordings that are being fetched. */
  private readonly fetched_parts = new Map<string, FetchedPart>();
  /** Captures whose sensors are stopped, and whose last packets wait for room on the disk. */
  private ending: CaptureRun[] = [];

  constructor({ store, folder, radio }: CaptureServiceOptions) {
    this.store = store;
    this.radio = radio;
    const read_only = store.read_only !== null;
    this.folder = new CaptureFolder(join(folder, 'captures'), read_only);
    this.archive = new CaptureArchive(store, this.folder);
    this.descriptions = new StreamDescriptions(join(folder, 'stream-descriptions'), read_only);
    this.pairing = new Pairing(store, this.descriptions);
    this.disk = new DiskWatch(this.folder.folder);
    for (const problem of [...this.descriptions.problems, ...this.folder.look().problems]) this.say(problem);
    this.every(STATE_MS, () => this.tellState());
    this.every(SIGNAL_MS, () => this.tellSignal());
    this.every(LOOK_MS, () => this.results?.tick());
    if (!read_only) this.every(PENDING_MS, () => this.storePending());
  }

  /** Takes up captures that were running when the program stopped. Call it once, when the server is up; it may take minutes. */
  recover(): Promise<void> {
    this.recovering = this.recoverAll();
    return this.recovering;
  }

  private async recoverAll(): Promise<void> {
    for (const record of this.folder.interrupted()) {
      if (this.closing.signal.aborted) return;
      try {
        await this.takeUp(record);
      } catch (error) {
        // Left as it stands: the next start takes it up again.
        if (this.closing.signal.aborted) return;
        this.say(WORDS.badCapture(record.capture_id, errorWords(error)));
      }
    }
    await this.storePending();
  }

  private async takeUp(record: CaptureRecord): Promise<void> {
    if (record.kind === 'replay') {
      this.folder.removeReplay(record);
      return;
    }
    const may_resume_s = this.run === null ? RESUME_S : 0;
    const recover = (resume_s: number) =>
      recoverCapture(this.store, this.folder, record, resume_s, this.closing.signal);
    let recovered = await recover(may_resume_s);
    // Meanwhile the coach may have started another one.
    if (recovered.resume && this.run !== null) recovered = await recover(0);
    if (recovered.resume) {
      this.say(WORDS.resumed(recovered.last_utc, recovered.away_s));
      this.begin(record, (sensor_id) => this.sourceOf(sensor_id), undefined, recovered.tails);
    } else {
      this.folder.save({ ...record, state: 'ended' });
      this.say(WORDS.recovered(record.started_utc, recovered.repetitions));
    }
  }

  /** Repetitions that could not be stored, of the running capture and of ended ones, are tried again. */
  private async storePending(): Promise<void> {
    if (this.storing_pending) return;
    this.storing_pending = true;
    try {
      const running = this.run?.record ?? null;
      const records = this.folder.all().filter((record) => record.capture_id !== running?.capture_id);
      for (const record of running === null ? records : [running, ...records]) {
        if ((record.pending?.length ?? 0) === 0) continue;
        await storePending(this.store, this.folder, record, ({ athlete_id }, repetition_id) => {
          this.say(WORDS.storedLater(this.pairing.athleteName(athlete_id) ?? 'Somebody'));
          this.tell('stored', { key: `${record.capture_id}-later-${repetition_id}`, repetition_id });
        });
      }
    } catch (error) {
      process.stderr.write(`capture: ${errorWords(error)}\n`);
    } finally {
      this.storing_pending = false;
    }
  }

  listen(listener: CaptureListener): () => void {
    this.listeners.add(listener);
    listener('state', this.state());
    for (const { event, value } of this.recent.all()) listener(event, value);
    return () => this.listeners.delete(listener);
  }

  state(): CaptureState {
    const now_s = hostTime();
    const { run, pairing } = this;
    const sessions = run?.sessions ?? [];
    return {
      radio: this.radio.state(),
      searching: this.searching,
      found: pairing.found(),
      sensors: run
        ? sessions.map((session) => session.status(pairing.athleteName(session.place.athlete_id), now_s))
        : pairing.idle(),
      checks: this.checks.state((athlete_id) => pairing.athleteName(athlete_id)),
      capture: run && {
        capture_id: run.record.capture_id,
        kind: run.record.kind,
        started_utc: run.record.started_utc,
        session_id: run.record.session_id,
        seconds: now_s - run.started_s,
        marked_s: run.marked_s === null ? null : now_s - run.marked_s,
        replay: this.replay?.progress.state() ?? null,
      },
      ending_packets: this.ending.reduce((sum, ending) => sum + ending.waiting_packets, 0),
      disk_problem: this.disk.problem(
        [...sessions, ...this.ending.flatMap((ending) => ending.sessions)].map((session) => session.log),
      ),
      messages: this.messages,
    };
  }

  async search(on: boolean): Promise<void> {
    this.searching = on;
    if (!on) {
      await Promise.all([this.radio.stopScan(), this.browser.stopScan()]);
    } else {
      this.pairing.forgetHeard();
      const found = (sensor: SensorFound) => this.pairing.hear(sensor);
      await Promise.all([this.radio.startScan(found), this.browser.startScan(found)]);
    }
    this.tellState();
  }

  /**
   * Pairs a sensor, or changes where it is worn, also while it records; rate and ranges only while nothing is recorded.
   * @throws FaultError CAPTURE_STATE, STREAM_DESCRIPTION_INVALID, STREAM_SETTINGS_INVALID, ATHLETE_NOT_FOUND
   */
  async place(sensor_id: string, change: SensorPlaceChange): Promise<SensorPlace> {
    if (change.description_id !== undefined || change.settings !== undefined) {
      this.mustNotRun();
    }
    const place = this.pairing.place(sensor_id, change);
    const { run } = this;
    if (run !== null && this.stopping === null) {
      run.setPlace(sensor_id, place);
      await this.results?.close();
      if (this.run === run && this.stopping === null) this.watch(run);
    }
    this.tellState();
    return place;
  }

  forget(sensor_id: string): void {
    this.mustNotRun();
    this.pairing.forget(sensor_id);
    this.tellState();
  }

  /** Holds a sensor that tells speed and cadence, as a check beside what is measured. @throws FaultError CAPTURE_STATE */
  async addCheck(sensor_id: string, athlete_id: number | null): Promise<void> {
    if (athlete_id !== null) getAthlete(this.store, athlete_id);
    const name = this.pairing.found().find((sensor) => sensor.sensor_id === sensor_id)?.name ?? sensor_id;
    await this.checks.add(this.radio, { sensor_id, name, athlete_id });
    this.tellState();
  }

  async removeCheck(sensor_id: string): Promise<void> {
    await this.checks.remove(sensor_id);
    this.tellState();
  }

  /** Takes an added description away. @throws FaultError CAPTURE_STATE, STREAM_DESCRIPTION_INVALID */
  removeDescription(id: string): void {
    const user = Object.values(this.pairing.places()).find((place) => place.description_id === id);
    if (user) throw new FaultError(fault('CAPTURE_STATE.description_in_use', { sensor: user.name }));
    this.descriptions.remove(id);
    this.tellState();
  }

  /** Connects the paired sensors and records from now on. @throws FaultError CAPTURE_STATE, SESSION_NOT_FOUND */
  start(options: { session_id?: number; sensor_ids?: string[] } = {}): void {
    this.mustNotRun();
    void this.endExploration();
    const places = Object.entries(this.pairing.places()).filter(
      ([sensor_id]) => options.sensor_ids?.includes(sensor_id) ?? true,
    );
    if (places.length === 0) throw wrongState('no_sensor');
    const session_id = options.session_id
      ? getSession(this.store, options.session_id).session_id
      : createSession(this.store, { session_date: localDate(new Date()), title: 'Live' }).session_id;
    const sensors = places.map(([sensor_id, place]) => ({ sensor_id, place, athlete_ids: wearers(place) }));
    this.begin(newRecord('live', session_id, sensors), (sensor_id) => this.sourceOf(sensor_id));
    this.say(WORDS.started(sensors.length));
  }

  /**
   * Fetches what a paired sensor has recorded by itself. Each recording becomes a capture, is analysed, and only then cleared on
   * the sensor, where that is asked. A fetch that broke off goes on where it stopped.
   * @throws FaultError CAPTURE_STATE, SENSOR_UNREACHABLE, SENSOR_NOT_AS_DESCRIBED, SENSOR_RECORDING_DAMAGED
   */
  async fetchRecordings(sensor_id: string, clear: boolean): Promise<{ capture_ids: string[]; stored: number }> {
    this.mustNotRun();
    const place = this.pairing.places()[sensor_id];
    const source = this.sourceOf(sensor_id);
    if (place === undefined || source.recordings === undefined) {
      throw wrongState('not_paired_here');
    }
    const description = this.descriptions.get(place.description_id);
    const memory = await source.recordings(sensor_id, description, { code: place.code ?? null });
    const [capture_ids, known] = [[] as string[], new Set(this.archive.list().items.map((one) => one.capture_id))];
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
        const { session_id } = createSession(this.store, { session_date, title: "From a sensor's memory" });
        const whole = { sensor_id, place, description, entry, bytes, session_id };
        const capture_id = keepFetched(this.folder, whole, Date.now());
        this.fetched_parts.delete(key);
        capture_ids.push(capture_id);
        stored += (await this.archive.analyse(capture_id)).stored;
        if (clear) await memory.clear(entry.id);
      }
    } finally {
      await memory.close();
    }
    return { capture_ids, stored };
  }

  /** Holds a sensor to see how it speaks; the one held before is let go. @throws FaultError CAPTURE_STATE */
  async explore(sensor_id: string): Promise<Exploration> {
    this.mustNotRun();
    await this.endExploration();
    if (this.searching) await this.search(false);
    this.exploration = await Exploration.open(this.sourceOf(sensor_id), sensor_id);
    return this.exploration;
  }

  /** @throws FaultError CAPTURE_STATE when no sensor is held */
  explored(): Exploration {
    if (this.exploration === null) throw wrongState('none_held');
    return this.exploration;
  }

  async endExploration(): Promise<void> {
    const { exploration } = this;
    this.exploration = null;
    await exploration?.close();
  }

  /**
   * Plays a stored session: everybody's repetitions in the order they were run, or one athlete's. Nothing of it is stored.
   * @throws FaultError CAPTURE_STATE
   */
  async startReplay(session_id: number, athlete_id?: number, speed = 1): Promise<void> {
    this.mustNotRun();
    this.preparing = true;
    try {
      const plan = await planReplay(this.store, session_id, this.descriptions.all()[0], athlete_id);
      this.preparing = false;
      this.mustNotRun();
      this.play(plan.logs, plan.athlete_ids, session_id, speed, plan.repetitions);
    } finally {
      this.preparing = false;
    }
  }

  /** Plays a capture's own packets, of everybody in it, as they came. @throws FaultError CAPTURE_NOT_FOUND, CAPTURE_STATE */
  replayCapture(capture_id: string, speed = 1): void {
    this.mustNotRun();
    const { record, logs } = this.archive.forReplay(capture_id);
    if (logs.length === 0) throw wrongState('no_packets');
    const athletes = logs.map(
      ({ header }) => record.sensors.find((one) => one.sensor_id === header.sensor_id)?.place.athlete_id ?? null,
    );
    this.play(logs, athletes, record.session_id ?? 0, speed);
  }

  private play(
    logs: PacketLog[],
    athlete_ids: (number | null)[],
    session_id: number,
    speed: number,
    repetitions: PlayedRepetition[] = [],
  ): void {
    const source = new ReplaySource(logs, speed);
    const sensors = logs.map(({ header }, i) => ({
      sensor_id: header.sensor_id,
      place: {
        name: header.sensor_name,
        description_id: header.description.id,
        settings: header.settings,
        side: header.side,
        mounting: header.mounting,
        athlete_id: athlete_ids[i],
      },
      athlete_ids: athlete_ids[i] === null ? [] : [athlete_ids[i]!],
    }));
    const progress = new ReplayProgress(repetitions, (host_s) => source.logTime(host_s));
    this.replay = { source, progress, ended: source.whenEnded.then(() => this.stop()) };
    const kinds = logs.map(({ header }) => header.description);
    this.begin(
      newRecord('replay', session_id, sensors),
      () => source,
      // Both sides may differ in rate and range, so each log brings its own.
      (_id, sensor_id) => kinds[sensors.findIndex((sensor) => sensor.sensor_id === sensor_id)],
    );
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
    this.finishEnding(discard_waiting);
    if (run !== null && this.ending.includes(run)) this.say(WORDS.waitsForSpace(run.waiting_packets));
    this.tellState();
  }

  /** What is open ends and is told while the capture still stands: a replay's last result counts among what was played. */
  private async endRun(): Promise<void> {
    const { run, results, replay } = this;
    if (run === null) return;
    this.results = null;
    await results?.close();
    if (replay !== null) this.tellState();
    this.run = null;
    this.replay = null;
    await run.stopSensors();
    await replay?.source.close();
    this.ending.push(run);
  }

  /** Ends the capture when one of its sensors is worn by this athlete. */
  async stopWearing(athlete_id: number): Promise<void> {
    const worn = this.run?.record.sensors.some((sensor) => sensor.athlete_ids.includes(athlete_id)) ?? false;
    if (worn) await this.stop(true);
    this.recent.clear();
  }

  private finishEnding(discard: boolean): void {
    this.ending = this.ending.filter((run) => {
      const waiting = run.waiting_packets;
      if (!run.finish(discard)) return true;
      if (run.record.kind === 'live') this.say(discard && waiting > 0 ? WORDS.givenUp(waiting) : WORDS.ended);
      return false;
    });
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
    this.tellState();
  }

  /** Ends the capture and gives everything back. */
  async close(): Promise<void> {
    this.closing.abort();
    await this.recovering;
    for (const timer of this.timers) clearInterval(timer);
    this.disk.close();
    await this.endExploration();
    await this.checks.close();
    await this.stop(true);
    await this.replay?.source.close();
    await Promise.all([this.radio.close(), this.browser.close()]);
  }

  private begin(
    record: CaptureRecord,
    sourceOf: (sensor_id: string) => PacketSource,
    describe: (id: string, sensor_id: string) => StreamDescription = (id) => this.descriptions.get(id),
    tails?: Map<string, PacketLog>,
  ): void {
    if (this.searching) void this.search(false);
    this.recent.clear();
    this.run = new CaptureRun({
      folder: this.folder,
      record,
      describe,
      sourceOf,
      say: (text) => this.say(text),
      tails,
    });
    this.watch(this.run);
    this.tellState();
    try {
      warmUp(this.store);
    } catch {
      // Whatever is wrong with an old recording is told where it is opened.
    }
  }

  private watch(run: CaptureRun): void {
    this.results = new LiveResults({
      store: this.store,
      run,
      athleteName: (id) => this.pairing.athleteName(id),
      tell: (event, value) => this.tell(event, value),
      say: (text) => this.say(text),
      replayed: (athlete_id, host_s) => this.replay?.progress.ended(athlete_id, host_s) ?? null,
    });
  }

  private sourceOf(sensor_id: string): PacketSource {
    return this.browser.has(sensor_id) || sensor_id.startsWith('browser-') ? this.browser : this.radio;
  }

  private mustNotRun(): void {
    if (this.preparing) throw wrongState('replay_runs');
    if (this.run !== null) throw wrongState(this.run.record.kind === 'replay' ? 'replay_runs' : 'capture_runs');
  }

  private tellState(): void {
    const { problem } = this.radio.state();
    if (problem !== this.radio_problem && this.run?.record.kind === 'live') {
      this.say(problem === '' ? WORDS.radioBack : WORDS.radio(problem));
    }
    this.radio_problem = problem;
    for (const session of this.run?.sessions ?? []) session.tend();
    if (this.ending.length > 0) this.finishEnding(false);
    if (this.listeners.size > 0) this.tell('state', this.state());
  }

  private tellSignal(): void {
    const now_s = hostTime();
    for (const session of this.run?.sessions ?? []) {
      const event = session.strip.take(session.sensor_id, now_s);
      if (event !== null) this.tell('signal', event);
    }
  }

  private tell(event: Parameters<CaptureListener>[0], value: unknown): void {
    this.recent.add(event, value);
    for (const listener of this.listeners) listener(event, value);
  }

  private say(text: string): void {
    this.messages = [{ utc: nowUtc(), text }, ...this.messages].slice(0, MESSAGES);
  }

  private every(ms: number, work: () => unknown): void {
    this.timers.push(setInterval(work, ms).unref());
  }
}

type WrongState =
  | 'no_sensor'
  | 'not_paired_here'
  | 'none_held'
  | 'no_packets'
  | 'none_runs'
  | 'not_marked'
  | 'capture_runs'
  | 'replay_runs';

function wrongState(why: WrongState): FaultError {
  return new FaultError(fault(`CAPTURE_STATE.${why}`, {}));
}

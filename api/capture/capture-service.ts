import { join } from 'node:path';
import { BrowserSource } from '../../ingest/ble/sources/browser-source.ts';
import { hostTime } from '../../ingest/ble/sources/host-clock.ts';
import type { PacketSource, RadioProblem, SensorFound } from '../../ingest/ble/sources/packet-source.ts';
import { radioUnavailable } from '../../ingest/ble/sources/radio-faults.ts';
import { localDate } from '../../shared/dates.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import { type Notice, notice, SILENT } from '../../shared/notice.ts';
import type { CaptureState, SensorPlace, SensorPlaceChange } from '../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../shared/schemas/stream-description.ts';
import { getAthlete } from '../store/athletes.ts';
import { createSession, getSession } from '../store/sessions.ts';
import type { Store } from '../store/store.ts';
import { CaptureArchive } from './archive/capture-archive.ts';
import { MemoryFetcher } from './archive/memory-fetcher.ts';
import { wrongState } from './recording/capture-faults.ts';
import { SpeedChecks } from './checks/speed-checks.ts';
import type { Exploration } from './explore/exploration.ts';
import { Explorer } from './explore/explorer.ts';
import { MessageBoard } from './message-board.ts';
import { wearers } from './recording/capture-run.ts';
import { CaptureFolder, newRecord } from './recording/capture-folder.ts';
import { DiskWatch } from './recording/disk-watch.ts';
import { planReplay } from './replay/plan-replay.ts';
import { CaptureRecovery } from './results/capture-recovery.ts';
import { RecentEvents } from './results/recent-events.ts';
import { RunningCapture } from './running-capture.ts';
import { Pairing } from './sensors/pairing.ts';
import { StreamDescriptions, warningsOf } from './sensors/stream-descriptions.ts';

const STATE_MS = 500;
const SIGNAL_MS = 100;
const LOOK_MS = 40;
/** How often what could not be stored is tried again. */
const PENDING_MS = 10_000;

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
  private readonly board = new MessageBoard();
  private readonly pairing: Pairing;
  private readonly disk: DiskWatch;
  private readonly recovery: CaptureRecovery;
  private readonly memory: MemoryFetcher;
  private readonly explorer = new Explorer();
  private readonly recent = new RecentEvents();
  private readonly checks = new SpeedChecks();
  private readonly running: RunningCapture;
  private readonly timers: NodeJS.Timeout[] = [];
  private searching = false;
  private radio_problem: RadioProblem | null = null;

  constructor({ store, folder, radio }: CaptureServiceOptions) {
    const { say } = this.board;
    const read_only = store.read_only !== null;
    this.store = store;
    this.radio = radio;
    this.folder = new CaptureFolder(join(folder, 'captures'), read_only);
    this.archive = new CaptureArchive(store, this.folder);
    this.descriptions = new StreamDescriptions(join(folder, 'stream-descriptions'), read_only);
    this.pairing = new Pairing(store, this.descriptions);
    this.disk = new DiskWatch(this.folder.folder);
    this.running = new RunningCapture({
      store,
      folder: this.folder,
      describe: (id) => this.descriptions.get(id),
      sourceOf: (sensor_id) => this.sourceOf(sensor_id),
      athleteName: (id) => this.pairing.athleteName(id),
      tell: (event, value) => this.tell(event, value),
      say,
      beginning: () => {
        if (this.searching) void this.search(false);
        this.recent.clear();
      },
      changed: () => this.tellState(),
    });
    this.memory = new MemoryFetcher({
      folder: this.folder,
      archive: this.archive,
      places: () => this.pairing.places(),
      describe: (id) => this.descriptions.get(id),
      sourceOf: (sensor_id) => this.sourceOf(sensor_id),
    });
    this.recovery = new CaptureRecovery({
      store,
      folder: this.folder,
      running: () => this.running.record,
      resume: (record, tails) => this.running.begin(record, { tails }),
      say,
      stored: (capture_id, athlete_id, repetition_id) => {
        say(notice('stored_later', { who: this.pairing.athleteName(athlete_id) }));
        this.tell('stored', { key: `${capture_id}-later-${repetition_id}`, repetition_id });
      },
    });
    for (const problem of [...this.descriptions.problems, ...this.folder.look().problems]) say(problem);
    this.every(STATE_MS, () => this.tellState());
    this.every(SIGNAL_MS, () => this.tellSignal());
    this.every(LOOK_MS, () => this.running.look());
    if (!read_only) this.every(PENDING_MS, () => this.recovery.storePending());
  }

  /** Takes up captures that were running when the program stopped. Call it once, when the server is up; it may take minutes. */
  recover(): Promise<void> {
    return this.recovery.recover();
  }

  listen(listener: CaptureListener): () => void {
    this.listeners.add(listener);
    listener('state', this.state());
    for (const { event, value } of this.recent.all()) listener(event, value);
    return () => this.listeners.delete(listener);
  }

  state(): CaptureState {
    const now_s = hostTime();
    const { running, pairing } = this;
    const capture = running.state(now_s);
    const { ready, problem } = this.radio.state();
    return {
      radio: { ready, problem: radioNotice(problem) },
      searching: this.searching,
      found: pairing.found(),
      sensors: capture
        ? running.sessions.map((session) => session.status(pairing.athleteName(session.place.athlete_id), now_s))
        : pairing.idle(),
      checks: this.checks.state((athlete_id) => pairing.athleteName(athlete_id)),
      capture,
      ending_packets: running.ending_packets,
      disk_problem: this.disk.problem(running.logs),
      messages: this.board.messages,
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
    if (change.description_id !== undefined || change.settings !== undefined) this.running.mustNotRun();
    const place = this.pairing.place(sensor_id, change);
    await this.running.setPlace(sensor_id, place);
    this.tellState();
    return place;
  }

  forget(sensor_id: string): void {
    this.running.mustNotRun();
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

  /** Checks a description, keeps it, and says what it will cost. @throws FaultError STREAM_DESCRIPTION_INVALID */
  addDescription(text: string): StreamDescription {
    const description = this.descriptions.add(text);
    for (const warning of warningsOf(description)) this.board.say(warning);
    this.tellState();
    return description;
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
    this.running.mustNotRun();
    void this.explorer.end();
    const places = Object.entries(this.pairing.places()).filter(
      ([sensor_id]) => options.sensor_ids?.includes(sensor_id) ?? true,
    );
    if (places.length === 0) throw wrongState('no_sensor');
    const session_id = options.session_id
      ? getSession(this.store, options.session_id).session_id
      : createSession(this.store, { session_date: localDate(new Date()), title: 'Live' }).session_id;
    const sensors = places.map(([sensor_id, place]) => ({ sensor_id, place, athlete_ids: wearers(place) }));
    this.running.begin(newRecord('live', session_id, sensors));
    this.board.say(notice('started', { sensors: sensors.length }));
  }

  /** Fetches what a paired sensor has recorded by itself: see `MemoryFetcher`. */
  fetchRecordings(sensor_id: string, clear: boolean): ReturnType<MemoryFetcher['fetch']> {
    this.running.mustNotRun();
    return this.memory.fetch(sensor_id, clear);
  }

  /** Holds a sensor to see how it speaks; the one held before is let go. @throws FaultError CAPTURE_STATE */
  async explore(sensor_id: string): Promise<Exploration> {
    this.running.mustNotRun();
    await this.explorer.end();
    if (this.searching) await this.search(false);
    return this.explorer.open(this.sourceOf(sensor_id), sensor_id);
  }

  /** @throws FaultError CAPTURE_STATE when no sensor is held */
  explored(): Exploration {
    return this.explorer.explored();
  }

  endExploration(): Promise<void> {
    return this.explorer.end();
  }

  /**
   * Plays a stored session: everybody's repetitions in the order they were run, or one athlete's. Nothing of it is stored.
   * @throws FaultError CAPTURE_STATE
   */
  async startReplay(session_id: number, athlete_id?: number, speed = 1): Promise<void> {
    this.running.mustNotRun();
    const plan = planReplay(this.store, session_id, this.descriptions.all()[0], athlete_id);
    await this.running.playWhenReady(plan.then((planned) => ({ ...planned, session_id, speed })));
  }

  /** Plays a capture's own packets, of everybody in it, as they came. @throws FaultError CAPTURE_NOT_FOUND, CAPTURE_STATE */
  async replayCapture(capture_id: string, speed = 1): Promise<void> {
    this.running.mustNotRun();
    const played = this.archive.forReplay(capture_id).then(({ record, logs }) => {
      if (logs.length === 0) throw wrongState('no_packets');
      const athlete_ids = logs.map(
        ({ header }) => record.sensors.find((one) => one.sensor_id === header.sensor_id)?.place.athlete_id ?? null,
      );
      return { logs, athlete_ids, session_id: record.session_id ?? 0, speed };
    });
    await this.running.playWhenReady(played);
  }

  stop(discard_waiting = false): Promise<void> {
    return this.running.stop(discard_waiting);
  }

  /** Ends the capture when one of its sensors is worn by this athlete, and forgets what was told of it. */
  async stopWearing(athlete_id: number): Promise<void> {
    await this.recovery.stopFor(athlete_id);
    await this.running.stopWearing(athlete_id);
    this.recent.clear();
  }

  /** The coach's own start and stop of a repetition. @throws FaultError CAPTURE_STATE */
  mark(mark: 'start' | 'stop'): Promise<void> {
    return this.running.mark(mark);
  }

  /** Ends the capture and gives everything back. */
  async close(): Promise<void> {
    await this.recovery.close();
    for (const timer of this.timers) clearInterval(timer);
    this.disk.close();
    await this.explorer.end();
    await this.checks.close();
    await this.running.close();
    await Promise.all([this.radio.close(), this.browser.close()]);
  }

  private sourceOf(sensor_id: string): PacketSource {
    return this.browser.has(sensor_id) || sensor_id.startsWith('browser-') ? this.browser : this.radio;
  }

  private tellState(): void {
    const { problem } = this.radio.state();
    if (problem !== this.radio_problem && this.running.record?.kind === 'live') {
      this.board.say(problem === null ? notice('bluetooth_is_back') : radioNotice(problem));
    }
    this.radio_problem = problem;
    this.running.tend();
    if (this.listeners.size > 0) this.tell('state', this.state());
  }

  private tellSignal(): void {
    const now_s = hostTime();
    for (const session of this.running.sessions) {
      const event = session.strip.take(session.sensor_id, now_s);
      if (event !== null) this.tell('signal', event);
    }
  }

  private tell(event: Parameters<CaptureListener>[0], value: unknown): void {
    this.recent.add(event, value);
    for (const listener of this.listeners) listener(event, value);
  }

  private every(ms: number, work: () => unknown): void {
    this.timers.push(setInterval(work, ms).unref());
  }
}

/** What is wrong with the radio, in the words of its fault; nothing where all is well. */
function radioNotice(problem: RadioProblem | null): Notice {
  return problem === null ? SILENT : notice('of_fault', { fault: radioUnavailable(problem).fault });
}

import { errorNotice, errorWords } from '../../error-words.ts';
import type { PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { type Notice, notice } from '../../../shared/notice.ts';
import type { Store } from '../../store/store.ts';
import type { CaptureFolder, CaptureRecord } from '../recording/capture-folder.ts';
import { recoverCapture } from './recover-capture.ts';
import { storePending } from './store-pending.ts';

/** A capture whose program was away for longer is ended and recovered instead of resumed, seconds. */
const RESUME_S = 15 * 60;

export interface RecoveryParts {
  store: Store;
  folder: CaptureFolder;
  /** The record of the capture that runs now. */
  running(): CaptureRecord | null;
  resume(record: CaptureRecord, tails: Map<string, PacketLog>): void;
  say(what: Notice): void;
  /** A repetition is in the store that could not be stored before. */
  stored(capture_id: string, athlete_id: number, repetition_id: number): void;
}

/** Takes up what a stop of the program or a full disk left: captures that were running, and repetitions that are not stored yet. */
export class CaptureRecovery {
  private readonly parts: RecoveryParts;
  private readonly closing = new AbortController();
  /** What is taken up just now, and how that is given up. */
  private current: { record: CaptureRecord; stop: AbortController; done: Promise<void> } | null = null;
  private recovering: Promise<void> = Promise.resolve();
  private storing = false;

  constructor(parts: RecoveryParts) {
    this.parts = parts;
  }

  /** Takes up captures that were running when the program stopped. Call it once, when the server is up; it may take minutes. */
  recover(): Promise<void> {
    this.recovering = this.recoverAll();
    return this.recovering;
  }

  /** Repetitions that could not be stored, of the running capture and of ended ones, are tried again. */
  async storePending(): Promise<void> {
    if (this.storing) return;
    this.storing = true;
    const { store, folder, stored } = this.parts;
    try {
      const running = this.parts.running();
      const records = folder.all().filter((record) => record.capture_id !== running?.capture_id);
      for (const record of running === null ? records : [running, ...records]) {
        if ((record.pending?.length ?? 0) === 0) continue;
        await storePending(store, folder, record, ({ athlete_id }, repetition_id) =>
          stored(record.capture_id, athlete_id, repetition_id),
        );
      }
    } catch (error) {
      process.stderr.write(`capture: ${errorWords(error)}\n`);
    } finally {
      this.storing = false;
    }
  }

  /** Gives up a capture in which somebody is about to be erased; what is left of it is taken up at the next start. */
  async stopFor(athlete_id: number): Promise<void> {
    const { current } = this;
    if (!current?.record.sensors.some((sensor) => sensor.athlete_ids.includes(athlete_id))) return;
    current.stop.abort();
    await current.done;
  }

  /** Gives up what is being looked through; the next start takes it up again. */
  async close(): Promise<void> {
    this.closing.abort();
    await this.recovering;
  }

  private async recoverAll(): Promise<void> {
    for (const record of this.parts.folder.interrupted()) {
      if (this.closing.signal.aborted) return;
      const stop = new AbortController();
      const taking = this.takeUp(record, AbortSignal.any([this.closing.signal, stop.signal]));
      this.current = { record, stop, done: taking.catch(() => {}) };
      try {
        await taking;
      } catch (error) {
        // Left as it stands: the next start takes it up again.
        if (this.closing.signal.aborted) return;
        if (stop.signal.aborted) continue;
        const { capture_id } = record;
        this.parts.say(notice('capture_not_taken_up', { capture_id, why: errorNotice(error) }));
      } finally {
        this.current = null;
      }
    }
    await this.storePending();
  }

  private async takeUp(record: CaptureRecord, signal: AbortSignal): Promise<void> {
    const { store, folder, running, resume, say } = this.parts;
    if (record.kind === 'replay') {
      folder.removeReplay(record);
      return;
    }
    const recover = (resume_s: number) => recoverCapture(store, folder, record, resume_s, signal);
    let recovered = await recover(running() === null ? RESUME_S : 0);
    // Meanwhile the coach may have started another one.
    if (recovered.resume && running() !== null) recovered = await recover(0);
    if (recovered.resume) {
      say(notice('resumed', { stopped_utc: recovered.last_utc, away_s: recovered.away_s }));
      resume(record, recovered.tails);
    } else {
      if (signal.aborted) return;
      folder.change(record.capture_id, { state: 'ended' });
      const { started_utc } = record;
      say(notice('recovered', { started_utc, repetitions: recovered.repetitions }));
    }
  }
}

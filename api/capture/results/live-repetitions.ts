import { analyse } from '../../../dsp/analyse.ts';
import { alignStreams } from '../../../ingest/ble/assembly/align-streams.ts';
import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import {
  type Conditions,
  type Course,
  type RepetitionResult,
  UNKNOWN_CONDITIONS,
  UNKNOWN_COURSE,
} from '../../../shared/analysis.ts';
import type { LiveContact } from '../../../shared/schemas/capture.ts';
import { KEEP_S, type SensorSession } from '../recording/sensor-session.ts';

/**
 * A repetition has ended when no contact followed its last toe-off for this long. Longer than any flight or swing of
 * running (a foot's strides are at most 1 s apart, of which the contact is a part), short enough for a result within 2 s.
 */
const CLOSE_S = 1;
/** Before the first contact: the start's movement and a little rest. After the last: what its detection looks at. */
const LEAD_S = 6;
const TAIL_S = CLOSE_S;
/** How far back running is looked for while nothing is going on. */
const LOOK_BACK_S = 12;
const LEAST_PERIOD_S = 0.25;

/** A stretch of host time that holds one repetition. */
export interface RepetitionSpan {
  /** From the first touchdown to the last toe-off. */
  start_s: number;
  end_s: number;
  /** What is cut out and stored. */
  from_s: number;
  to_s: number;
}

/** What is needed of a sensor to watch it. */
export type WatchedSensor = Pick<SensorSession, 'place' | 'assembler' | 'movement' | 'latestHostTime'>;

export interface LiveHandlers {
  contacts(contacts: LiveContact[]): void;
  ended(span: RepetitionSpan): void;
  /** The analysis threw: the recording is not touched by it. */
  failed(error: Error): void;
}

/**
 * Watches one athlete's sensors: analyses the growing stretch since the last repetition again and again, tells the contacts
 * as they appear, and finds by itself when a repetition has ended.
 */
export class LiveRepetitions {
  private readonly sessions: WatchedSensor[];
  private readonly handlers: LiveHandlers;
  /** Nothing that starts before this host time is looked at any more. */
  private handled_s: number;
  private open_from_s: number | null = null;
  /** Last toe-off of the open repetition so far. */
  private open_end_s = 0;
  private told = 0;
  private next_s = 0;
  /** Up to when the data have been looked at; the first look goes back over all that an earlier run of the program may have left. */
  private looked_to_s: number | null = null;

  constructor(sessions: WatchedSensor[], handlers: LiveHandlers, handled_s = Number.NEGATIVE_INFINITY) {
    this.sessions = sessions;
    this.handlers = handlers;
    this.handled_s = handled_s;
  }

  /** True while a repetition is being run. */
  get running(): boolean {
    return this.open_from_s !== null;
  }

  /** True while no contact has come for a while: the repetition's end, and its result, may be near. */
  endsSoon(now_s = hostTime()): boolean {
    return this.running && now_s - this.open_end_s > CLOSE_S / 2 && now_s - this.open_end_s < 3 * CLOSE_S;
  }

  tick(now_s = hostTime()): void {
    const data_s = this.dataTime(now_s);
    const due = now_s >= this.next_s || (this.running && (data_s ?? 0) >= this.open_end_s + CLOSE_S);
    if (data_s === null || !due) return;
    if (
      this.looked_to_s !== null &&
      !this.running &&
      !this.movedSince(Math.min(now_s, this.looked_to_s) - LOOK_BACK_S / 4)
    ) {
      this.looked_to_s = Math.max(this.looked_to_s, data_s);
      return;
    }
    const started = performance.now();
    this.look(data_s, false);
    // Never more than a fifth of the time, whatever the machine.
    this.next_s = now_s + Math.max(LEAST_PERIOD_S, (5 * (performance.now() - started)) / 1000);
  }

  /** The coach pressed stop: what is open ends now. */
  close(): void {
    const data_s = this.dataTime(hostTime());
    if (data_s !== null) this.look(data_s, true);
  }

  /** Marks a stretch as dealt with, so that it is not found again. */
  handledUntil(host_s: number): void {
    this.handled_s = Math.max(this.handled_s, host_s);
    this.open_from_s = null;
    this.told = 0;
  }

  private look(data_s: number, close_now: boolean): void {
    // However late this look comes (a busy machine, a replay at many times its speed): a run since the last one is within.
    const since_s = this.looked_to_s === null ? data_s - KEEP_S : Math.min(data_s, this.looked_to_s) - LOOK_BACK_S;
    this.looked_to_s = Math.max(this.looked_to_s ?? data_s, data_s);
    const from_s = Math.max(this.handled_s, (this.open_from_s ?? since_s) - LEAD_S, data_s - KEEP_S);
    let analysed: ReturnType<typeof analyseSpan> = null;
    try {
      analysed = analyseSpan(this.sessions, from_s, data_s, UNKNOWN_COURSE, UNKNOWN_CONDITIONS);
    } catch (error) {
      this.handlers.failed(error as Error);
      return;
    }
    this.open_from_s = null;
    for (const repetition of analysed?.repetitions ?? []) {
      const start_s = analysed!.zero_s + repetition.start_s;
      const end_s = analysed!.zero_s + repetition.end_s;
      if (start_s < this.handled_s) continue;
      if (close_now || data_s - end_s >= CLOSE_S) {
        const from_s = Math.max(this.handled_s, start_s - LEAD_S);
        this.handledUntil(end_s + 0.1);
        this.handlers.ended({ start_s, end_s, from_s, to_s: Math.min(data_s, end_s + TAIL_S) });
      } else {
        this.open_from_s = start_s;
        this.open_end_s = end_s;
        if (repetition.contacts.length !== this.told) this.handlers.contacts(liveContacts(repetition));
        this.told = repetition.contacts.length;
      }
    }
  }

  private movedSince(since_s: number): boolean {
    return this.sessions.some(({ movement }) => (movement.vigorous_s ?? Number.NEGATIVE_INFINITY) > since_s);
  }

  /** Up to when the data of all sensors that deliver have come; a silent sensor is not waited for. */
  private dataTime(now_s: number): number | null {
    const times = this.sessions.map((session) => session.latestHostTime()).filter((time) => time !== null);
    const fresh = times.filter((time) => now_s - time < 2);
    if (fresh.length > 0) return Math.min(...fresh);
    return times.length > 0 ? Math.max(...times) : null;
  }
}

function analyseSpan(sessions: WatchedSensor[], from_s: number, to_s: number, course: Course, conditions: Conditions) {
  const streams = sessions.map(({ place, assembler }) => ({ side: place.side, mounting: place.mounting, assembler }));
  const aligned = alignStreams(streams, from_s, to_s);
  if (aligned === null || aligned.sensors.every((sensor) => sensor.samples.time_s.length < 50)) return null;
  const sensors = aligned.sensors.filter((sensor) => sensor.samples.time_s.length >= 50);
  return { zero_s: aligned.zero_s, repetitions: analyse({ sensors, course, conditions }).repetitions };
}

export function liveContacts(repetition: RepetitionResult): LiveContact[] {
  return repetition.contacts.map((contact) => ({
    side: contact.side,
    touchdown_s: contact.touchdown_s - repetition.contacts[0].touchdown_s,
    contact_time_ms: contact.contact_time_ms,
  }));
}

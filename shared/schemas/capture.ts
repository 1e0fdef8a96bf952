/** What the live view and the capture say to each other. */
import { type Static, Type } from 'typebox';
import type { SensorQuality } from '../analysis.ts';
import { MOUNTINGS, SIDES } from '../words.ts';
import type { Notice } from '../notice-shape.ts';
import { Id, NoticeText, wordOf } from './common.ts';
import { StreamSettings } from './stream-description.ts';

const strict = { additionalProperties: false } as const;
const NumberOrNull = Type.Union([Type.Number(), Type.Null()]);

export const SENSOR_STATES = ['off', 'connecting', 'live', 'silent', 'lost'] as const;
/**
 * off: not asked for. connecting: asked for, no link yet. live: packets come. silent: linked, but no packet for 2 s.
 * lost: the link broke and is being made again.
 */
export type SensorState = (typeof SENSOR_STATES)[number];

/** A sensor heard in the search. */
export const FoundSensor = Type.Object({
  sensor_id: Type.String(),
  name: Type.String(),
  rssi_dbm: NumberOrNull,
  /** The description that fits its service or name; null when none does. */
  description_id: Type.Union([Type.String(), Type.Null()]),
  /** Every description that fits, the likeliest first. */
  fitting: Type.Array(Type.String()),
  /** True where it offers the standard service Running Speed and Cadence, and can be shown as a check. */
  tells_speed: Type.Boolean(),
  paired: Type.Boolean(),
});
export type FoundSensor = Static<typeof FoundSensor>;

/** A sensor's place: on whom, which side, where. Remembered until it is forgotten. */
export const SensorPlace = Type.Object(
  {
    name: Type.String({ minLength: 1, maxLength: 80 }),
    description_id: Type.String({ maxLength: 40 }),
    settings: StreamSettings,
    side: wordOf(SIDES),
    mounting: wordOf(MOUNTINGS),
    athlete_id: Type.Union([Id, Type.Null()]),
    /** Code of six digits that the sensor asks for when it is bonded; the description's where absent. */
    code: Type.Optional(Type.Union([Type.String({ pattern: '^[0-9]{6}$' }), Type.Null()])),
    /** True: it also records into its own memory, where its description says how. */
    record_on_sensor: Type.Optional(Type.Boolean()),
  },
  strict,
);
export type SensorPlace = Static<typeof SensorPlace>;

/** What may be given when a sensor is paired or changed; the rest keeps its value or gets the description's default. */
export const SensorPlaceChange = Type.Partial(
  Type.Object({ ...SensorPlace.properties, settings: Type.Partial(StreamSettings, strict) }),
  strict,
);
export type SensorPlaceChange = Static<typeof SensorPlaceChange>;

export const PairedSensor = Type.Interface([SensorPlace], {
  sensor_id: Type.String(),
  athlete_name: Type.Union([Type.String(), Type.Null()]),
  state: wordOf(SENSOR_STATES),
  /** Plain words: what is the matter and what to do; empty when all is well. */
  words: NoticeText,
  battery_percent: NumberOrNull,
  firmware: Type.Union([Type.String(), Type.Null()]),
  /** Signal strength when it was last heard. */
  rssi_dbm: NumberOrNull,
  /** The true sampling rate; null until it can be told. */
  measured_rate_hz: NumberOrNull,
  /** True where it differs from the description's by more than that allows. */
  rate_off: Type.Boolean(),
  samples: Type.Integer(),
  lost_samples: Type.Integer(),
  duplicate_packets: Type.Integer(),
  unreadable_packets: Type.Integer(),
  reconnects: Type.Integer(),
  /** Seconds since the last packet; null before the first. */
  silent_s: NumberOrNull,
  /** Sensor clock against the host's, parts per million; null before it is known. */
  drift_ppm: NumberOrNull,
  /** How well the two sides' times can be put together, standard uncertainty. */
  clock_u_ms: NumberOrNull,
  /** Seconds since a tap was felt; null when none was. */
  tap_s: NumberOrNull,
});
export type PairedSensor = Static<typeof PairedSensor>;

/** A sensor with the service Running Speed and Cadence: a second opinion beside what is measured, never part of it. */
export const SpeedCheck = Type.Object({
  sensor_id: Type.String(),
  name: Type.String(),
  athlete_id: Type.Union([Id, Type.Null()]),
  athlete_name: Type.Union([Type.String(), Type.Null()]),
  state: wordOf(['connecting', 'silent', 'live']),
  /** Why it is not connected; empty when it is. */
  reason: NoticeText,
  speed_mps: NumberOrNull,
  /** As sent; `cadence_counts` says of what, null where that cannot be told. */
  cadence_per_min: NumberOrNull,
  cadence_counts: Type.Union([Type.Null(), wordOf(['steps', 'strides'])]),
  step_rate_hz: NumberOrNull,
});
export type SpeedCheck = Static<typeof SpeedCheck>;

export const CaptureMessage = Type.Object({ utc: Type.String(), text: NoticeText });
export type CaptureMessage = Static<typeof CaptureMessage>;

export const CaptureState = Type.Object({
  radio: Type.Object({ ready: Type.Boolean(), problem: NoticeText }),
  searching: Type.Boolean(),
  found: Type.Array(FoundSensor),
  sensors: Type.Array(PairedSensor),
  checks: Type.Array(SpeedCheck),
  /** The running capture; null when none runs. */
  capture: Type.Union([
    Type.Null(),
    Type.Object({
      capture_id: Type.String(),
      kind: wordOf(['live', 'replay']),
      started_utc: Type.String(),
      session_id: Type.Union([Id, Type.Null()]),
      seconds: Type.Number(),
      /** Seconds since the coach pressed start; null when not pressed. */
      marked_s: NumberOrNull,
      /** Of a replayed session: which stored repetitions are over, in the order they ended, and of how many. */
      replay: Type.Union([Type.Null(), Type.Object({ repetition_ids: Type.Array(Id), total: Type.Integer() })]),
    }),
  ]),
  /** Packets of an ended capture that still wait for room on the disk. */
  ending_packets: Type.Integer(),
  /** Empty while packets reach the disk. */
  disk_problem: NoticeText,
  /** What happened, newest first. */
  messages: Type.Array(CaptureMessage),
});
export type CaptureState = Static<typeof CaptureState>;

/** A piece of the live signal: least and greatest norm of the acceleration in each short stretch. */
export interface SignalEvent {
  sensor_id: string;
  /** Host seconds of the first stretch, and length of one. */
  from_s: number;
  step_s: number;
  low_mps2: number[];
  high_mps2: number[];
}

export interface LiveContact {
  side: 'left' | 'right' | 'unknown';
  /** Seconds from the first contact of this repetition. */
  touchdown_s: number;
  contact_time_ms: number | null;
}

/** Contacts of the repetition that is being run; sent again, grown, while it lasts. */
export interface ContactsEvent {
  athlete_id: number | null;
  athlete_name: string | null;
  contacts: LiveContact[];
}

/** A repetition has ended. */
export interface RepetitionEvent {
  athlete_id: number | null;
  athlete_name: string | null;
  session_id: number | null;
  /** Names this result in the `stored` event that follows. */
  key: string;
  /** False in a replay, and while the sensors have no athlete. */
  to_be_stored: boolean;
  /** In a replay of a session: the stored repetition that this is. */
  replay_of: number | null;
  contacts: LiveContact[];
  /** What the means below are over: the contacts at speed where that phase is known, else all. */
  figures_over: 'at speed' | 'all contacts';
  left_contact_time_ms: number | null;
  right_contact_time_ms: number | null;
  contact_time_ms: number | null;
  flight_time_ms: number | null;
  step_rate_hz: number | null;
  /** Seconds between the last toe-off (on the sensor, put on the host's clock) and this event. */
  delay_s: number;
  /** Samples lost within the repetition. */
  lost_samples: number;
  words: Notice;
  /** How good its recordings are, one entry a sensor. */
  quality: SensorQuality[];
}

/** A repetition that was told is in the store now. */
export interface StoredEvent {
  key: string;
  repetition_id: number;
}

export const CaptureStart = Type.Object(
  {
    /** Without it a session is made for today. */
    session_id: Type.Optional(Id),
    /** Without it all paired sensors. */
    sensor_ids: Type.Optional(Type.Array(Type.String({ maxLength: 80 }), { minItems: 1, maxItems: 60 })),
  },
  strict,
);
export type CaptureStart = Static<typeof CaptureStart>;

export const CaptureStop = Type.Object(
  {
    /** True gives up packets that the disk does not take. */
    discard_waiting: Type.Optional(Type.Boolean()),
  },
  strict,
);
export type CaptureStop = Static<typeof CaptureStop>;

export const ReplayStart = Type.Object(
  {
    session_id: Id,
    athlete_id: Type.Optional(Id),
    /** 1 is true speed. */
    speed: Type.Optional(Type.Number({ minimum: 0.1, maximum: 20 })),
  },
  strict,
);
export type ReplayStart = Static<typeof ReplayStart>;

/** A browser holds a sensor by Web Bluetooth and is about to send its packets. */
export const BrowserSensor = Type.Object(
  {
    name: Type.String({ minLength: 1, maxLength: 80 }),
    service_uuid: Type.String({ maxLength: 36 }),
    battery_percent: Type.Union([Type.Number({ minimum: 0, maximum: 100 }), Type.Null()]),
  },
  strict,
);
export type BrowserSensor = Static<typeof BrowserSensor>;

/** A batch of packet records (shared/packet-record.ts) as the body, application/octet-stream. */
export const BrowserBatchQuery = Type.Object({
  /** A word that stays the same while the page is open. */
  page: Type.String({ minLength: 1, maxLength: 60 }),
  /** Number of the batch's first record; records count from 0 after each announcement. */
  first: Type.Integer({ minimum: 0, maximum: Number.MAX_SAFE_INTEGER }),
  /** The page's clock when the batch was sent, seconds. */
  sent_s: Type.Number({ minimum: 0, maximum: 1e10 }),
});
export const BrowserBatchAnswer = Type.Object({
  /** The record to send next; the same one again when nothing was taken (no capture runs). */
  next_record: Type.Integer(),
});

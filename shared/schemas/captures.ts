/** Captures on disk, as the API tells of them. */
import { type Static, Type } from 'typebox';
import { MOUNTINGS, SIDES } from '../words.ts';
import { Id, NoticeText, wordOf } from './common.ts';

const count = () => Type.Integer();

export const CaptureSummary = Type.Object({
  capture_id: Type.String(),
  started_utc: Type.String(),
  state: wordOf(['running', 'ended']),
  /** True where it was fetched from sensors' own memories. */
  from_memory: Type.Boolean(),
  session_id: Type.Union([Id, Type.Null()]),
  /** Repetitions that could not be stored yet. */
  waiting_repetitions: count(),
  sensors: Type.Array(
    Type.Object({
      sensor_id: Type.String(),
      name: Type.String(),
      side: wordOf(SIDES),
      mounting: wordOf(MOUNTINGS),
      athlete_id: Type.Union([Id, Type.Null()]),
      /** Size of its packet log. */
      bytes: count(),
    }),
  ),
});
export type CaptureSummary = Static<typeof CaptureSummary>;

export const CaptureList = Type.Object({
  items: Type.Array(CaptureSummary),
  /** Captures that cannot be read, in words. */
  problems: Type.Array(NoticeText),
});
export type CaptureList = Static<typeof CaptureList>;

export const CaptureDetail = Type.Interface([CaptureSummary], {
  logs: Type.Array(
    Type.Object({
      sensor_id: Type.String(),
      description_id: Type.String(),
      duration_s: Type.Number(),
      rate_hz: Type.Union([Type.Number(), Type.Null()]),
      gaps: count(),
      damaged_bytes: count(),
      packets: count(),
      samples: count(),
      lost_samples: count(),
      duplicate_packets: count(),
      unreadable_packets: count(),
      other_packets: count(),
      out_of_sequence_packets: count(),
      before_start_packets: count(),
      restarts: count(),
      stamp_jumps: count(),
    }),
  ),
});
export type CaptureDetail = Static<typeof CaptureDetail>;

const DescriptionRemark = Type.Object({ field: Type.String(), words: NoticeText });

export const DescriptionRemarks = Type.Object({
  /** Faults refuse a description; warnings say what it will cost. */
  faults: Type.Array(DescriptionRemark),
  warnings: Type.Array(DescriptionRemark),
});
export type DescriptionRemarks = Static<typeof DescriptionRemarks>;

/** What a fetch from sensors' memories came to. */
export const FetchedRecordings = Type.Object({
  capture_ids: Type.Array(Type.String()),
  /** Repetitions that were found in new recordings, and stored. */
  stored: count(),
  /** What is kept but not looked through, and why. */
  waiting: Type.Array(NoticeText),
});
export type FetchedRecordings = Static<typeof FetchedRecordings>;

import { type Static, Type } from 'typebox';
import { FaultValue, LocalDate, Nullable, SettingsGiven, UtcInstant, Uuid, wordOf } from './common.ts';
import { FigureChange } from './reanalysis.ts';

const Count = Type.Integer({ minimum: 0 });

/** One club as whoever keeps an archive sees it. */
export const ArchiveClub = Type.Object({
  name: Type.String(),
  machines: Count,
  last_push_utc: Nullable(UtcInstant),
  people: Count,
  repetitions: Count,
  contacts: Count,
  recordings: Count,
  bytes: Type.Number({ description: 'Samples and raw files, as they are stored.' }),
  conflicts: Type.Integer({ description: 'Fields that two machines changed.' }),
  erasures: Count,
});
export type ArchiveClub = Static<typeof ArchiveClub>;

/** Norms that clubs can fetch. */
export const ArchiveNorms = Type.Object({
  published_utc: UtcInstant,
  fingerprint: Type.String({ description: 'Of the key that signed them.' }),
  bands: Count,
});

/** What whoever keeps an archive asks first: who sent when and how much. */
export const ArchiveOverview = Type.Object({
  name: Type.String(),
  level: Type.String(),
  size_bytes: Type.Number(),
  counted_utc: UtcInstant,
  clubs: Type.Array(ArchiveClub),
  norms: Nullable(ArchiveNorms),
});
export type ArchiveOverview = Static<typeof ArchiveOverview>;

export const ArchiveWorker = Type.Object({
  worker_number: Type.Integer(),
  machine: Type.String(),
  version: Type.String(),
  last_seen_utc: UtcInstant,
  lives: Type.Boolean(),
});
export type ArchiveWorker = Static<typeof ArchiveWorker>;

/** Work that an archive gives to its workers. */
export const RUN_KINDS = ['reanalysis', 'agreement', 'export'] as const;
export type RunKind = (typeof RUN_KINDS)[number];

export const ArchiveRun = Type.Object({
  run_id: Uuid,
  kind: wordOf(RUN_KINDS),
  created_utc: UtcInstant,
  accepted_utc: Nullable(UtcInstant),
  version: Type.String(),
  settings: Nullable(Type.Record(Type.String(), Type.Unknown())),
  total: Count,
  waiting: Count,
  working: Count,
  done: Count,
  failed: Count,
});
export type ArchiveRun = Static<typeof ArchiveRun>;

/** Who works, and what was asked for, the newest first. */
export const ArchiveWork = Type.Object({ workers: Type.Array(ArchiveWorker), runs: Type.Array(ArchiveRun) });
export type ArchiveWork = Static<typeof ArchiveWork>;

/** What one worker did of a run: its first job's beginning to its last one's end, and what went into reading, working and storing. */
export const WorkerShare = Type.Object({
  worker_number: Type.Integer(),
  machine: Type.String(),
  done: Count,
  span_s: Type.Number(),
  read_s: Type.Number(),
  analysed_s: Type.Number(),
  stored_s: Type.Number(),
  read_bytes: Type.Number(),
});
export type WorkerShare = Static<typeof WorkerShare>;

/** A run with what failed and why, and, of a re-analysis, its results beside the earlier ones. */
export const ArchiveRunReport = Type.Intersect([
  ArchiveRun,
  Type.Object({
    failures: Type.Array(Type.Object({ n: Count, fault: FaultValue })),
    workers: Type.Array(WorkerShare),
    changes: Type.Array(FigureChange),
  }),
]);
export type ArchiveRunReport = Static<typeof ArchiveRunReport>;

/** Which repetitions of the archive are analysed again, and with what; all that have a recording without it. */
export const NewArchiveRun = Type.Object(
  {
    club: Type.Optional(Type.String({ minLength: 1, maxLength: 200 })),
    from: Type.Optional(LocalDate),
    to: Type.Optional(LocalDate),
    settings: Type.Optional(SettingsGiven),
  },
  { additionalProperties: false },
);
export type NewArchiveRun = Static<typeof NewArchiveRun>;

/** How many items a change of a run concerned. */
export const ArchiveRunChanged = Type.Object({ changed: Count });

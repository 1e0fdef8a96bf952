import { type Static, Type } from 'typebox';
import {
  EffortSought,
  Id,
  idsOf,
  LocalDate,
  MOST_ATHLETES,
  MOST_SELECTED,
  listOf,
  UtcInstant,
  wordOf,
  Nullable,
} from './common.ts';

/** tables: one row a contact and one a repetition, CSV and Parquet; motion_bids: raw signals and events in Motion-BIDS. */
export const EXPORT_KINDS = ['tables', 'motion_bids'] as const;

/**
 * How much a data set tells about people. pseudonyms: names and sessions replaced; open: for publishing, with dates, times, weather,
 * bodies, running numbers and free text out, moved or in bands. Names as they are stand in `with_names`.
 */
export const EXPORT_LEVELS = ['pseudonyms', 'open'] as const;

/** What an athlete (or who speaks for them) said about use in research. Only 'given' is ever exported. */
export const CONSENT_STATUSES = ['unknown', 'given', 'refused', 'withdrawn'] as const;

/** What to export. Lists that are absent mean 'all'. */
export const ExportOrder = Type.Object(
  {
    kind: wordOf(EXPORT_KINDS),
    athlete_ids: Type.Optional(idsOf(MOST_ATHLETES)),
    group_ids: Type.Optional(idsOf(MOST_ATHLETES)),
    session_ids: Type.Optional(idsOf(MOST_SELECTED)),
    repetition_ids: Type.Optional(idsOf(MOST_SELECTED)),
    from: Type.Optional(LocalDate),
    to: Type.Optional(LocalDate),
    effort_from_percent: Type.Optional(EffortSought),
    effort_to_percent: Type.Optional(EffortSought),
    /** Quantities of the contacts table; all when absent. */
    quantities: Type.Optional(Type.Array(Type.String({ maxLength: 80 }), { maxItems: 200 })),
    /** Without it, pseudonyms. `open` overrides names, free text and the moving of dates. */
    level: Type.Optional(wordOf(EXPORT_LEVELS)),
    /** Names instead of pseudonyms. Only for use inside the club. */
    with_names: Type.Optional(Type.Boolean()),
    /** Every athlete's dates moved by an amount of their own, up to a year; intervals stay. */
    shift_dates: Type.Optional(Type.Boolean()),
    /** Notes and titles as written; they may name people. */
    with_free_text: Type.Optional(Type.Boolean()),
  },
  { additionalProperties: false },
);
export type ExportOrder = Static<typeof ExportOrder>;

export const ResearchExport = Type.Object({
  export_id: Id,
  created_utc: UtcInstant,
  order: ExportOrder,
  athletes: Type.Integer(),
  /** Athletes of the selection without consent. */
  left_out: Type.Integer(),
  repetitions: Type.Integer(),
  contacts: Type.Integer(),
  version: Type.String(),
});
export type ResearchExport = Static<typeof ResearchExport>;
export const ResearchExportList = listOf(ResearchExport);

/** On what ground personal data are used (GDPR Art. 6 (1) a, b, e and f); for a minor's consent who has parental responsibility decides (Art. 8). */
export const LEGAL_BASES = ['consent', 'contract', 'public_interest', 'legitimate_interest'] as const;

export const ResearchConsent = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  status: wordOf(CONSENT_STATUSES),
  status_date: Type.Union([LocalDate, Type.Null()]),
  note: Type.String(),
  legal_basis: Nullable(wordOf(LEGAL_BASES)),
  /** Who decided for a minor; empty where nobody did or had to. */
  guardian: Type.String(),
  /** True for a minor whose consent is given without a guardian's name. Age as far as birth date or year tell. */
  guardian_missing: Type.Boolean(),
});
export type ResearchConsent = Static<typeof ResearchConsent>;
export const ResearchConsentList = listOf(ResearchConsent);

export const ConsentChange = Type.Object(
  {
    status: wordOf(CONSENT_STATUSES),
    status_date: LocalDate,
    note: Type.Optional(Type.String({ maxLength: 2000 })),
    legal_basis: Type.Optional(Nullable(wordOf(LEGAL_BASES))),
    guardian: Type.Optional(Type.String({ maxLength: 200 })),
  },
  { additionalProperties: false },
);
export type ConsentChange = Static<typeof ConsentChange>;

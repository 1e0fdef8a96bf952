import { type Static, type TSchema, type TSchemaOptions, Type } from 'typebox';
import type { FaultCode } from '../fault-codes.ts';
import type { Fault } from '../fault.ts';
import type { Notice } from '../notice-shape.ts';
import type { Reason } from '../reason-shape.ts';
import { CLOCK_STARTS, MOUNTINGS, SIDES, START_STYLES, TIMING_METHODS } from '../words.ts';

/** A closed vocabulary of shared/words.ts as a JSON-schema enum. */
export function wordOf<const Words extends readonly string[]>(words: Words, options: TSchemaOptions = {}) {
  return Type.Enum(words as unknown as Words[number][], options);
}

/** Either the value or null, where null says 'not known' or 'not measured'. */
export function Nullable<Schema extends TSchema>(schema: Schema) {
  return Type.Union([schema, Type.Null()]);
}

/** Row identifier. */
export const Id = Type.Integer({ minimum: 1, maximum: Number.MAX_SAFE_INTEGER });

/** Identifier that is unique everywhere, beside the local number (UUID, RFC 9562). */
export const Uuid = Type.String({
  pattern: '^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$',
  description: 'Unique everywhere, beside the local number.',
});

/** Rows that a request names: a selection, members of a group, a running order. */
export function idsOf(maxItems: number, description?: string) {
  return Type.Array(Id, { maxItems, ...(description ? { description } : {}) });
}
/** The largest group, selection of athletes or running order. */
export const MOST_ATHLETES = 1000;
/** A selection of sessions or repetitions: some years of a large club. */
export const MOST_SELECTED = 100_000;

/** Per cent of an athlete's full speed, as what to look for: wider than what can be stored. */
export const EffortSought = Type.Number({ minimum: 0, maximum: 200 });

/** Settings of an analysis that differ from the defaults; api/measuring/read-settings.ts checks each by name. */
export const SettingsGiven = Type.Record(Type.String({ maxLength: 80 }), Type.Unknown(), { maxProperties: 60 });

/** Months of 31 and of 30 days, and February. */
const DAY_OF_YEAR = [
  '(0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])',
  '(0[469]|11)-(0[1-9]|[12][0-9]|30)',
  '02-(0[1-9]|[12][0-9])',
].join('|');

/** Calendar day where the session was held, `2026-11-25`. */
export const LocalDate = Type.String({ pattern: `^(19|20|21)[0-9]{2}-(${DAY_OF_YEAR})$`, maxLength: 10 });

/** Instant in UTC, ISO 8601. */
export const UtcInstant = Type.String({ pattern: '^\\d{4}-\\d{2}-\\d{2}T[0-9:.]+Z$' });

export const SideWord = wordOf(SIDES);
export const MountingWord = wordOf(MOUNTINGS);
export const ClockStartWord = wordOf(CLOCK_STARTS);
export const StartStyleWord = wordOf(START_STYLES);
export const TimingMethodWord = wordOf(TIMING_METHODS);

/** One of shared/fault-codes.ts; not listed in every answer's schema, since there are more than a hundred. */
const FaultCodeWord = Type.Unsafe<FaultCode>(Type.String());

/** The one shape of an error answer. */
export const FaultAnswer = Type.Object(
  {
    ok: Type.Literal(false),
    code: FaultCodeWord,
    message: Type.String(),
    where: Type.Record(Type.String(), Type.Union([Type.String(), Type.Number(), Type.Null()])),
    hint: Type.String(),
  },
  { description: 'What went wrong, where, and what to do about it.' },
);
export type FaultAnswer = Static<typeof FaultAnswer>;

/**
 * A fault kept beside a result: as it arrives, told in the language of the request (api/http/fault-answer.ts does that). Its type is
 * that of every fault, since before it leaves it is a code and values.
 */
export const FaultValue = Type.Unsafe<Fault>(
  Type.Object({
    code: Type.String(),
    message: Type.String(),
    where: Type.Record(Type.String(), Type.Union([Type.String(), Type.Number(), Type.Null()])),
    hint: Type.String(),
  }),
);

/** Why something is not measurable or doubtful, as it arrives: in words. Before it leaves it is a key and values. */
export const ReasonText = Type.Unsafe<Reason>(Type.String());

/** What a running part has to say, as it arrives: in words. Before it leaves it is a key and values. */
export const NoticeText = Type.Unsafe<Notice>(Type.String());

/** Every list answers `{ items: [...] }`. */
export function listOf<Item extends TSchema>(item: Item) {
  return Type.Object({
    items: Type.Array(item),
    total: Type.Optional(Type.Integer({ description: 'How many there are, where a page was asked for.' })),
  });
}

/** Answer of a deletion or a restoration. */
export const Done = Type.Object({ ok: Type.Literal(true) });

export const Split = Type.Object({
  distance_m: Type.Number({ exclusiveMinimum: 0, maximum: 100_000 }),
  split_time_s: Type.Number({ exclusiveMinimum: 0, maximum: 100_000 }),
});

import { type Static, Type } from 'typebox';
import { LocalDate, Nullable, wordOf } from '../common.ts';

/** What is normal for this athlete at this effort and course. */
export const Normal = Type.Object({
  /** Repetitions it rests on. */
  n: Type.Integer(),
  /** Days after which a repetition counts half: normal follows the athlete. */
  half_life_days: Type.Number(),
  /** True while it rests on fewer than six repetitions and published variation stands in. */
  provisional: Type.Boolean(),
  sessions: Type.Integer(),
  /** The athlete's earlier days; on a first day the day's earlier repetitions. */
  basis: wordOf(['earlier days', 'earlier today'] as const),
  centre: Type.Number(),
  /** Edges of normal variation. */
  low: Type.Number(),
  high: Type.Number(),
  typical_error: Type.Number(),
  /** A single repetition is far out from this distance on; today's repetitions together speak from less. */
  flag_from: Type.Number(),
  /** 'own', or where the published variation is from. */
  variation_source: Type.String(),
  /** Older repetitions that no longer count. */
  expired: Type.Integer(),
});
export type Normal = Static<typeof Normal>;

/** One side's mean and its own variation from contact to contact. */
export const SideValue = Type.Object({ value: Type.Number(), sd: Nullable(Type.Number()), n: Type.Integer() });
export type SideValue = Static<typeof SideValue>;

/** A level over some sessions, each counting alike. */
export const BlockLevel = Type.Object({
  value: Type.Number(),
  sessions: Type.Integer(),
  repetitions: Type.Integer(),
  first_date: LocalDate,
  last_date: LocalDate,
});

/** Before and after of a block: since the focus began, else over the last twelve weeks. */
export const BlockView = Type.Object({
  quantity: Type.String(),
  from_date: LocalDate,
  before: BlockLevel,
  now: BlockLevel,
  /** Now minus before, with its 95 % interval. */
  change: Type.Number(),
  low: Type.Number(),
  high: Type.Number(),
  /** Probability, 0.5 to 1, that the level moved that way. */
  certainty: Type.Number(),
  beyond: Nullable(wordOf(['above', 'below'] as const)),
  /** True and false when beyond in a direction that the focus wants or does not want; else null. */
  wanted: Nullable(Type.Boolean()),
  sentence: Type.String(),
});
export type BlockView = Static<typeof BlockView>;

export const JUDGEMENT_KINDS = ['first', 'as usual', 'may be chance', 'changed', 'no comparison'] as const;

/** Today's like repetitions together. */
export const TodayLevel = Type.Object({
  value: Type.Number(),
  n: Type.Integer(),
  /** Minus the centre of normal, with its 95 % interval. */
  change: Type.Number(),
  low: Type.Number(),
  high: Type.Number(),
  /** Probability, 0.5 to 1, that today's level lies on that side of normal. */
  certainty: Type.Number(),
});

/** One quantity of one repetition, against the athlete's normal and against earlier today. */
export const Judgement = Type.Object({
  quantity: Type.String(),
  value: Type.Number(),
  value_u: Nullable(Type.Number()),
  normal: Nullable(Normal),
  /** Value minus centre of normal. */
  change: Nullable(Type.Number()),
  /** 'first': nothing to compare with; 'no comparison': the athlete is returning from an injury. */
  kind: wordOf(JUDGEMENT_KINDS),
  beyond: Nullable(wordOf(['above', 'below'] as const)),
  /** What went beyond: this repetition alone, or today's like repetitions together. */
  rule: Nullable(wordOf(['repetition', 'today'] as const)),
  /** True and false when beyond in a direction that is wanted or unwanted; null when not beyond, or where neither is. */
  wanted: Nullable(Type.Boolean()),
  today: Nullable(TodayLevel),
  /** Since the block began; null until there are two sessions on either side. */
  since: Nullable(BlockView),
  /** Consecutive repetitions of today, this one included, beyond in the same direction. */
  beyond_in_a_row: Type.Integer(),
  left: Nullable(SideValue),
  right: Nullable(SideValue),
  /** What that is made of: between neighbouring steps, and against the usual difference. */
  sides: Nullable(
    Type.Object({
      difference: Type.Number(),
      usual: Nullable(Type.Number()),
      beyond_chance: Type.Boolean(),
      beyond_usual: Nullable(wordOf(['above', 'below'] as const)),
    }),
  ),
  /** Left against right in words; empty where one side is missing or the quantity is itself a difference. */
  side_sentence: Type.String(),
  /** Values of the day's earlier repetitions at the same effort and course, oldest first. */
  earlier_today: Type.Array(Type.Number()),
  sentence: Type.String(),
});
export type Judgement = Static<typeof Judgement>;

/** What the coach could do before the next repetition; never more of anything. */
export const NextStep = Type.Object({
  kind: wordOf(['cue', 'keep', 'rest', 'stop', 'none'] as const),
  text: Type.String(),
});
export type NextStep = Static<typeof NextStep>;

/** The one sentence of a repetition, on what the athlete works on, as words and as data. */
export const Verdict = Type.Object({
  /** What it is about; null when nothing was measured. */
  quantity: Nullable(Type.String()),
  kind: Nullable(wordOf(JUDGEMENT_KINDS)),
  wanted: Nullable(Type.Boolean()),
  /** This repetition and today against what is usual. */
  sentence: Type.String(),
  /** Since the block began; empty when nothing can be said. */
  since: Type.String(),
  since_wanted: Nullable(Type.Boolean()),
  next: NextStep,
});
export type Verdict = Static<typeof Verdict>;

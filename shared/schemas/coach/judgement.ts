import { type Static, Type } from 'typebox';
import { Nullable, wordOf } from '../common.ts';

/** What is normal for this athlete at this effort and course. */
export const Normal = Type.Object({
  /** Repetitions it rests on. */
  n: Type.Integer(),
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
  /** A single repetition is flagged from this distance on; two or three in a row from less. */
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

/** One quantity of one repetition, against the athlete's normal and against earlier today. */
export const Judgement = Type.Object({
  quantity: Type.String(),
  value: Type.Number(),
  value_u: Nullable(Type.Number()),
  normal: Nullable(Normal),
  /** Value minus centre of normal. */
  change: Nullable(Type.Number()),
  beyond: Nullable(wordOf(['above', 'below'] as const)),
  /** True when beyond in a direction coaches do not want. */
  worse: Type.Boolean(),
  /** Consecutive repetitions of today, this one included, beyond in the same direction. */
  beyond_in_a_row: Type.Integer(),
  left: Nullable(SideValue),
  right: Nullable(SideValue),
  /** Left against right in words; empty where one side is missing or the quantity is itself a difference. */
  side_sentence: Type.String(),
  /** Values of the day's earlier repetitions at the same effort and course, oldest first. */
  earlier_today: Type.Array(Type.Number()),
  sentence: Type.String(),
});
export type Judgement = Static<typeof Judgement>;

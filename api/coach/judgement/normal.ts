import type { Normal } from '../../../shared/schemas/coach/judgement.ts';
import { type Baseline, athleteBaseline, type BaselineValue } from '../../../dsp/athlete/baseline.ts';
import { dayNumber } from '../../../shared/dates.ts';
import type { PlainValue } from './value-history.ts';

/** What an athlete's normal rests on and how it is measured against. */
export interface NormalBasis {
  baseline: Baseline;
  basis: Normal['basis'];
}

/**
 * What is normal for one quantity: the athlete's earlier days, or, on a first day, the day's earlier repetitions.
 * @param before values of earlier days at the same effort and course, oldest first
 * @param today values of the day's earlier repetitions, oldest first
 * @param growing true for an adolescent, whose old repetitions expire sooner
 * @returns null when there is nothing to compare with
 */
export function normalBasis(
  quantity: string,
  before: readonly PlainValue[],
  today: readonly PlainValue[],
  date: string,
  growing: boolean,
): NormalBasis | null {
  const options = { quantity, day: dayNumber(date), adolescent: growing };
  const earlier = athleteBaseline(before.map(toBaselineValue), options);
  if (earlier) return { baseline: earlier, basis: 'earlier days' };
  const first = athleteBaseline(today.map(toBaselineValue), options);
  return first ? { baseline: first, basis: 'earlier today' } : null;
}

/** The part of a baseline that screens and reports show. */
export function toNormal({ baseline, basis }: NormalBasis): Normal {
  return {
    n: baseline.n,
    sessions: baseline.sessions,
    half_life_days: baseline.half_life_days,
    provisional: baseline.provisional,
    basis,
    centre: baseline.centre,
    low: baseline.low,
    high: baseline.high,
    typical_error: baseline.typical_error,
    flag_from: baseline.flag_from,
    variation_source: baseline.variation_source,
    expired: baseline.expired,
  };
}

/** A stored value as the mathematics of athletes wants it. */
export function toBaselineValue(entry: PlainValue): BaselineValue {
  return {
    value: entry.value,
    session: entry.session_id,
    day: dayNumber(entry.session_date),
    contacts: entry.contacts,
  };
}

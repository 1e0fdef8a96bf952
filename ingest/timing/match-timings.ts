import type { Split } from '../../shared/analysis.ts';
import { because, type CodedReason } from '../../shared/reason.ts';
import type { ClockStart, TimingMethod } from '../../shared/words.ts';
import { possibleDateOrders, readDay } from '../csv/text/read-instant.ts';
import { repetitionKey, type TimingEntry } from './timing-entry.ts';
import { plainText } from './timing-words.ts';

/** A repetition that times may belong to. */
export interface TimedRepetition {
  repetition_id: number;
  athlete_name: string;
  /** Day of the session, YYYY-MM-DD. */
  date: string;
  set: number | null;
  /** 1-based place among the athlete's repetitions of that session. */
  repetition: number;
}

export interface MatchedTimes {
  repetition_id: number;
  /** All times of one method, by distance; the last is the time over the course. */
  splits: Split[];
  distance_m: number;
  time_s: number;
  method: TimingMethod | null;
  clock: ClockStart | null;
  /** Smallest step of the times, seconds. */
  resolution_s: number;
  /** Times of other methods: kept, never mixed in. */
  kept_apart: TimingEntry[];
}

export interface UnmatchedTimes {
  entries: TimingEntry[];
  why: CodedReason;
}

/** Electronic before hand: where both are there, the better one is used and the other kept beside it. */
const BEST_FIRST: (TimingMethod | null)[] = [
  'gun_photo_finish',
  'touch_pad_beam',
  'beam',
  'motion_start',
  'other',
  'hand',
  null,
];

/**
 * Finds the repetition that each group of times belongs to, by athlete, day, set and number.
 * @returns matches and, with the reason, what fits none or several: nothing is guessed
 */
export function matchTimings(
  entries: TimingEntry[],
  repetitions: TimedRepetition[],
): { matched: MatchedTimes[]; unmatched: UnmatchedTimes[] } {
  const groups = new Map<string, TimingEntry[]>();
  for (const entry of entries) groups.set(repetitionKey(entry), [...(groups.get(repetitionKey(entry)) ?? []), entry]);
  const matched: MatchedTimes[] = [];
  const unmatched: UnmatchedTimes[] = [];
  for (const group of groups.values()) {
    const fitting = repetitions.filter((repetition) => fits(group[0], repetition));
    if (fitting.length !== 1) {
      unmatched.push({ entries: group, why: unplaced(group[0], fitting.length) });
      continue;
    }
    const times = timesOf(group, fitting[0].repetition_id);
    if (times) matched.push(times);
    else unmatched.push({ entries: group, why: because('times_do_not_grow') });
  }
  return { matched, unmatched };
}

function fits(entry: TimingEntry, repetition: TimedRepetition): boolean {
  if (entry.athlete !== null && nameKey(entry.athlete) !== nameKey(repetition.athlete_name)) return false;
  if (entry.date !== null && !sameDay(entry.date, repetition.date)) return false;
  if (entry.set !== null && repetition.set !== null && entry.set !== repetition.set) return false;
  return entry.repetition === null || entry.repetition === repetition.repetition;
}

/** 'Last, First' and 'First Last' are the same person. */
function nameKey(name: string): string {
  return plainText(name)
    .split(/[\s,]+/)
    .sort()
    .join(' ');
}

function sameDay(written: string, day: string): boolean {
  return possibleDateOrders([written]).some((order) => readDay(written, order) === readDay(day, 'ymd'));
}

const unplaced = ({ athlete, date, repetition }: TimingEntry, fitting: number) =>
  because('times_unplaced', { athlete, date, repetition, fitting });

function timesOf(group: TimingEntry[], repetition_id: number): MatchedTimes | null {
  const method = BEST_FIRST.find((candidate) => group.some((entry) => entry.method === candidate)) ?? null;
  const own = group.filter((entry) => entry.method === method).sort((a, b) => a.distance_m - b.distance_m);
  if (own.some((entry, index) => index > 0 && entry.time_s <= own[index - 1].time_s)) return null;
  const last = own[own.length - 1];
  return {
    repetition_id,
    splits: own.map(({ distance_m, time_s }) => ({ distance_m, split_time_s: time_s })),
    distance_m: last.distance_m,
    time_s: last.time_s,
    method,
    clock: own.find(({ clock }) => clock !== null)?.clock ?? null,
    resolution_s: Math.max(...own.map(({ resolution_s }) => resolution_s)),
    kept_apart: group.filter((entry) => entry.method !== method),
  };
}

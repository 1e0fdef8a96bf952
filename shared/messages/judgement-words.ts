import type { CoachSpeech } from './coach-phrases.ts';
import type { Language } from './languages.ts';

/** How a quantity is called in a sentence, and its 'more' and 'less', as a coach would say them. */
export interface DirectionWords {
  subject: string;
  more: string;
  less: string;
  /** Of a difference of two sides: what a value above and below zero is. */
  is?: { above: string; below: string };
}

/** What a verdict compares with: the athlete's usual, or on a first day what was run earlier. */
export type ComparedWith = 'usual' | 'earlier today';

/** The parts that sentences about a repetition are made of, in one language. Figures come with their units. */
export interface JudgementWords {
  language: Language;
  decimal_mark: '.' | ',';
  /** What desk, plan, tests and reports say. */
  coach: CoachSpeech;
  /** Unit of a rate, with its leading space. */
  per_second: string;
  directions: { readonly [quantity: string]: DirectionWords };
  /** For a quantity without words of its own; the subject is its label. */
  other: Omit<DirectionWords, 'subject'>;
  label(english: string): string;
  /** A day, with its year when it is not the same as the other date's. */
  date(date: string, beside: string): string;
  /** A month with its year, of `2026-11`. */
  month(month: string): string;

  none_yet: string;
  on_its_way: string;
  nothing_measured: string;
  value_alone(parts: { subject: string; figure: string }): string;
  nothing_to_compare(parts: { subject: string; figure: string }): string;
  /** Behind a sentence: how little there is to compare with. */
  few(n: number): string;
  as_usual(parts: { subject: string; figure: string; than: ComparedWith; few: string }): string;
  may_be_chance(parts: {
    subject: string;
    figure: string;
    size: string;
    than: ComparedWith;
    likely: boolean;
    few: string;
  }): string;
  changed(parts: {
    subject: string;
    figure: string;
    size: string;
    than: ComparedWith;
    /** True: this repetition alone; false: today's together. */
    alone: boolean;
    range: string;
    /** How many repetitions in a row; below 2 it is not said. */
    row: number;
    wanted: boolean | null;
    few: string;
  }): string;
  range(near: string, far: string): string;
  range_across(parts: { less: string; more: string }): string;
  since(parts: {
    date: string;
    before: string;
    now: string;
    direction: string;
    range: string;
    wanted: boolean | null;
  }): string;
  keep(cue: string): string;
  next(cue: string): string;
  longer_rest: string;
  side(parts: {
    subject: string;
    /** `9 ms longer`; null: alike within chance. */
    now: { size: string; side: 'left' | 'right' } | null;
    /** Against the usual difference: unknown, as usual, or by how much it leaves it, and to which side. */
    usual: 'unknown' | 'as usual' | { size: string; side: 'left' | 'right' };
  }): string;
  stop(reasons: string[]): string;
  stop_speed(parts: { loss: string; limit: string }): string;
  stop_row(parts: { label: string; row: number; limit: number }): string;
  clock_question(parts: { told: string; of: string }): string;
}

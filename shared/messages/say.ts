import type { Fault, ToldFault } from '../fault-shape.ts';
import type { Reason } from '../reason-shape.ts';
import type { Notice } from '../notice-shape.ts';
import type { Language } from './languages.ts';

/** How numbers, lists, plurals and days are written in one language, and how its faults are told. */
export interface Speech {
  language: Language;
  /**
   * A number. Thousands are not grouped: figures are copied into files and terminals.
   * @param decimals digits behind the mark; left out: as many as the number has
   */
  number(value: number, decimals?: number): string;
  /** `a, b and c`, or with 'or'. */
  list(items: readonly (string | number)[], kind?: 'and' | 'or'): string;
  /** The form that goes with a count; the count itself is not written. */
  plural(count: number, forms: { one: string; other: string }): string;
  /** A calendar day given as `2026-11-25`. */
  day(date: string): string;
  /** A fault with its sentences; one that has them already stays as it is. */
  tell(fault: Fault): ToldFault;
  /** Why something is not measurable: the middle of a sentence. */
  because(reason: Reason): string;
  /** What a running part has to say: whole sentences. */
  notice(notice: Notice): string;
}

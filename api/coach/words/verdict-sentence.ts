import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import { directionWords } from './direction-words.ts';
import { capital, type LengthUnit, quantityWords, withUnit } from './quantity-words.ts';

const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

/**
 * One plain sentence on one quantity of one repetition, with its certainty. Said to the athlete ('your normal').
 * @param stop_after repetitions in a row beyond normal after which stopping is worth a thought; null: never said
 */
export function verdictSentence(
  judgement: Omit<Judgement, 'sentence'>,
  stop_after: number | null,
  length: LengthUnit = 'm',
): string {
  const { quantity, value, normal, change, beyond, beyond_in_a_row: row } = judgement;
  const { label, decimals, factor } = quantityWords(quantity, length);
  const words = directionWords(quantity, label);
  if (normal === null || change === null) {
    return `${capital(label)} ${withUnit(quantity, value, length)}: nothing to compare with yet.`;
  }
  const than = normal.basis === 'earlier today' ? 'earlier today' : 'your normal';
  const as_usual = isZero(change * factor, decimals);
  // A change too small for the field's decimals gets one more, so that it never reads as zero.
  const size = withUnit(quantity, Math.abs(change), length, as_usual ? 1 : 0);
  const direction = change > 0 ? words.more : words.less;
  if (beyond === null) {
    const certainty =
      Math.abs(change) <= normal.typical_error ? 'within what is usual for you' : 'which may well be chance';
    const closeness = as_usual
      ? `${capital(words.subject)} as ${than === 'your normal' ? 'usual for you' : 'earlier today'}`
      : `${capital(words.subject)} ${size} ${direction} than ${than}, ${certainty}`;
    return `${closeness}${provisionalTail(normal.n, normal.provisional)}.`;
  }
  const certainty = normal.provisional
    ? `probably more than chance (only ${count(normal.n)} to compare with)`
    : 'beyond chance';
  const stop = stop_after !== null && judgement.worse && row >= stop_after ? ': consider stopping' : '';
  const tail = row >= 2 ? `; ${ORDINALS[row] ?? `${row}th`} repetition in a row${stop}` : '';
  return `${capital(words.subject)} ${size} ${direction} than ${than}, ${certainty}${tail}.`;
}

function provisionalTail(n: number, provisional: boolean): string {
  return provisional ? ` (only ${count(n)} to compare with so far)` : '';
}

function count(n: number): string {
  return n === 1 ? '1 repetition' : `${n} repetitions`;
}

function isZero(value: number, decimals: number): boolean {
  return Math.abs(value) < 0.5 * 10 ** -decimals;
}

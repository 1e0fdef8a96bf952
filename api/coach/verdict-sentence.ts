import { quantityDefinition } from '../../shared/coach-quantities.ts';
import type { Judgement } from '../../shared/schemas/coach/judgement.ts';
import { directionWords } from './direction-words.ts';

const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

/**
 * One plain sentence on one quantity of one repetition, with its certainty. Said to the athlete ('your normal').
 * @param stop_after repetitions in a row beyond normal after which stopping is worth a thought; null: never said
 */
export function verdictSentence(judgement: Omit<Judgement, 'sentence'>, stop_after: number | null): string {
  const { quantity, value, normal, change, beyond, beyond_in_a_row: row } = judgement;
  const field = quantityDefinition(quantity);
  const label = field?.label ?? quantity.replaceAll('_', ' ');
  const words = directionWords(quantity, label);
  const show = (number: number) => {
    const unit = unitWord(field?.unit ?? '');
    return `${Math.abs(number).toFixed(decimalsOf(field?.decimals ?? 2, number))}${unit}`;
  };
  if (normal === null || change === null) {
    return `${upper(label)} ${signed(value, field?.decimals ?? 2)}${unitWord(field?.unit ?? '')}: nothing to compare with yet.`;
  }
  const size = show(change);
  const direction = change > 0 ? words.more : words.less;
  const than = normal.basis === 'earlier today' ? 'earlier today' : 'your normal';
  if (beyond === null) {
    const certainty =
      Math.abs(change) <= normal.typical_error ? 'within what is usual for you' : 'which may well be chance';
    const closeness = isZero(change, field?.decimals ?? 2)
      ? `${upper(words.subject)} as ${than === 'your normal' ? 'usual for you' : 'earlier today'}`
      : `${upper(words.subject)} ${size} ${direction} than ${than}, ${certainty}`;
    return `${closeness}${provisionalTail(normal.n, normal.provisional)}.`;
  }
  const certainty = normal.provisional
    ? `probably more than chance (only ${count(normal.n)} to compare with)`
    : 'beyond chance';
  const tail =
    row >= 2
      ? `; ${ORDINALS[row] ?? `${row}th`} repetition in a row${stop_after !== null && judgement.worse && row >= stop_after ? ': consider stopping' : ''}`
      : '';
  return `${upper(words.subject)} ${size} ${direction} than ${than}, ${certainty}${tail}.`;
}

function provisionalTail(n: number, provisional: boolean): string {
  return provisional ? ` (only ${count(n)} to compare with so far)` : '';
}

function count(n: number): string {
  return n === 1 ? '1 repetition' : `${n} repetitions`;
}

function unitWord(unit: string): string {
  if (unit === '1' || unit === '') return '';
  if (unit === 'deg') return '°';
  return unit === 'Hz' ? ' per second' : ` ${unit}`;
}

/** A change smaller than the field's last shown decimal gets one more, so that it never reads as zero. */
function decimalsOf(decimals: number, change: number): number {
  return isZero(change, decimals) ? decimals + 1 : decimals;
}

function isZero(value: number, decimals: number): boolean {
  return Math.abs(value) < 0.5 * 10 ** -decimals;
}

function signed(value: number, decimals: number): string {
  return value.toFixed(decimals).replace('-', '−');
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

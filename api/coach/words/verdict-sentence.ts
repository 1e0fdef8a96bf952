import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import { changeRange } from './change-range.ts';
import { directionWords } from './direction-words.ts';
import { capital, type LengthUnit, quantityWords, withUnit } from './quantity-words.ts';

const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];
/** From this certainty on a change that is not told yet is called likely. */
const LIKELY = 0.9;

/**
 * One plain sentence about the athlete on one quantity of one repetition, with direction, size, interval and use:
 * `Contact as usual: 107 ms.` or `Better: contact 101 ms, today 6 ms shorter than usual (2 to 10 ms).`
 */
export function verdictSentence(judgement: Omit<Judgement, 'sentence'>, length: LengthUnit = 'm'): string {
  const { quantity, value, normal, today, beyond_in_a_row: row } = judgement;
  const words = directionWords(quantity, quantityWords(quantity, length).label);
  const subject = words.subject;
  const figure = figureOf(quantity, value, length);
  if (judgement.kind === 'no comparison') return `${capital(subject)} ${figure}.`;
  if (normal === null || today === null || judgement.change === null) {
    return `${capital(subject)} ${figure}: nothing to compare with yet.`;
  }
  const usual = normal.basis === 'earlier today' ? 'earlier today' : 'usual';
  const few = normal.provisional ? `; only ${count(normal.n)} to compare with` : '';
  if (judgement.kind === 'as usual') {
    return usual === 'usual'
      ? `${capital(subject)} as usual: ${figure}${few}.`
      : `${capital(subject)} as earlier today: ${figure}${few}.`;
  }
  if (judgement.kind === 'may be chance') {
    const size = difference(quantity, judgement.change, length);
    const doubt = isLikely(judgement) ? 'likely, but not beyond chance' : 'may be chance';
    return `${capital(subject)} ${figure}, ${size} than ${usual}: ${doubt}${few}.`;
  }
  const alone = judgement.rule === 'repetition';
  const change = alone ? judgement.change : today.change;
  const range = alone ? '' : ` (${changeRange({ quantity, low: today.low, high: today.high }, length)})`;
  const who = alone ? 'this one' : 'today';
  const tail = row >= 2 ? `, ${ORDINALS[row] ?? `${row}th`} repetition in a row` : '';
  const text = `${subject} ${figure}, ${who} ${difference(quantity, change, length)} than ${usual}${range}${tail}${few}`;
  return `${judgement.wanted === null ? capital(text) : `${judgement.wanted ? 'Better' : 'Worse'}: ${text}`}.`;
}

/** A value with its unit; left against right says which side is longer, since a bare difference reads like the time itself. */
function figureOf(quantity: string, value: number, length: LengthUnit): string {
  if (!quantity.endsWith('_side_difference_ms')) return withUnit(quantity, value, length);
  const { more, less } = directionWords(quantity, quantity);
  return `${withUnit(quantity, Math.abs(value), length)} ${value > 0 ? more : less}`;
}

/** Today's repetitions together lean the way this repetition went, nearly beyond chance. */
function isLikely({ today, change }: Omit<Judgement, 'sentence'>): boolean {
  return today !== null && today.certainty >= LIKELY && Math.sign(today.change) === Math.sign(change ?? 0);
}

function difference(quantity: string, change: number, length: LengthUnit): string {
  const { label, decimals, factor } = quantityWords(quantity, length);
  const words = directionWords(quantity, label);
  // A change too small for the field's decimals gets one more, so that it never reads as zero.
  const more = Math.abs(change * factor) < 0.5 * 10 ** -decimals ? 1 : 0;
  return `${withUnit(quantity, Math.abs(change), length, more)} ${change > 0 ? words.more : words.less}`;
}

function count(n: number): string {
  return n === 1 ? '1 repetition' : `${n} repetitions`;
}

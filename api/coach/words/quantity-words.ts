import { quantityDefinition } from '../../../shared/coach-quantities.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { METRES_PER_FOOT, METRES_PER_YARD } from '../../../shared/units.ts';

/** Units in which a reader wants lengths; everything else has one unit only. */
export type LengthUnit = 'm' | 'yd' | 'ft';
export const METRES: Record<LengthUnit, number> = { m: 1, yd: METRES_PER_YARD, ft: METRES_PER_FOOT };

/** How a quantity is written in a sentence: shown = value * factor. */
export interface QuantityWords {
  label: string;
  decimals: number;
  factor: number;
  /** With its leading space where one belongs, such as ` ms`, `°` or nothing. */
  unit: string;
}

/** Label, decimals and unit of a quantity in sentences, lengths in the reader's unit. */
export function quantityWords(
  quantity: string,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): QuantityWords {
  const field = quantityDefinition(quantity);
  const label = field?.label ?? quantity.replaceAll('_', ' ');
  const decimals = field?.decimals ?? 2;
  const unit = field?.unit ?? '1';
  if (unit === 'm') return { label, decimals, factor: 1 / METRES[length], unit: ` ${length}` };
  const word = unit === '1' ? '' : unit === 'deg' ? '°' : unit === 'Hz' ? words.per_second : ` ${unit}`;
  return { label, decimals, factor: 1, unit: word };
}

/** A number with its unit, in the decimals of its field and with a true minus sign. */
export function withUnit(
  quantity: string,
  value: number,
  length: LengthUnit = 'm',
  more_decimals = 0,
  words: JudgementWords = JUDGEMENT_EN,
): string {
  return `${withoutUnit(quantity, value, length, more_decimals, words)}${quantityWords(quantity, length, words).unit}`;
}

/** The number alone, for the first of two: `from 140 to 131 ms`. */
export function withoutUnit(
  quantity: string,
  value: number,
  length: LengthUnit = 'm',
  more_decimals = 0,
  words: JudgementWords = JUDGEMENT_EN,
): string {
  const { decimals, factor } = quantityWords(quantity, length);
  return numberText(value * factor, decimals + more_decimals, words);
}

/** A number with a true minus sign and the language's decimal mark. */
export function numberText(value: number, decimals: number, words: JudgementWords): string {
  return value.toFixed(decimals).replace('-', '−').replace('.', words.decimal_mark);
}

/** A number with as few decimals as it needs, two at most. */
export function shortNumberText(value: number, words: JudgementWords): string {
  return String(Number(value.toFixed(2))).replace('.', words.decimal_mark);
}

/** The name of a quantity in a sentence. */
export function labelOf(quantity: string, words: JudgementWords): string {
  return words.label(quantityDefinition(quantity)?.label ?? quantity);
}

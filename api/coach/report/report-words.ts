import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { quantityDefinition } from '../../../shared/coach-quantities.ts';
import { labelOf, type LengthUnit, METRES, numberText } from '../words/quantity-words.ts';

export type { LengthUnit };

/** A course as it was laid out: in the unit asked for where that is a whole number, else in the one where it is (40 yd). */
export function distanceText(metres: number, unit: LengthUnit, words: JudgementWords = JUDGEMENT_EN): string {
  const isWhole = (shown: number) => Math.abs(shown - Math.round(shown)) < 0.02;
  const best = ([unit, 'm', 'yd', 'ft'] as const).find((candidate) => isWhole(metres / METRES[candidate]));
  return best
    ? `${Math.round(metres / METRES[best])} ${best}`
    : `${numberText(metres / METRES[unit], 1, words)} ${unit}`;
}

/** A sum of distances, without decimals. */
export function totalText(metres: number, unit: LengthUnit): string {
  return `${Math.round(metres / METRES[unit])} ${unit}`;
}

/** Decimals of a quantity on paper. */
export function decimalsOf(quantity: string): number {
  return quantityDefinition(quantity)?.decimals ?? 2;
}

/** Label with unit, for an axis. */
export function axisLabel(quantity: string, words: JudgementWords = JUDGEMENT_EN): string {
  const unit = quantityDefinition(quantity)?.unit ?? '1';
  return `${labelOf(quantity, words)}${unit === '1' ? '' : unit === 'deg' ? ' (°)' : ` (${unit})`}`;
}

/** A plot's y axis spans at least this share of the value, so that noise is not blown up. */
export function leastSpan(quantity: string, value: number): number {
  return quantity.endsWith('_deg') ? 8 : quantity.includes('side_difference') ? 12 : Math.abs(value) * 0.12 || 1;
}

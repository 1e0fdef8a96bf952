import { quantityDefinition } from '../../../shared/coach-quantities.ts';
import type { FatigueLine, SessionLevel } from '../../../shared/schemas/coach/course-view.ts';
import type { BlockView } from '../../../shared/schemas/coach/judgement.ts';
import { capital, type LengthUnit, withUnit } from './quantity-words.ts';

/** What changes in a week gets one more decimal. */
function smallChange(quantity: string, value: number, length: LengthUnit): string {
  return withUnit(quantity, Math.abs(value), length, 1);
}

/** What the weeks show: before and after of the block, or what is missing until that can be told. */
export function courseSentence(
  quantity: string,
  sessions: readonly SessionLevel[],
  block: BlockView | null,
  length: LengthUnit = 'm',
): string {
  const label = quantityDefinition(quantity)?.label ?? quantity;
  if (sessions.length === 0) return `${capital(label)}: nothing measured yet.`;
  if (block) return block.sentence;
  const last = withUnit(quantity, sessions.at(-1)!.value, length);
  return `${capital(label)} ${last} in the last session; two sessions before and two within a block are needed to tell a change.`;
}

/** How a session drifts, and what the coach's rule says. */
export function fatigueSentence(line: Omit<FatigueLine, 'sentence'>): string {
  const { quantity, fresh, last, change_percent, slope } = line;
  const label = quantityDefinition(quantity)?.label ?? quantity;
  if (fresh === null || last === null || change_percent === null) {
    return `${capital(label)}: three like repetitions are needed to see it tire.`;
  }
  const sign = change_percent > 0 ? '+' : '−';
  const drift =
    slope === null || (slope.low <= 0 && slope.high >= 0)
      ? 'no drift beyond chance'
      : `drifting by ${smallChange(quantity, slope.value, 'm')} a repetition, beyond chance`;
  const stop = line.stop ? ' Your stop rule is met.' : '';
  return `${capital(label)} ${withUnit(quantity, fresh)} fresh, ${withUnit(quantity, last)} at the end (${sign}${Math.abs(change_percent).toFixed(1)} %), ${drift}.${stop}`;
}

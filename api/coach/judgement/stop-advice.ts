import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { StopRule } from '../../../shared/schemas/coach/coach-settings.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import { labelOf } from '../words/quantity-words.ts';
import { dropOf } from './fatigue-view.ts';

/**
 * What the coach's stop rule says after a repetition; empty when it says nothing.
 * Speed is measured against the first two repetitions of the day at the same effort and course.
 */
export function stopAdvice(
  judgements: readonly Judgement[],
  rule: StopRule,
  words: JudgementWords = JUDGEMENT_EN,
): string {
  const parts: string[] = [];
  const speed = judgements.find((judgement) => judgement.quantity === 'speed_max_mps');
  const drop = speed && dropOf('speed_max_mps', [...speed.earlier_today, speed.value], rule);
  if (speed && drop?.stop) {
    const loss = (1 - speed.value / drop.fresh) * 100;
    const written = (text: string) => text.replace('.', words.decimal_mark);
    parts.push(words.stop_speed({ loss: written(loss.toFixed(1)), limit: written(String(rule.speed_loss_percent)) }));
  }
  const row = rule.beyond_in_a_row;
  if (row !== null) {
    const worst = judgements.find(
      ({ quantity, wanted, beyond, beyond_in_a_row }) =>
        quantity !== 'speed_max_mps' && beyond !== null && wanted !== true && beyond_in_a_row >= row,
    );
    if (worst) {
      parts.push(words.stop_row({ label: labelOf(worst.quantity, words), row: worst.beyond_in_a_row, limit: row }));
    }
  }
  return parts.length === 0 ? '' : words.stop(parts);
}

import type { StopRule } from '../../shared/schemas/coach/coach-settings.ts';
import type { Judgement } from '../../shared/schemas/coach/judgement.ts';
import { quantityDefinition } from '../../shared/coach-quantities.ts';

/**
 * What the coach's stop rule says after a repetition; empty when it says nothing.
 * Speed loss is measured against the day's best repetition at the same effort and course.
 */
export function stopAdvice(judgements: readonly Judgement[], rule: StopRule): string {
  const parts: string[] = [];
  const speed = judgements.find((judgement) => judgement.quantity === 'speed_max_mps');
  const limit = rule.speed_loss_percent;
  if (speed && limit !== null && speed.earlier_today.length > 0) {
    const loss = dropPercent(speed.value, speed.earlier_today);
    if (loss >= limit) parts.push(`speed ${loss.toFixed(1)} % below today's best (you stop at ${limit} %)`);
  }
  const row = rule.beyond_in_a_row;
  if (row !== null) {
    const worst = judgements.find(
      (judgement) => judgement.quantity !== 'speed_max_mps' && judgement.worse && judgement.beyond_in_a_row >= row,
    );
    if (worst) {
      const label = quantityDefinition(worst.quantity)?.label ?? worst.quantity;
      parts.push(`${label} beyond normal ${worst.beyond_in_a_row} times in a row (you stop at ${row})`);
    }
  }
  if (parts.length === 0) return '';
  const text = parts.join('; ');
  return `Consider stopping: ${text}.`;
}

/** Loss against the best (largest) of the earlier values, per cent; 0 when this is the best. */
export function dropPercent(value: number, earlier: readonly number[]): number {
  const best = Math.max(...earlier);
  return best > 0 ? Math.max(0, (1 - value / best) * 100) : 0;
}

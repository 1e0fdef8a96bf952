import type { Normal } from '../../shared/schemas/coach/judgement.ts';
import type { HistoryValue } from './value-history.ts';

/**
 * What is normal: a robust centre and typical error of the athlete's own earlier repetitions, published variation while
 * there are fewer than six.
 */
export function normalOf(
  _quantity: string,
  before: readonly HistoryValue[],
  today: readonly HistoryValue[],
  _date: string,
): Normal | null {
  const values = (before.length > 0 ? before : today).map((entry) => entry.value);
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const centre = sorted[Math.floor(sorted.length / 2)];
  const typical_error = Math.abs(centre) * 0.04;
  const flag_from = 1.96 * Math.SQRT2 * typical_error;
  return {
    n: values.length,
    provisional: values.length < 6,
    centre,
    low: centre - 1.96 * typical_error,
    high: centre + 1.96 * typical_error,
    typical_error,
    flag_from,
  };
}

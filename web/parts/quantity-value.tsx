import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../app/language.ts';
import type { ContactQuantity } from '../../shared/analysis.ts';
import { shownQuantity } from '../app/format.ts';

const common = phrasesOf('common', commonWords);

interface QuantityValueProps {
  quantity: ContactQuantity;
  value: number | null | undefined;
  /** Standard uncertainty; shown as a 95 % half-width. */
  u?: number | null;
  /** Why there is no number; shown in its place. */
  reason?: string;
}

/** A number with its uncertainty and unit; or, where it is not measurable, why. */
export function QuantityValue({ quantity, value, u, reason }: QuantityValueProps) {
  if (value === null || value === undefined) {
    return (
      <span class="not-measurable">
        {reason ? common('not_measurable_because', { reason }) : common('not_measurable')}
      </span>
    );
  }
  const shown = shownQuantity(quantity, value, u);
  return (
    <span class="quantity">
      <span class="quantity-value">{shown.value}</span>{' '}
      <span class="quantity-rest">
        {shown.half && <span class="quantity-half">± {shown.half} </span>}
        {shown.unit && <span class="quantity-unit">{shown.unit}</span>}
      </span>
    </span>
  );
}

import type { Judgement, Normal } from '../../../../shared/schemas/coach/judgement.ts';
import { formatNumber } from '../../../app/format.ts';
import { displayQuantity, showValue } from '../quantity-text.ts';
import { NormalStrip } from './normal-strip.tsx';

/** `normal 114 to 120`. */
function normalLine({ quantity }: Judgement, normal: Normal): string {
  const words = normal.basis === 'earlier today' ? 'earlier today' : 'normal';
  return `${words} ${showValue(quantity, normal.low)} to ${showValue(quantity, normal.high)}`;
}

interface JudgedFigureProps {
  judgement: Judgement;
  /** Words under the label. */
  note?: string;
}

/** One quantity of one repetition: large, against the athlete's normal, with earlier today. */
export function JudgedFigure({ judgement, note }: JudgedFigureProps) {
  const { quantity, value, value_u, normal, earlier_today, beyond } = judgement;
  const { label, unit, decimals, factor } = displayQuantity(quantity);
  const shownUnit = unit === 'deg' ? '°' : unit;
  return (
    <div class={beyond ? 'figure-tile is-beyond' : 'figure-tile'}>
      <dt>
        {label}
        {note && <span class="figure-note">{note}</span>}
      </dt>
      <dd>
        <span class="quantity-value">{showValue(quantity, value)}</span>
        {value_u !== null && <span class="quantity-half"> ± {formatNumber(1.96 * value_u * factor, decimals)}</span>}
        <span class="quantity-unit"> {shownUnit}</span>
        <NormalStrip judgement={judgement} />
        <span class="figure-note">
          {normal === null ? 'nothing to compare with yet' : normalLine(judgement, normal)}
        </span>
        {normal && (
          <span class="figure-note">
            {beyond && <strong>{beyond === 'above' ? '▲' : '▼'} beyond chance, </strong>}
            {normal.provisional ? `provisional: only ${normal.n} before` : `${normal.n} repetitions`}
          </span>
        )}
        {earlier_today.length > 0 && (
          <span class="figure-note">
            today:{' '}
            {earlier_today
              .slice(-6)
              .map((earlier) => showValue(quantity, earlier))
              .join(' · ')}
          </span>
        )}
      </dd>
    </div>
  );
}

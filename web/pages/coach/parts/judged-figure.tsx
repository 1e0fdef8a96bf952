import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import type { Judgement, Normal } from '../../../../shared/schemas/coach/judgement.ts';
import { formatNumber } from '../../../app/format.ts';
import { displayQuantity, showValue } from '../quantity-text.ts';
import { NormalStrip } from './normal-strip.tsx';

const t = phrasesOf('field', fieldWords);

interface JudgedFigureProps {
  judgement: Judgement;
  /** A word beside the label. */
  note?: string;
}

/** One quantity of one repetition: large, against the athlete's normal, with earlier today. One row of a definition list. */
export function JudgedFigure({ judgement, note }: JudgedFigureProps) {
  const { quantity, value, value_u, normal, earlier_today, beyond } = judgement;
  const { label, unit, decimals, factor } = displayQuantity(quantity);
  const shownUnit = unit === 'deg' ? '°' : unit;
  return (
    <div class={beyond ? 'judged is-beyond' : 'judged'}>
      <dt>
        {label}
        {note && <span class="judged-note"> · {note}</span>}
      </dt>
      <dd>
        <span class="judged-value">
          <span class="quantity-value">{showValue(quantity, value)}</span>
          <span class="quantity-unit">
            {value_u !== null && ` ± ${formatNumber(1.96 * value_u * factor, decimals)}`} {shownUnit}
          </span>
        </span>
        <NormalStrip judgement={judgement} />
        <span class="judged-words">
          {beyond && (
            <strong>
              {beyond === 'above' ? '▲' : '▼'} {normal?.provisional ? t('probably_beyond') : t('beyond_chance')}{' '}
            </strong>
          )}
          {normal === null ? t('nothing_yet') : normalLine(quantity, normal)}
          {earlier_today.length > 0 &&
            t('today_earlier', {
              values: earlier_today
                .slice(-6)
                .map((earlier) => showValue(quantity, earlier))
                .join(' · '),
            })}
        </span>
      </dd>
    </div>
  );
}

/** `Normal 114 to 120 (40 repetitions).` */
function normalLine(quantity: string, normal: Normal): string {
  const { n, provisional, basis } = normal;
  const [low, high] = [showValue(quantity, normal.low), showValue(quantity, normal.high)];
  return t('normal_line', { low, high, n, provisional, today: basis === 'earlier today' });
}

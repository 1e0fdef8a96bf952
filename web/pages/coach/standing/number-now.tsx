import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import type { NumberNow } from '../../../../shared/schemas/coach/standing.ts';
import { formatNumber, formatShortDate } from '../../../app/format.ts';
import { LevelStrip } from '../parts/level-strip.tsx';
import { displayQuantity, showValue } from '../quantity-text.ts';

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

interface NumberNowTileProps {
  number: NumberNow;
  /** True for the quantity that the athlete works on. */
  focus: boolean;
  /** The coach's aim; null without one. */
  target: number | null;
  /** Values stand alone while an athlete is returning from an injury. */
  returning: boolean;
  href: string;
}

/** One number: the last day's level, large, against normal and against the start of the block. */
export function NumberNowTile({ number, focus, target, returning, href }: NumberNowTileProps) {
  const { quantity, judgement, course, date, against_normal } = number;
  const { label, unit, factor, decimals } = displayQuantity(quantity);
  const { today, normal } = judgement;
  const now = today?.value ?? judgement.value;
  const half = today && normal ? ((today.high - today.low) / 2) * factor : null;
  return (
    <article class="number-now">
      <div>
        <h3>
          <a href={href}>{label}</a>
          {focus && <span class="quiet">{t('focus_2')}</span>}
        </h3>
        <p class="number-now-value">
          <strong>{showValue(quantity, now)}</strong>
          <span class="quantity-unit">
            {half !== null && ` ± ${formatNumber(half, half < 0.5 * 10 ** -decimals ? decimals + 1 : decimals)}`}{' '}
            {unit === 'deg' ? '°' : unit}
          </span>
          <span class="quiet small">
            {formatShortDate(date)}, {common('repetitions', { n: today?.n ?? 1 })}
          </span>
        </p>
      </div>
      {!returning && (
        <>
          <LevelStrip
            quantity={quantity}
            now={now}
            interval={today && { low: now - (today.high - today.low) / 2, high: now + (today.high - today.low) / 2 }}
            normal={normal}
            block={course.block && { before: course.block.before.value, now: course.block.now.value }}
            target={target}
            beyond={judgement.beyond !== null}
          />
          <dl class="number-now-words">
            <dt>{t('against_normal')}</dt>
            <dd>{against_normal}</dd>
            <dt>{t('since_the_start_of_the')}</dt>
            <dd>{course.block ? course.sentence : t('block_needs')}</dd>
          </dl>
        </>
      )}
    </article>
  );
}

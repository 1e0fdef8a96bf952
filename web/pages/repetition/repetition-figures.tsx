import { meansOfRepetition } from '../../../shared/at-speed.ts';
import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import type { Reason } from '../../../shared/reason.ts';
import { speech, phrasesOf } from '../../app/language.ts';
import type { ContactQuantity, QuantitySummary, RepetitionResult } from '../../../shared/analysis.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import { displayOf, formatNumber, formatQuantity } from '../../app/format.ts';
import { timingMethodWords } from '../../app/describe.ts';
import type { TimingMethod } from '../../../shared/words.ts';
import { FigureTile } from '../../parts/figure-tile.tsx';

const t = phrasesOf('repetition', repetitionWords);

interface RepetitionFiguresProps {
  result: RepetitionResult;
  courseTime_s: number | null;
  timingMethod: TimingMethod | null;
  judgements: Judgement[];
}

const SHOWN: ContactQuantity[] = ['contact_time_ms', 'flight_time_ms', 'step_rate_hz', 'step_length_m'];

/** Means at speed with their uncertainty, against what is normal for the athlete. */
export function RepetitionFigures({ result, courseTime_s, timingMethod, judgements }: RepetitionFiguresProps) {
  const { summary, reasons } = result;
  const { means, stretch } = meansOfRepetition(summary);
  const n = means.contact_time_ms?.n ?? means.step_rate_hz?.n ?? 0;
  return (
    <section aria-labelledby="figures-head">
      <h2 id="figures-head" class="visually-hidden">
        {t('figures')}
      </h2>
      <dl class="figures">
        {courseTime_s !== null && (
          <div class="figure-tile">
            <dt>{t('time')}</dt>
            <dd>
              <span>
                <span class="quantity-value">{formatNumber(courseTime_s, 2)}</span> <span class="quantity-unit">s</span>
              </span>
              {timingMethod && (
                <span class="figure-note">{t('timed_by', { method: timingMethodWords(timingMethod) })}</span>
              )}
            </dd>
          </div>
        )}
        {SHOWN.map((quantity) => (
          <FigureTile
            key={quantity}
            quantity={quantity}
            value={means[quantity]?.mean}
            u={means[quantity]?.mean_u}
            reason={means[quantity] ? undefined : reasonFor(result, quantity)}
            judgement={judgements.find((item) => item.quantity === quantity)}
          />
        ))}
        <FigureTile
          label={t('top_speed')}
          quantity="speed_mps"
          value={summary.speed_max_mps}
          u={summary.speed_max_mps_u}
          reason={
            wordsOf(reasons.speed_max_mps) ?? reasonFor(result, 'speed_mps') ?? reasonFor(result, 'step_length_m')
          }
          judgement={judgements.find((item) => item.quantity === 'speed_max_mps')}
        />
        <SidesTile
          left={summary.left.contact_time_ms}
          right={summary.right.contact_time_ms}
          judgement={judgements.find((item) => item.quantity === 'contact_time_ms')}
        />
      </dl>
      <p class="small quiet">
        {stretch === 'at_speed' ? t('means_at_speed', { n }) : t('means_of_all', { n })}
        {t('plus_minus')} {normalWords(judgements)}
      </p>
    </section>
  );
}

function wordsOf(reason: Reason | undefined): string | undefined {
  return reason === undefined ? undefined : speech.value.because(reason);
}

export function reasonFor(result: RepetitionResult, quantity: ContactQuantity): string | undefined {
  return wordsOf(
    result.reasons[quantity] ?? result.contacts.find((contact) => contact.reasons[quantity])?.reasons[quantity],
  );
}

function normalWords(judgements: Judgement[]): string {
  const normal = judgements.find((item) => item.normal)?.normal;
  if (!normal) return t('nothing_to_compare');
  const { n, sessions, provisional, basis } = normal;
  return t('normal_rests_on', { n, days: basis === 'earlier today' ? null : sessions, provisional });
}

interface SidesTileProps {
  left?: QuantitySummary;
  right?: QuantitySummary;
  judgement?: Judgement;
}

/** Left against right, beside the scatter within each side: a difference means little without it. */
function SidesTile({ left, right, judgement }: SidesTileProps) {
  const { decimals } = displayOf('contact_time_ms');
  if (!left && !right) return null;
  const leftMean = judgement?.left?.value ?? left?.mean ?? null;
  const rightMean = judgement?.right?.value ?? right?.mean ?? null;
  return (
    <div class="figure-tile wide">
      <dt>{t('contact_time_sides')}</dt>
      <dd>
        <span class="sides">
          <span class="sides-one left">
            {t('left_short')} {formatNumber(leftMean, decimals)}
          </span>
          <span class="sides-one right">
            {t('right_short')} {formatNumber(rightMean, decimals)}
          </span>
          <span class="quantity-unit">ms</span>
        </span>
        <span class="figure-note">
          {left && right
            ? judgement?.side_sentence || sidesWords(left, right)
            : t(left ? 'no_contact_time_right' : 'no_contact_time_left')}
        </span>
      </dd>
    </div>
  );
}

/** The difference and the scatter from step to step, where the athlete has no normal yet. */
function sidesWords(left: QuantitySummary, right: QuantitySummary): string {
  const difference = left.mean - right.mean;
  const u = Math.hypot(left.mean_u, right.mean_u);
  const size = formatQuantity('contact_time_ms', Math.abs(difference), u);
  const scatter = t('step_scatter', { ms: formatNumber(Math.max(left.sd, right.sd), 0) });
  if (Math.abs(difference) < 1.96 * u) return t('no_difference', { size, scatter });
  return t(difference > 0 ? 'left_longer' : 'right_longer', { size, scatter });
}

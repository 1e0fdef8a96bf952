import { phrasesOf } from '../../../app/language.ts';
import { compareWords } from '../../../../shared/messages/en/view/compare.ts';
import type { ContactQuantity } from '../../../../shared/analysis.ts';
import type { ComparedQuantity, ComparedStep, Comparison } from '../../../../shared/schemas/coach/comparison.ts';
import { displayOf, formatNumber } from '../../../app/format.ts';
import { TableScroll } from '../../../parts/table-scroll.tsx';
import { displayQuantity, showValue } from '../quantity-text.ts';

const t = phrasesOf('compare', compareWords);

/** Every quantity on both sides, the difference with its measuring error, and what can be told of it. */
export function DifferenceTable({ comparison }: { comparison: Comparison }) {
  // Of an athlete who is returning from an injury no difference is put into figures.
  const alone = comparison.a.returning || comparison.b.returning;
  return (
    <table class="numbers compare-table">
      <caption class="visually-hidden">{t('each_quantity_in_a_and')}</caption>
      <thead>
        <tr>
          <th scope="col" class="word">
            {t('quantity')}
          </th>
          <th scope="col">A</th>
          <th scope="col">B</th>
          {!alone && (
            <>
              <th scope="col">
                B − A<span class="unit">{t('measuring')}</span>
              </th>
              <th scope="col" class="word">
                {t('with_chance_95')}
              </th>
            </>
          )}
        </tr>
      </thead>
      <tbody>
        {comparison.quantities.map((compared) => (
          <tr key={compared.quantity} class={compared.told === 'beyond chance' ? 'is-told' : undefined}>
            <th scope="row" class="word">
              {displayQuantity(compared.quantity).label}
              {shownUnit(compared.quantity) && <span class="quiet"> {shownUnit(compared.quantity)}</span>}
            </th>
            <td data-label="A">{showValue(compared.quantity, compared.a)}</td>
            <td data-label="B">{showValue(compared.quantity, compared.b)}</td>
            {!alone && (
              <>
                <td data-label="B − A">{differenceWords(compared)}</td>
                <td class="word compare-told">
                  <DifferenceStrip compared={compared} />
                  {compared.sentence}
                </td>
              </>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function shownUnit(quantity: string): string {
  const { unit } = displayQuantity(quantity);
  return unit === 'deg' ? '°' : unit;
}

function differenceWords({ quantity, difference, measuring_half }: ComparedQuantity): string {
  const { factor, decimals } = displayQuantity(quantity);
  const shown = difference * factor;
  const digits = Math.abs(shown) < 0.5 * 10 ** -decimals ? decimals + 1 : decimals;
  const sign = shown > 0 ? '+' : '';
  const half = measuring_half === null ? '' : ` ± ${formatNumber(measuring_half * factor, digits)}`;
  return `${sign}${formatNumber(shown, digits)}${half}`;
}

/** The difference and its interval against no difference; the sentence beside it says the same. */
function DifferenceStrip({ compared }: { compared: ComparedQuantity }) {
  const { difference, low, high } = compared;
  if (low === null || high === null) return null;
  const reach = Math.max(Math.abs(low), Math.abs(high)) * 1.05 || 1;
  const at = (value: number) => `${(50 + (50 * value) / reach).toFixed(1)}%`;
  return (
    <svg class="difference-strip" width="100%" height="18" aria-hidden="true">
      <line class="strip-line" x1="0" x2="100%" y1="9" y2="9" />
      <line class="strip-centre" x1="50%" x2="50%" y1="1" y2="17" />
      <line class="strip-half" x1={at(low)} x2={at(high)} y1="9" y2="9" />
      <svg x={at(difference)} y="9" overflow="visible" aria-hidden="true">
        <path class="strip-now" d="M0 -7L6 0L0 7L-6 0Z" />
      </svg>
    </svg>
  );
}

/** Every step of both sides: the table behind the plot. */
export function StepTable({ comparison, quantity }: { comparison: Comparison; quantity: ContactQuantity }) {
  const { label, unit, factor, decimals } = displayOf(quantity);
  const [a, b] = [comparison.a.steps, comparison.b.steps].map(
    (steps) => new Map(steps.map((step: ComparedStep) => [step.step, step])),
  );
  const steps = [...new Set([...a.keys(), ...b.keys()])].sort((x, y) => x - y);
  const knownOf = (step?: ComparedStep) => step?.values[quantity] ?? null;
  const say = (value: { value: number; u: number | null } | null) =>
    value === null
      ? '–'
      : `${formatNumber(value.value * factor, decimals)}${value.u === null ? '' : ` ± ${formatNumber(1.96 * value.u * factor, decimals)}`}`;
  return (
    <details class="more">
      <summary>{t('step_by_step')}</summary>
      <TableScroll label={t('step_by_step_2', { label })}>
        <table class="numbers">
          <caption class="visually-hidden">{t('of_every_step_in_a', { label })}</caption>
          <thead>
            <tr>
              <th scope="col">{t('step_axis')}</th>
              <th scope="col" class="word">
                {t('side_a_b')}
              </th>
              {['A', 'B', 'B − A'].map((head) => (
                <th scope="col" key={head}>
                  {head}
                  <span class="unit">{unit}</span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {steps.map((step) => {
              const [of_a, of_b] = [knownOf(a.get(step)), knownOf(b.get(step))];
              const difference =
                of_a && of_b
                  ? {
                      value: of_b.value - of_a.value,
                      u: of_a.u === null || of_b.u === null ? null : Math.hypot(of_a.u, of_b.u),
                    }
                  : null;
              return (
                <tr key={step}>
                  <th scope="row">{step}</th>
                  <td class="word">{[a, b].map((side) => side.get(step)?.side ?? '–').join(' / ')}</td>
                  <td>{say(of_a)}</td>
                  <td>{say(of_b)}</td>
                  <td>{say(difference)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </TableScroll>
    </details>
  );
}

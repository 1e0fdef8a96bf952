import { phrasesOf } from '../../../app/language.ts';
import { planWords } from '../../../../shared/messages/en/view/plan.ts';
import type { PlanCheck } from '../../../../shared/schemas/coach/plan.ts';
import { CautionList } from '../parts/caution-list.tsx';
import { Citation } from '../../../parts/citation.tsx';

const t = phrasesOf('plan', planWords);

/** What breaks a limit, with the source of the limit, and the cautions that go with any plan. */
export function PlanWarnings({ check }: { check: PlanCheck }) {
  return (
    <>
      <section class="plan-warnings" aria-live="polite">
        <h2>
          {check.totals.repetitions === 0
            ? t('nothing_planned_yet')
            : check.warnings.length === 0
              ? t('within_the_limits')
              : t('to_look_at', { n_warnings: check.warnings.length })}
        </h2>
        {check.warnings.length > 0 && (
          <ul>
            {check.warnings.map((warning) => (
              <li key={warning.code + warning.text}>
                {warning.text}{' '}
                <span class="small quiet warning-source">
                  <Citation>{warning.source}</Citation>
                </span>
              </li>
            ))}
          </ul>
        )}
      </section>
      <CautionList cautions={check.cautions} />
    </>
  );
}

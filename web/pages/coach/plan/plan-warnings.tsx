import type { PlanCheck } from '../../../../shared/schemas/coach/plan.ts';
import { CautionList } from '../parts/caution-list.tsx';

/** What breaks a limit, with the source of the limit, and the cautions that go with any plan. */
export function PlanWarnings({ check }: { check: PlanCheck }) {
  return (
    <>
      <section class="plan-warnings" aria-live="polite">
        <h2>
          {check.totals.repetitions === 0
            ? 'Nothing planned yet'
            : check.warnings.length === 0
              ? 'Within the limits'
              : `${check.warnings.length} ${check.warnings.length === 1 ? 'limit' : 'limits'} to look at`}
        </h2>
        {check.warnings.length > 0 && (
          <ul>
            {check.warnings.map((warning) => (
              <li key={warning.code + warning.text}>
                {warning.text} <span class="small quiet warning-source">{warning.source}</span>
              </li>
            ))}
          </ul>
        )}
      </section>
      <CautionList cautions={check.cautions} />
    </>
  );
}

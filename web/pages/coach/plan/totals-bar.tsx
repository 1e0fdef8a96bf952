import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { planWords } from '../../../../shared/messages/en/view/plan.ts';
import type { PlanLimits, PlanTotals } from '../../../../shared/schemas/coach/plan.ts';
import { METRES_PER_YARD } from '../../../../shared/units.ts';

const t = phrasesOf('plan', planWords);
const common = phrasesOf('common', commonWords);

interface TotalsBarProps {
  totals: PlanTotals | null;
  limits: PlanLimits | null;
  unit: 'yd' | 'm';
}

/** Running totals against the coach's limits; stays in sight while the sets change. */
export function TotalsBar({ totals, limits, unit }: TotalsBarProps) {
  const distance = (metres: number) => `${Math.round(unit === 'yd' ? metres / METRES_PER_YARD : metres)} ${unit}`;
  const most = limits?.speed_distance_max_m ?? null;
  const speed = totals?.speed_distance_m ?? 0;
  const minutes = totals?.minutes ?? 0;
  return (
    <dl class="totals" aria-live="polite">
      <Total
        label={t('full_speed')}
        shown={distance(speed)}
        value={speed}
        limit={most}
        limitShown={most === null ? '' : distance(most)}
      />
      <Total label={t('technique')} shown={distance(totals?.technique_distance_m ?? 0)} value={0} limit={null} />
      <Total label={common('repetitions_3')} shown={String(totals?.repetitions ?? 0)} value={0} limit={null} />
      <Total
        label={t('time_with_rests')}
        shown={`${Math.round(minutes)} min`}
        value={minutes}
        limit={limits?.session_max_min ?? null}
        limitShown={`${limits?.session_max_min ?? ''} min`}
      />
    </dl>
  );
}

interface TotalProps {
  label: string;
  shown: string;
  value: number;
  limit: number | null;
  limitShown?: string;
}

function Total({ label, shown, value, limit, limitShown }: TotalProps) {
  const over = limit !== null && value > limit + 0.01;
  return (
    <div class={over ? 'is-over' : undefined}>
      <dt>{label}</dt>
      <dd>
        <strong class="totals-shown">{shown}</strong>
        {/* A limit is said, not drawn as room to fill: nothing here asks for more. */}
        {limit !== null && <span class="quiet">{t('at_most', { limit_shown: limitShown ?? '' })}</span>}
      </dd>
    </div>
  );
}

import { phrasesOf } from '../../../app/language.ts';
import { planWords } from '../../../../shared/messages/en/view/plan.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../../shared/fault.ts';
import type { CoachSettings } from '../../../../shared/schemas/coach/coach-settings.ts';
import type { PlanLimits } from '../../../../shared/schemas/coach/plan.ts';
import { METRES_PER_YARD } from '../../../../shared/units.ts';
import { preferences } from '../../../app/preferences.ts';
import { faultOf } from '../../../client.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import { coachApi } from '../coach-api.ts';
import { NumberField } from '../parts/number-field.tsx';
import { Citation } from '../../../parts/citation.tsx';

const t = phrasesOf('plan', planWords);

type LimitName = keyof PlanLimits;
interface LimitLine {
  name: LimitName;
  label: string;
  unit: 'length' | 's' | 'min' | 'h' | '%' | 'days' | 'weeks' | '';
  whole?: boolean;
  min?: number;
}

const lines = (): LimitLine[] => [
  { name: 'speed_distance_max_m', label: t('full_speed_in_all_at'), unit: 'length' },
  { name: 'speed_repetition_max_m', label: t('speed_repetition_at_most'), unit: 'length' },
  { name: 'technique_repetition_max_m', label: t('technique_repetition_at_most'), unit: 'length' },
  { name: 'speed_repetitions_max', label: t('speed_repetitions_at_most'), unit: '', whole: true, min: 1 },
  { name: 'speed_rest_min_s', label: t('rest_at_full_speed_at'), unit: 's' },
  { name: 'flying_rest_min_s', label: t('rest_between_flying_sprints_at'), unit: 's' },
  { name: 'session_max_min', label: t('session_at_most'), unit: 'min', min: 1 },
  { name: 'speed_sessions_per_week_max', label: t('speed_sessions_in_7_days'), unit: '', whole: true, min: 1 },
  { name: 'hours_between_speed_sessions_min', label: t('between_speed_sessions_at_least'), unit: 'h' },
  { name: 'weekly_increase_max_percent', label: t('rise_from_week_to_week'), unit: '%' },
  { name: 'days_off_per_week_min', label: t('days_off_in_7_at'), unit: 'days', whole: true },
  { name: 'focus_weeks_min', label: t('one_focus_at_least'), unit: 'weeks', whole: true, min: 1 },
  { name: 'focus_weeks_max', label: t('one_focus_at_most'), unit: 'weeks', whole: true, min: 1 },
  { name: 'sprint_test_interval_days', label: t('sprint_test_every'), unit: 'days', whole: true, min: 1 },
];

interface LimitsEditorProps {
  settings: CoachSettings;
  defaults: CoachSettings;
  /** Where each default limit is from. */
  sources: Record<string, string>;
  onKept: (settings: CoachSettings) => void;
}

/** The coach's own limits and stop rule; an emptied field switches a limit off. Kept at once. */
export function LimitsEditor({ settings, defaults, sources, onKept }: LimitsEditorProps) {
  const [fault, setFault] = useState<Fault | null>(null);
  const keepAll = async (next: CoachSettings) => {
    setFault(null);
    onKept(next);
    try {
      onKept(await coachApi.setSettings(next));
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  const { plan_limits, stop_rule } = settings;
  const set = (name: LimitName, value: number | null) =>
    void keepAll({ ...settings, plan_limits: { ...plan_limits, [name]: value } });
  return (
    <details class="more">
      <summary>{t('your_limits_and_stop_rule')}</summary>
      <p>{t('each_is_from_a_published')}</p>
      {fault && <FaultBox fault={fault} />}
      <div class="field-grid">
        {lines().map(({ name, label, unit, whole, min }) => {
          const { factor, word } = lengthUnit(unit);
          const value = plan_limits[name];
          return (
            <NumberField
              key={name}
              label={`${label}${word ? `, ${word}` : ''}`}
              value={value === null ? null : Number((value / factor).toFixed(1))}
              min={min ?? 0}
              whole={whole}
              onChange={(shown) => set(name, shown * factor)}
              onEmpty={() => set(name, null)}
              help={
                value === null ? (
                  t('off')
                ) : value === defaults.plan_limits[name] ? (
                  <Citation>{sources[name] ?? ''}</Citation>
                ) : (
                  t('yours')
                )
              }
            />
          );
        })}
      </div>
      <h3>{t('think_of_stopping_after')}</h3>
      <div class="field-grid">
        <NumberField
          label={t('repetitions_in_a_row_beyond')}
          value={stop_rule.beyond_in_a_row}
          min={1}
          max={20}
          whole
          onChange={(value) => void keepAll({ ...settings, stop_rule: { ...stop_rule, beyond_in_a_row: value } })}
          onEmpty={() => void keepAll({ ...settings, stop_rule: { ...stop_rule, beyond_in_a_row: null } })}
          help={stop_rule.beyond_in_a_row === null ? t('off') : undefined}
        />
        <NumberField
          label={t('speed_below_the_days_best')}
          value={stop_rule.speed_loss_percent}
          min={0.5}
          max={50}
          onChange={(value) => void keepAll({ ...settings, stop_rule: { ...stop_rule, speed_loss_percent: value } })}
          onEmpty={() => void keepAll({ ...settings, stop_rule: { ...stop_rule, speed_loss_percent: null } })}
          help={stop_rule.speed_loss_percent === null ? t('off') : undefined}
        />
      </div>
      <p class="actions">
        <button
          type="button"
          onClick={() => {
            const before = settings;
            void keepAll(defaults);
            offerUndo(t('limits_set_back_to_the'), () => keepAll(before));
          }}
        >
          {t('back_to_the_published_limits')}
        </button>
      </p>
    </details>
  );
}

function lengthUnit(unit: LimitLine['unit']): { factor: number; word: string } {
  if (unit === 'days' || unit === 'weeks') return { factor: 1, word: t(unit) };
  if (unit !== 'length') return { factor: 1, word: unit };
  return preferences.value.length === 'm' ? { factor: 1, word: 'm' } : { factor: METRES_PER_YARD, word: 'yd' };
}

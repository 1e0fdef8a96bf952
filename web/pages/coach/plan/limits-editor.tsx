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

type LimitName = keyof PlanLimits;
interface LimitLine {
  name: LimitName;
  label: string;
  unit: 'length' | 's' | 'min' | 'h' | '%' | 'days' | 'weeks' | '';
  whole?: boolean;
  min?: number;
}

const LINES: LimitLine[] = [
  { name: 'speed_distance_max_m', label: 'Full speed in all, at most', unit: 'length' },
  { name: 'speed_repetition_max_m', label: 'Speed repetition, at most', unit: 'length' },
  { name: 'technique_repetition_max_m', label: 'Technique repetition, at most', unit: 'length' },
  { name: 'speed_repetitions_max', label: 'Speed repetitions, at most', unit: '', whole: true, min: 1 },
  { name: 'speed_rest_min_s', label: 'Rest at full speed, at least', unit: 's' },
  { name: 'flying_rest_min_s', label: 'Rest between flying sprints, at least', unit: 's' },
  { name: 'session_max_min', label: 'Session, at most', unit: 'min', min: 1 },
  { name: 'speed_sessions_per_week_max', label: 'Speed sessions in 7 days, at most', unit: '', whole: true, min: 1 },
  { name: 'hours_between_speed_sessions_min', label: 'Between speed sessions, at least', unit: 'h' },
  { name: 'weekly_increase_max_percent', label: 'Rise from week to week, at most', unit: '%' },
  { name: 'days_off_per_week_min', label: 'Days off in 7, at least', unit: 'days', whole: true },
  { name: 'focus_weeks_min', label: 'One focus, at least', unit: 'weeks', whole: true, min: 1 },
  { name: 'focus_weeks_max', label: 'One focus, at most', unit: 'weeks', whole: true, min: 1 },
  { name: 'sprint_test_interval_days', label: 'Sprint test every', unit: 'days', whole: true, min: 1 },
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
      <summary>Your limits and stop rule</summary>
      <p>
        Each is from a published source, named below it, or empty for you to fill. An emptied field switches a limit
        off. They warn; they forbid nothing.
      </p>
      {fault && <FaultBox fault={fault} />}
      <div class="field-grid">
        {LINES.map(({ name, label, unit, whole, min }) => {
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
              help={value === null ? 'off' : value === defaults.plan_limits[name] ? sources[name] : 'yours'}
            />
          );
        })}
      </div>
      <h3>Think of stopping after</h3>
      <div class="field-grid">
        <NumberField
          label="Repetitions in a row beyond normal"
          value={stop_rule.beyond_in_a_row}
          min={1}
          max={20}
          whole
          onChange={(value) => void keepAll({ ...settings, stop_rule: { ...stop_rule, beyond_in_a_row: value } })}
          onEmpty={() => void keepAll({ ...settings, stop_rule: { ...stop_rule, beyond_in_a_row: null } })}
          help={stop_rule.beyond_in_a_row === null ? 'off' : undefined}
        />
        <NumberField
          label="Speed below the day's best, %"
          value={stop_rule.speed_loss_percent}
          min={0.5}
          max={50}
          onChange={(value) => void keepAll({ ...settings, stop_rule: { ...stop_rule, speed_loss_percent: value } })}
          onEmpty={() => void keepAll({ ...settings, stop_rule: { ...stop_rule, speed_loss_percent: null } })}
          help={stop_rule.speed_loss_percent === null ? 'off' : undefined}
        />
      </div>
      <p class="actions">
        <button
          type="button"
          onClick={() => {
            const before = settings;
            void keepAll(defaults);
            offerUndo('Limits set back to the published ones', () => keepAll(before));
          }}
        >
          Back to the published limits
        </button>
      </p>
    </details>
  );
}

function lengthUnit(unit: LimitLine['unit']): { factor: number; word: string } {
  if (unit !== 'length') return { factor: 1, word: unit };
  return preferences.value.length === 'm' ? { factor: 1, word: 'm' } : { factor: METRES_PER_YARD, word: 'yd' };
}

import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { planWords } from '../../../../shared/messages/en/view/plan.ts';
import { SET_KINDS, type SetKind } from '../../../../shared/coach-words.ts';
import type { PlanSet } from '../../../../shared/schemas/coach/plan.ts';
import { METRES_PER_YARD } from '../../../../shared/units.ts';
import { START_STYLES, type StartStyle } from '../../../../shared/words.ts';
import { startStyleWords } from '../../../app/describe.ts';
import { SelectField } from '../../../parts/select-field.tsx';
import { NumberField } from '../parts/number-field.tsx';

const t = phrasesOf('plan', planWords);
const common = phrasesOf('common', commonWords);

const kindWords = (): Record<SetKind, string> => ({
  warm_up: t('warm_up'),
  technique: t('technique'),
  speed: t('speed'),
  sprint_test: t('sprint_test'),
});

interface SetRowProps {
  number: number;
  set: PlanSet;
  onChange: (set: PlanSet) => void;
  onDelete: () => void;
  onMove?: () => void;
}

/** One set of the plan; every number can be changed in place. */
export function SetRow({ number, set, onChange, onDelete, onMove }: SetRowProps) {
  const change = (part: Partial<PlanSet>) => onChange({ ...set, ...part });
  const factor = set.distance_unit === 'yd' ? METRES_PER_YARD : 1;
  const distance = set.distance_m / factor;
  return (
    <li class="plan-set">
      <h3>
        {t('set_at', {
          number,
          repetitions: set.repetitions,
          distance: Number(distance.toFixed(2)),
          distance_unit: set.distance_unit,
          effort_percent: set.effort_percent,
        })}
      </h3>
      <div class="plan-set-fields">
        <SelectField
          label={t('kind')}
          value={set.kind}
          options={SET_KINDS.map((kind) => ({ value: kind, label: kindWords()[kind] }))}
          onChange={(kind) => change({ kind })}
        />
        <NumberField
          label={common('repetitions_2')}
          value={set.repetitions}
          min={1}
          max={60}
          whole
          onChange={(repetitions) => change({ repetitions })}
        />
        <NumberField
          label={common('distance')}
          value={Number(distance.toFixed(2))}
          min={1}
          max={1000}
          onChange={(value) => change({ distance_m: value * factor })}
        />
        <SelectField
          label={common('unit')}
          value={set.distance_unit}
          options={[
            { value: 'yd', label: 'yd' },
            { value: 'm', label: 'm' },
          ]}
          onChange={(unit) =>
            change({ distance_unit: unit, distance_m: distance * (unit === 'yd' ? METRES_PER_YARD : 1) })
          }
        />
        <NumberField
          label={common('effort_2')}
          value={set.effort_percent}
          min={10}
          max={110}
          onChange={(effort_percent) => change({ effort_percent })}
        />
        <SelectField<StartStyle>
          label={common('start')}
          value={set.start_style}
          options={START_STYLES.map((style) => ({ value: style, label: startStyleWords(style) }))}
          onChange={(start_style) => change({ start_style })}
        />
        <NumberField
          label={t('rest_s')}
          value={set.rest_s}
          min={0}
          max={3600}
          onChange={(rest_s) => change({ rest_s })}
        />
        <label class="field plan-set-note">
          <span>{common('cue')}</span>
          <input
            type="text"
            value={set.note}
            maxLength={400}
            onInput={(event) => change({ note: event.currentTarget.value })}
          />
        </label>
      </div>
      <div class="actions">
        {onMove && (
          <button type="button" onClick={onMove}>
            {t('move_up')}
            <span class="visually-hidden">{t('set', { number })}</span>
          </button>
        )}
        <button type="button" onClick={onDelete}>
          {common('delete')}
          <span class="visually-hidden">{t('set', { number })}</span>
        </button>
      </div>
    </li>
  );
}

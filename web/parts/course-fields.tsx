import { phrasesOf } from '../app/language.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import { CLOCK_STARTS, type ClockStart, START_STYLES, TIMING_METHODS } from '../../shared/words.ts';
import { startStyleWords, timingMethodWords } from '../app/describe.ts';
import { LENGTH_UNITS } from '../app/preferences.ts';
import type { CourseDraft } from './course-draft.ts';
import { SelectField } from './select-field.tsx';
import { TextField } from './text-field.tsx';

const common = phrasesOf('common', commonWords);

const clockWords = (): Record<ClockStart, string> => ({
  first_movement: common('first_movement'),
  gun: common('gun_or_signal'),
  gate: common('first_gate'),
});

interface CourseFieldsProps {
  draft: CourseDraft;
  onChange: (draft: CourseDraft) => void;
}

/** Fields for course, effort and time. */
export function CourseFields({ draft, onChange }: CourseFieldsProps) {
  const set =
    <K extends keyof CourseDraft>(key: K) =>
    (value: CourseDraft[K]) =>
      onChange({ ...draft, [key]: value });
  return (
    <>
      <div class="field-grid course-grid">
        <div class="field-pair">
          <TextField label={common('course')} value={draft.distance} onChange={set('distance')} placeholder="40" />
          <SelectField
            label={common('unit')}
            value={draft.unit}
            options={LENGTH_UNITS.map((value) => ({ value, label: value }))}
            onChange={set('unit')}
          />
        </div>
        <TextField
          label={common('effort_2')}
          type="number"
          value={draft.effort}
          onChange={set('effort')}
          placeholder="100"
        />
        <TextField label={common('time_s')} value={draft.time} onChange={set('time')} placeholder="5.21" />
        <SelectField
          label={common('timed_by')}
          value={draft.method}
          options={[
            { value: '' as const, label: common('not_said') },
            ...TIMING_METHODS.map((value) => ({ value, label: timingMethodWords(value) })),
          ]}
          onChange={set('method')}
        />
      </div>
      <details class="more-fields">
        <summary>{common('start_clock_splits_treadmill')}</summary>
        <div class="field-grid">
          <SelectField
            label={common('start')}
            value={draft.start}
            options={[
              { value: '' as const, label: common('not_said') },
              ...START_STYLES.map((value) => ({ value, label: startStyleWords(value) })),
            ]}
            onChange={set('start')}
          />
          <SelectField
            label={common('clock_starts_with')}
            value={draft.clock}
            options={CLOCK_STARTS.map((value) => ({ value, label: clockWords()[value] }))}
            onChange={set('clock')}
          />
          <TextField
            label={common('splits')}
            value={draft.splits}
            onChange={set('splits')}
            placeholder="10m=1.95, 20m=3.21"
            help={common('distance_with_its_unit_seconds')}
          />
          <TextField
            label={common('belt_speed_m_s_treadmill')}
            value={draft.belt}
            onChange={set('belt')}
            placeholder="5.5"
          />
        </div>
      </details>
    </>
  );
}

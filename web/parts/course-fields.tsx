import { CLOCK_STARTS, type ClockStart, START_STYLES, TIMING_METHODS } from '../../shared/words.ts';
import { startStyleWords, timingMethodWords } from '../app/describe.ts';
import { LENGTH_UNITS } from '../app/preferences.ts';
import type { CourseDraft } from './course-draft.ts';
import { SelectField } from './select-field.tsx';
import { TextField } from './text-field.tsx';

const CLOCK_WORDS: Record<ClockStart, string> = {
  first_movement: 'first movement',
  gun: 'gun or signal',
  gate: 'first gate',
};

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
          <TextField label="Course" value={draft.distance} onChange={set('distance')} placeholder="40" />
          <SelectField
            label="Unit"
            value={draft.unit}
            options={LENGTH_UNITS.map((value) => ({ value, label: value }))}
            onChange={set('unit')}
          />
        </div>
        <TextField label="Effort, %" type="number" value={draft.effort} onChange={set('effort')} placeholder="100" />
        <TextField label="Time, s" value={draft.time} onChange={set('time')} placeholder="5.21" />
        <SelectField
          label="Timed by"
          value={draft.method}
          options={[
            { value: '' as const, label: 'not said' },
            ...TIMING_METHODS.map((value) => ({ value, label: timingMethodWords(value) })),
          ]}
          onChange={set('method')}
        />
      </div>
      <details class="more-fields">
        <summary>Start, clock, splits, treadmill</summary>
        <div class="field-grid">
          <SelectField
            label="Start"
            value={draft.start}
            options={[
              { value: '' as const, label: 'not said' },
              ...START_STYLES.map((value) => ({ value, label: startStyleWords(value) })),
            ]}
            onChange={set('start')}
          />
          <SelectField
            label="Clock starts with"
            value={draft.clock}
            options={CLOCK_STARTS.map((value) => ({ value, label: CLOCK_WORDS[value] }))}
            onChange={set('clock')}
          />
          <TextField
            label="Splits"
            value={draft.splits}
            onChange={set('splits')}
            placeholder="10m=1.95, 20m=3.21"
            help="distance with its unit = seconds"
          />
          <TextField label="Belt speed, m/s (treadmill)" value={draft.belt} onChange={set('belt')} placeholder="5.5" />
        </div>
      </details>
    </>
  );
}

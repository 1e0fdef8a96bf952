import type { Repetition, RepetitionChange } from '../../shared/schemas/repetition.ts';
import {
  CLOCK_STARTS,
  type ClockStart,
  START_STYLES,
  type StartStyle,
  TIMING_METHODS,
  type TimingMethod,
} from '../../shared/words.ts';
import { START_STYLE_WORDS, TIMING_METHOD_WORDS } from '../app/describe.ts';
import { formatCourse, metresFrom } from '../app/format.ts';
import { LENGTH_UNITS, type LengthUnit, preferences } from '../app/preferences.ts';
import { parseSplits } from '../../shared/quantity-text.ts';
import { FaultError } from '../../shared/fault.ts';
import { SelectField } from './select-field.tsx';
import { TextField } from './text-field.tsx';

/** What is typed about a repetition's course, as text. Empty means unknown. */
export interface CourseDraft {
  distance: string;
  unit: LengthUnit;
  effort: string;
  start: StartStyle | '';
  time: string;
  splits: string;
  method: TimingMethod | '';
  clock: ClockStart;
  belt: string;
}

export const EMPTY_COURSE: Omit<CourseDraft, 'unit'> = {
  distance: '',
  effort: '',
  start: '',
  time: '',
  splits: '',
  method: '',
  clock: 'first_movement',
  belt: '',
};

const CLOCK_WORDS: Record<ClockStart, string> = {
  first_movement: 'first movement',
  gun: 'gun or signal',
  gate: 'first gate',
};

const UNIT_WORDS: Record<LengthUnit, string> = { m: 'metres', yd: 'yards', ft: 'feet' };

export function draftOf(repetition: Repetition): CourseDraft {
  const [distance, unit] =
    repetition.course_distance_m === null
      ? ['', preferences.peek().length]
      : formatCourse(repetition.course_distance_m).split(' ');
  return {
    distance,
    unit: unit as LengthUnit,
    effort: repetition.effort_percent === null ? '' : String(repetition.effort_percent),
    start: repetition.start_style ?? '',
    time: repetition.course_time_s === null ? '' : String(repetition.course_time_s),
    splits: repetition.splits
      .map((split) => `${formatCourse(split.distance_m).replace(' ', '')}=${split.split_time_s}`)
      .join(', '),
    method: repetition.timing_method ?? '',
    clock: repetition.clock,
    belt: repetition.belt_speed_mps === null ? '' : String(repetition.belt_speed_mps),
  };
}

/**
 * The draft as a change of a repetition.
 * @throws FaultError OPTION_UNREADABLE for a number or split that cannot be read
 */
export function courseChange(draft: CourseDraft): RepetitionChange {
  const distance = readNumber(draft.distance, 'distance');
  return {
    course_distance_m: distance === null ? null : metresFrom(distance, draft.unit),
    effort_percent: readNumber(draft.effort, 'effort'),
    start_style: draft.start || null,
    course_time_s: readNumber(draft.time, 'time'),
    splits: parseSplits(draft.splits.split(',').filter((text) => text.trim() !== '')),
    timing_method: draft.method || null,
    clock: draft.clock,
    belt_speed_mps: readNumber(draft.belt, 'belt speed'),
  };
}

function readNumber(text: string, field: string): number | null {
  if (text.trim() === '') return null;
  const value = Number(text.replace(',', '.'));
  if (Number.isFinite(value)) return value;
  throw new FaultError({
    code: 'OPTION_UNREADABLE',
    message: `${field} is "${text}"; expected a number.`,
    where: { field },
    hint: 'Type digits with a point, such as 5.21.',
  });
}

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
      <div class="field-grid">
        <div class="field-pair">
          <TextField label="Course" value={draft.distance} onChange={set('distance')} placeholder="40" />
          <SelectField
            label="Unit"
            value={draft.unit}
            options={LENGTH_UNITS.map((value) => ({ value, label: UNIT_WORDS[value] }))}
            onChange={set('unit')}
          />
        </div>
        <TextField
          label="Effort, per cent"
          type="number"
          value={draft.effort}
          onChange={set('effort')}
          placeholder="100"
        />
        <TextField label="Time over the course, s" value={draft.time} onChange={set('time')} placeholder="5.21" />
        <SelectField
          label="Timed by"
          value={draft.method}
          options={[
            { value: '' as const, label: 'not said' },
            ...TIMING_METHODS.map((value) => ({ value, label: TIMING_METHOD_WORDS[value] })),
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
              ...START_STYLES.map((value) => ({ value, label: START_STYLE_WORDS[value] })),
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

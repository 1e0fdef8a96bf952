import { FaultError, fault } from '../../shared/fault.ts';
import { parseSplits } from '../../shared/quantity-text.ts';
import type { Repetition, RepetitionChange } from '../../shared/schemas/repetition.ts';
import type { ClockStart, StartStyle, TimingMethod } from '../../shared/words.ts';
import { formatCourse, metresFrom } from '../app/format.ts';
import { type LengthUnit, preferences } from '../app/preferences.ts';

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
    time: repetition.course_time_s === null ? '' : timeText(repetition.course_time_s),
    splits: repetition.splits
      .map((split) => `${formatCourse(split.distance_m).replace(' ', '')}=${split.split_time_s}`)
      .join(', '),
    method: repetition.timing_method ?? '',
    clock: repetition.clock,
    belt: repetition.belt_speed_mps === null ? '' : String(repetition.belt_speed_mps),
  };
}

/** At least hundredths, as a time is read; a time in thousandths keeps them. */
function timeText(seconds: number): string {
  const hundredths = seconds.toFixed(2);
  return Number(hundredths) === seconds ? hundredths : String(seconds);
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
    splits: parseSplits(splitTexts(draft.splits)),
    timing_method: draft.method || null,
    clock: draft.clock,
    belt_speed_mps: readNumber(draft.belt, 'belt speed'),
  };
}

function readNumber(text: string, field: string): number | null {
  if (text.trim() === '') return null;
  const value = Number(text.replace(',', '.'));
  if (Number.isFinite(value)) return value;
  throw new FaultError(fault('OPTION_UNREADABLE.number', { field, text }, { field }));
}

/** Splits as typed, `10m=1.95, 20m=3.21`, one text each with its time's unit. */
export function splitTexts(text: string): string[] {
  return text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map((part) => (/\d$/.test(part) ? `${part}s` : part));
}

import { parseDistance } from '../../shared/course-text.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import { parseSpeed, parseSplits, parseTime, parseWind } from '../../shared/quantity-text.ts';
import type { ImportFields } from '../../shared/schemas/import.ts';
import type { RepetitionChange } from '../../shared/schemas/repetition.ts';
import { CLOCK_STARTS, START_STYLES, TIMING_METHODS } from '../../shared/words.ts';

/** What an import's form says about the repetition, with its quantities read. @throws FaultError OPTION_UNREADABLE */
export function repetitionFieldsOf(form: ImportFields): RepetitionChange {
  const fields: RepetitionChange = {
    effort_percent: form.effort_percent,
    course_distance_m: form.course === undefined ? undefined : parseDistance(form.course),
    course_time_s: form.time === undefined ? undefined : parseTime(form.time),
    splits: form.splits === undefined ? undefined : parseSplits(form.splits.split(',').filter((text) => text.trim())),
    belt_speed_mps: form.belt_speed === undefined ? undefined : parseSpeed(form.belt_speed),
    wind_mps: form.wind === undefined ? undefined : parseWind(form.wind),
    clock: form.clock === undefined ? undefined : oneOf(CLOCK_STARTS, form.clock, 'clock'),
    timing_method:
      form.timing_method === undefined ? undefined : oneOf(TIMING_METHODS, form.timing_method, 'timing_method'),
    start_style: form.start_style === undefined ? undefined : oneOf(START_STYLES, form.start_style, 'start_style'),
    set_number: form.set_number,
    order_number: form.order_number,
    surface: form.surface,
    footwear: form.footwear,
    notes: form.notes,
  };
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as RepetitionChange;
}

function oneOf<const Word extends string>(words: readonly Word[], text: string, field: string): Word {
  const word = words.find((candidate) => candidate === text);
  if (word) return word;
  throw new FaultError(fault('OPTION_UNREADABLE.word', { field, text, words: [...words] }, { field, value: text }));
}

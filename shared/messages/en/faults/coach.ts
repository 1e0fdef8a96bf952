import type { FaultRoom } from '../../sentence.ts';

/** What is wrong with what a coach enters or asks for. */
export const coachFaults = {
  'COACH_RECORD_NOT_FOUND.athlete_measures': missing('measure'),
  'COACH_RECORD_NOT_FOUND.athlete_focuses': missing('focus of an athlete'),
  'COACH_RECORD_NOT_FOUND.coach_focuses': missing('focus of your own'),
  'COACH_RECORD_NOT_FOUND.sprint_tests': missing('sprint test'),
  'COACH_RECORD_NOT_FOUND.strength_records': missing('strength record'),
  FOCUS_QUANTITY_UNKNOWN: {
    message: ({ quantity }: { quantity: string }) =>
      `"${quantity}" is no quantity that is measured here. Nothing was stored.`,
    hint: 'Use the name of a column of steps.csv, or a quantity of the Over time page.',
  },
  RATING_ASPECT_UNKNOWN: {
    message: ({ aspect, known }: { aspect: string; known: readonly string[] }, say) =>
      `"${aspect}" cannot be rated; it must be a focus or one of ${say.list(known, 'or')}. Nothing was stored.`,
    hint: 'The focuses are listed at /api/coach/focuses.',
  },
  PHOTO_UNREADABLE: {
    message: ({ bytes }: { bytes: number }) =>
      `The file of ${bytes} bytes is no JPEG, PNG or WebP picture. Nothing was stored.`,
    hint: 'Send the photograph as your device takes it, as JPEG, PNG or WebP.',
  },
  PHOTO_NOT_FOUND: {
    message: ({ repetition_id, aspect }: { repetition_id: number; aspect: string }) =>
      `Repetition ${repetition_id} has no photograph beside "${aspect}".`,
    hint: 'The ratings of the repetition say which have one.',
  },
  'REPORT_EMPTY.repetition': {
    message: ({ repetition_id }: { repetition_id: number }) => `Repetition ${repetition_id} has no result yet.`,
    hint: 'Choose another repetition, session or month; a report needs at least one analysed repetition or a sprint test.',
  },
  'REPORT_EMPTY.session': {
    message: ({ athlete }: { athlete: string }) => `${athlete} has no analysed repetition in this session.`,
    hint: 'Choose another repetition, session or month; a report needs at least one analysed repetition or a sprint test.',
  },
  'REPORT_EMPTY.month': {
    message: ({ athlete, date }: { athlete: string; date: string }, say) =>
      `Nothing was measured or tested with ${athlete} up to ${say.day(date)}.`,
    hint: 'Choose another repetition, session or month; a report needs at least one analysed repetition or a sprint test.',
  },
  FOCUS_UNKNOWN: {
    message: ({ focus, known }: { focus: string; known: readonly string[] }, say) =>
      `focus is "${focus}"; it must be one of ${say.list(known, 'or')}. Nothing was stored.`,
    hint: 'The focuses are listed at /api/coach/focuses.',
  },
  WATCH_COUNT: {
    message: ({ count }: { count: number }) =>
      `watches_s holds ${count} readings; one, two or three are allowed. Nothing was stored.`,
    hint: 'Enter the readings of at most three watches.',
  },
  SPRINT_TIME_MISSING: {
    message: 'The test has neither a time nor a reading of a watch. Nothing was stored.',
    hint: (_: object, say) => `Enter the time in seconds, such as ${say.number(5.21, 2)}.`,
  },
  SPLITS_NOT_RISING: {
    message: (
      {
        split_s,
        split_m,
        before_s,
        before_m,
        finish_s,
        finish_m,
      }: {
        split_s: number;
        split_m: number;
        before_s: number;
        before_m: number;
        finish_s: number;
        finish_m: number;
      },
      say,
    ) =>
      `The split of ${say.number(split_s)} s at ${say.number(split_m, 2)} m must come after ${say.number(before_s)} s at ${say.number(before_m, 2)} m and not after the finish (${say.number(finish_s)} s at ${say.number(finish_m, 2)} m). Nothing was stored.`,
    hint: 'Splits run from the start, each later and further than the one before.',
  },
  ERASE_NAME_DIFFERS: {
    message: ({ typed, name }: { typed: string; name: string }) =>
      `The name typed is "${typed}", the athlete's is "${name}". Nothing was erased.`,
    hint: 'Type the name exactly as it is shown. Erasing cannot be undone; deleting can.',
  },
} as const satisfies FaultRoom;

function missing(what: string) {
  return {
    message: ({ id }: { id: number }) => `There is no ${what} ${id}.`,
    hint: 'It may have been deleted; a deletion can be undone.',
  };
}

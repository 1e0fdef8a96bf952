import type { FaultRoom } from '../../sentence.ts';

/** Comparing with a reference, and studies of repeatability. */
export const agreementFaults = {
  'OPTION_UNREADABLE.repeatable_quantity': {
    message: ({ quantity, known }: { quantity: string; known: readonly string[] }, say) =>
      `quantity is "${quantity}"; it must be one of ${say.list(known, 'or')}. Nothing was done.`,
    hint: 'These are kept as means of every repetition.',
  },
  'EXPORT_EMPTY.repeatability': {
    message: ({ athletes }: { athletes: number }, say) =>
      `${athletes} ${say.plural(athletes, { one: 'athlete has', other: 'athletes have' })} two sessions or more in this selection; a repeatability study needs two such athletes. Nothing was compared.`,
    hint: 'Widen the dates, the efforts or the course.',
  },
  'REFERENCE_UNREADABLE.header': unreadable(
    ({ header }: { header: string }) => `the header is "${header}"; expected a column touchdown_s`,
  ),
  'REFERENCE_UNREADABLE.empty': unreadable(
    ({ column }: { column: string }) => `${column} is empty; expected a number of seconds`,
  ),
  'REFERENCE_UNREADABLE.no_number': unreadable(
    ({ column, found }: { column: string; found: string }) => `${column} is "${found}"; expected a number`,
  ),
  'REFERENCE_UNREADABLE.side': unreadable(
    ({ found }: { found: string }) => `side is "${found}"; expected left, right or unknown`,
  ),
  'REFERENCE_UNREADABLE.no_rows': unreadable((_: object) => 'there are no rows; expected a row a contact'),
  'FILE_NOT_FOUND.of_study': {
    message: ({ file }: { file: string }) => `${file}: is not there or cannot be opened. The study was not made.`,
    hint: 'File names in a list are relative to the list.',
  },
  'LIST_UNREADABLE.no_rows': unreadableList((_: object) => 'the list has no rows'),
  'LIST_UNREADABLE.mount': unreadableList(
    ({ found, known }: { found: string; known: readonly string[] }) =>
      `mount is "${found}"; it must be ${known.join(' or ')}`,
  ),
  'LIST_UNREADABLE.no_sensor': unreadableList((_: object) => 'neither left nor right names a file'),
  'LIST_UNREADABLE.no_reference': unreadableList((_: object) => 'reference names no file'),
  'LIST_UNREADABLE.no_repetition': unreadableList(
    ({ found }: { found: string }) =>
      `repetition is "${found}"; it must be the identifier of a repetition in the archive`,
  ),
  'LIST_UNREADABLE.repetition_twice': unreadableList(
    ({ found }: { found: string }) => `repetition ${found} stands in the list twice`,
  ),
  'REFERENCE_NOT_ALIGNED.few': {
    message: ({ recording, matched, of }: { recording: string; matched: number; of: number }) =>
      `${recording}: at best ${matched} of ${of} reference contacts fall on contacts of the sensors; most must. The clocks were not put together.`,
    hint: 'Give the reference on the clock of the sensor file, or with more steps, or with the start of the repetition.',
  },
  'REFERENCE_NOT_ALIGNED.two_places': {
    message: ({ recording, apart_s }: { recording: string; apart_s: number }, say) =>
      `${recording}: the reference fits in two places, ${say.number(apart_s, 2)} s apart. The clocks were not put together.`,
    hint: 'Give the reference on the clock of the sensor file, or with more steps, or with the start of the repetition.',
  },
} as const satisfies FaultRoom;

type Line = { file: string; line: number };

function unreadable<V extends object>(found: (values: V) => string) {
  return {
    message: ({ file, line, ...values }: Line & V) =>
      `${file}, line ${line}: ${found(values as unknown as V)}. The reference was not used.`,
    hint: 'Columns: side, touchdown_s, toe_off_s, step_length_m; a row a contact, seconds on one clock.',
  };
}

function unreadableList<V extends object>(found: (values: V) => string) {
  return {
    message: ({ file, line, ...values }: Line & V) =>
      `${file}, line ${line}: ${found(values as unknown as V)}. The study was not made.`,
    hint: 'Columns: athlete, left, right, mount, reference; and if wanted recording, belt_speed, course, time.',
  };
}

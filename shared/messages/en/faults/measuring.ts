import type { FaultRoom } from '../../sentence.ts';

/** Work on recordings: imports, analyses and their settings. */
export const measuringFaults = {
  REPETITION_NOT_RECORDED: {
    message: ({ repetition_id }: { repetition_id: number }) =>
      `Repetition ${repetition_id} has no recording, so there is nothing to analyse.`,
    hint: 'Import its sensor files first.',
  },
  'INTERNAL.analysis': {
    message: ({ why }: { why: string }) =>
      `The program failed at this recording: ${why}. The raw files are kept; nothing else was stored.`,
    hint: 'This is a fault of the program; the raw files can be analysed again after an update.',
  },
  TASK_CANCELLED: {
    message: 'The work was cancelled before it was done. Raw files that had arrived are kept; nothing else was stored.',
    hint: 'Start it again when you like.',
  },
  TASK_TOO_LONG: {
    message: ({ limit_s }: { limit_s: number }, say) =>
      `The work was ended after ${say.number(limit_s)} s, far longer than files of this size take. Raw files are kept; nothing else was stored.`,
    hint: 'Look at the file in an editor: is it the recording that the sensor wrote? If it is, the file shows a fault of the program worth reporting.',
  },
  IMPORT_GIVEN_UP: {
    message: ({ tries }: { tries: number }) =>
      `The program ended ${tries} times while it worked on these files, so they are not begun again by themselves. The files are kept.`,
    hint: 'Look at the files; the import can be started again by hand.',
  },
  SERVER_BUSY: {
    message: ({ waiting }: { waiting: number }) => `${waiting} such tasks wait already; this one was not taken.`,
    hint: 'Try again in a minute.',
  },
  'UPLOAD_TOO_LARGE.unpacked': {
    message: ({ file, packed, unpacked }: { file: string; packed: number; unpacked: number }, say) =>
      `${file}: unpacks to more than ${say.number(unpacked)} bytes from ${say.number(packed)}; no recording does. The file was refused.`,
    hint: 'Unpack the file and look at what it holds.',
  },
  WORKER_FAILED: {
    message: ({ why }: { why: string }) =>
      `The analysis thread stopped (${why}). The raw files are kept; nothing else was stored.`,
    hint: 'Try again; if it stops at the same file, that file shows a fault of the program worth reporting.',
  },
  TIME_OF_SEVERAL_REPETITIONS: {
    message: ({ found }: { found: number }) =>
      `The recording holds ${found} repetitions but one time was given; a time belongs to one repetition. It was left out.`,
    hint: 'Give each repetition its own time; it is then analysed again with it.',
  },
  'INTERNAL.import': {
    message: ({ why }: { why: string }) => `The import could not be stored: ${why}. The raw files are kept.`,
    hint: 'Try it again; the files need not be sent anew.',
  },
  'OPTION_UNREADABLE.word': {
    message: ({ field, text, words }: { field: string; text: string; words: string[] }) =>
      `${field} is "${text}"; it must be one of ${words.join(', ')}.`,
    hint: 'Use one of the words listed.',
  },
  SETTINGS_UNREADABLE: {
    message: ({ file, path, found, expected }: { file: string; path: string; found: string; expected: string }) =>
      `${file}, setting "${path || '(whole)'}": found ${found}, expected ${expected}. Nothing was analysed.`,
    hint: 'Name only the settings you change; dsp/settings/settings.ts lists all of them with their defaults.',
  },
  TOO_MANY_SENSORS: {
    message: ({ files, n }: { files: string; n: number }) =>
      `${files}: found ${n} sensors; an analysis takes one, or one on each side. Nothing was analysed.`,
    hint: 'Name in a layout which columns belong to the left and the right sensor.',
  },
  SIDES_UNCLEAR: {
    message: ({ files, first, second }: { files: string; first: string; second: string }) =>
      `${files}: found two sensors with sides "${first}" and "${second}"; expected one left and one right. Nothing was analysed.`,
    hint: 'Give each file as left or right, or name the sides in a layout.',
  },
  'NO_SAMPLES.in_file': {
    message: ({ file }: { file: string }) => `${file}: found no samples. Nothing was analysed.`,
    hint: 'Check that the logger wrote data and that the file was copied whole.',
  },
  'RECORDING_NOT_FOUND.of_side': {
    message: ({ repetition_id, side }: { repetition_id: number; side: string }) =>
      `Repetition ${repetition_id} has no recording of side "${side}".`,
    hint: 'The sides it has are listed with the repetition.',
  },
  LONG_RUN_CUT: {
    message: ({ at_s }: { at_s: number }, say) =>
      `The recording is long and goes on running through ${say.number(at_s, 1)} s, where it was cut for the analysis; the steps across the cut are missing.`,
    hint: 'Cut the file at a rest where every step matters.',
  },
} as const satisfies FaultRoom;

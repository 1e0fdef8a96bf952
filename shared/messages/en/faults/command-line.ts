import type { FaultRoom } from '../../sentence.ts';

/** The command line. */
export const commandLineFaults = {
  'OPTION_MISSING.course': {
    message: '--time is given without --course; a time needs its distance. Nothing was done.',
    hint: 'Add --course, such as --course 40yd.',
  },
  'OPTION_MISSING.files': {
    message: 'None of --left, --right and --file is given. Nothing was done.',
    hint: 'Name at least one sensor file; --file takes one that holds both feet.',
  },
  'OPTION_UNREADABLE.both_feet': {
    message: '--file holds both feet, yet --left or --right is given as well. Nothing was done.',
    hint: 'Give --file alone, or --left and --right.',
  },
  'FILE_NOT_FOUND.to_back_up': {
    message: ({ file }: { file: string }) => `${file}: there is no database to back up. Nothing was written.`,
    hint: 'Name its folder with --data.',
  },
  BACKUP_FAILED: {
    message: ({ file, why }: { file: string; why: string }) =>
      `${file}: the backup was not made (${why}). An older copy is untouched.`,
    hint: 'Check that there is room and that the folder may be written to.',
  },
  'FILE_NOT_FOUND.to_restore': {
    message: ({ file }: { file: string }) => `${file}: there is no backup of this name. The database is as it was.`,
    hint: 'Name the file with --from.',
  },
  'FILE_NOT_FOUND.passphrase': {
    message: ({ file }: { file: string }) => `${file}: the passphrase cannot be read. Nothing was done.`,
    hint: 'Name a file whose first line is the passphrase.',
  },
  'OPTION_UNREADABLE.passphrase': {
    message: ({ shortest }: { shortest: number }) =>
      `The passphrase is shorter than ${shortest} characters; it could be guessed. Nothing was done.`,
    hint: 'Four or five words picked at random are easy to keep and hard to guess.',
  },
  'OPTION_UNREADABLE.whole_number': {
    message: ({ option, text }: { option: string; text: string }) =>
      `${option} is "${text}"; it must be a whole number from 1 to 10000. Nothing was done.`,
    hint: 'Leave it out for the usual value.',
  },
  RESTORE_FAILED: {
    message: ({ file, why }: { file: string; why: string }) =>
      `${file}: the backup was not restored (${why}). The database is as it was.`,
    hint: 'Try another backup; a sealed one needs the passphrase that it was made with.',
  },
  'FILE_NOT_FOUND.to_export': {
    message: ({ file }: { file: string }) => `${file}: there is no database to export from. Nothing was written.`,
    hint: 'Name its folder with --data.',
  },
  'OPTION_UNREADABLE.identifier': {
    message: ({ option, word }: { option: string; word: string }) =>
      `${option} is "${word}"; it must be a number. Nothing was done.`,
    hint: 'Identifiers are shown in the addresses of the view, such as #/athletes/3.',
  },
  'FILE_NOT_FOUND.folder': {
    message: ({ folder, why }: { folder: string; why: string }) => `${folder}: ${why}. Nothing was done.`,
    hint: 'Name the folder that the recordings lie in; folders within it are not looked into.',
  },
  'FILE_NOT_FOUND.list': {
    message: ({ file }: { file: string }) => `${file}: is not there or cannot be opened. Nothing was done.`,
    hint: 'Check the spelling and the folder you are in.',
  },
  LIST_UNREADABLE: {
    message: ({ file, line, why }: { file: string; line: number; why: string }) =>
      `${file}, line ${line}: ${why}. Nothing was imported.`,
    hint: 'cinderlane import --help names the columns.',
  },
  'FILE_NOT_FOUND.of_import': {
    message: ({ file }: { file: string }) => `${file}: is not there or cannot be opened.`,
    hint: 'Check the spelling and the folder you are in.',
  },
  'OPTION_MISSING.of_import': {
    message: ({ option }: { option: string }) => `cinderlane import: ${option} is missing. Nothing was done.`,
    hint: 'cinderlane import --help lists the options.',
  },
  'OPTION_UNREADABLE.point': {
    message: ({ text }: { text: string }) =>
      `--point is "${text}"; it must be the name of a tracked point and its side, such as sensor3=left. Nothing was done.`,
    hint: 'Give it once for each side.',
  },
  'OPTION_UNREADABLE.parallel': {
    message: ({ text }: { text: string }) =>
      `--parallel is "${text}"; it must be a whole number from 1 to 256. Nothing was done.`,
    hint: 'Leave it out for as many as there are processors.',
  },
  JSON_UNREADABLE: {
    message: ({ file, why }: { file: string; why: string }) => `${file}: is not JSON (${why}). Nothing was done.`,
    hint: 'Check commas, quotes and brackets near that place.',
  },
  FILE_NOT_FOUND: {
    message: ({ file, why }: { file: string; why: string }) => `${file}: ${why}. Nothing was done.`,
    hint: 'Check the spelling and the folder you are in.',
  },
  COMMAND_UNKNOWN: {
    message: ({ word }: { word: string }) => `There is no command "${word}". Nothing was done.`,
    hint: ({ commands }: { commands: readonly string[] }) =>
      `Commands: ${commands.join(', ')}. cinderlane --help says more.`,
  },
  'ATHLETE_NOT_FOUND.by_name': {
    message: ({ name }: { name: string }) => `There is no athlete named "${name}". Nothing was done.`,
    hint: 'Names are written as they are shown, in upper and lower case.',
  },
  OUTPUT_NOT_WRITABLE: {
    message: ({ folder, why }: { folder: string; why: string }) =>
      `${folder}: the results could not be written (${why}).`,
    hint: 'Check that the folder may be written to and that there is room.',
  },
  'OPTION_UNKNOWN.operand': {
    message: ({ command, word }: { command: string; word: string }) =>
      `cinderlane ${command}: "${word}" is not expected here. Nothing was done.`,
    hint: ({ command }: { command: string }) => `cinderlane ${command} --help lists the options.`,
  },
  'OPTION_UNKNOWN.option': {
    message: ({ command, option }: { command: string; option: string }) =>
      `cinderlane ${command}: there is no option ${option}. Nothing was done.`,
    hint: ({ command }: { command: string }) => `cinderlane ${command} --help lists the options.`,
  },
  'OPTION_MISSING.option': {
    message: ({ command, option }: { command: string; option: string }) =>
      `cinderlane ${command}: ${option} is missing. Nothing was done.`,
    hint: ({ command }: { command: string }) => `cinderlane ${command} --help lists the options.`,
  },
  'OPTION_MISSING.value': {
    message: ({ command, option, value }: { command: string; option: string; value: string }) =>
      `cinderlane ${command}: ${option} needs a value ${value}. Nothing was done.`,
    hint: ({ command }: { command: string }) => `cinderlane ${command} --help lists the options.`,
  },
  'OPTION_UNREADABLE.no_value': {
    message: ({ command, option }: { command: string; option: string }) =>
      `cinderlane ${command}: ${option} takes no value. Nothing was done.`,
    hint: ({ command }: { command: string }) => `cinderlane ${command} --help lists the options.`,
  },
  'OPTION_UNREADABLE.choice': {
    message: (
      { command, option, value, words }: { command: string; option: string; value: string; words: string[] },
      say,
    ) => `cinderlane ${command}: ${option} is "${value}"; it must be ${say.list(words, 'or')}. Nothing was done.`,
    hint: ({ command }: { command: string }) => `cinderlane ${command} --help lists the options.`,
  },
  'OPTION_UNREADABLE.twice': {
    message: ({ command, option }: { command: string; option: string }) =>
      `cinderlane ${command}: ${option} is given twice; it counts once. Nothing was done.`,
    hint: ({ command }: { command: string }) => `cinderlane ${command} --help lists the options.`,
  },
} as const satisfies FaultRoom;

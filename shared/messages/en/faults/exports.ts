import type { FaultRoom } from '../../sentence.ts';

/** Exports for research, and data sets read back. */
export const exportFaults = {
  FOLDER_NOT_EMPTY: {
    message: ({ folder }: { folder: string }) =>
      `${folder} holds files already; an export needs a folder that is new or empty. Nothing was written.`,
    hint: 'Name another folder, or empty this one.',
  },
  'EXPORT_EMPTY.selection': {
    message: 'No analysed repetition fits this selection. Nothing was exported.',
    hint: 'Widen the dates, the efforts or the athletes.',
  },
  'EXPORT_EMPTY.no_consent': {
    message: ({ found, athletes }: { found: number; athletes: number }) =>
      `${found} repetitions fit, but none of their ${athletes} athletes has given consent to use in research. Nothing was exported.`,
    hint: 'Record the consent first, on the export page.',
  },
  'FIGURE_EMPTY.study': {
    message: ({ quantity }: { quantity: string }) =>
      `The comparison holds no "${quantity}", so there is no figure of it.`,
    hint: 'Name a quantity as the comparison lists it; fewer than three pairs are not compared.',
  },
  'FIGURE_EMPTY.course': {
    message: ({ quantity }: { quantity: string }) =>
      `There are no sessions with "${quantity}" at this effort and course, so there is no figure of it.`,
    hint: 'The page of the course lists the quantities and conditions that were measured.',
  },
  'FIGURE_EMPTY.repetition': {
    message: ({ quantity, by }: { quantity: string; by: string }) =>
      `This repetition holds no ${quantity} by ${by}, so there is no figure of it.`,
    hint: 'The reasons stand on its page; by step more is known than by distance.',
  },
  EXPORT_NOT_FOUND: {
    message: ({ export_id }: { export_id: number }) => `There is no export ${export_id}.`,
    hint: 'The export page lists those that were made.',
  },
  'DATASET_UNREADABLE.missing': unreadable((_: object) => 'the file is missing'),
  'DATASET_UNREADABLE.no_description': unreadable(
    (_: object) => 'there is no dataset_description.json, so this is no BIDS data set',
  ),
  'DATASET_UNREADABLE.no_motion': unreadable((_: object) => 'there are no *_motion.tsv files'),
  'DATASET_UNREADABLE.no_acceleration': unreadable((_: object) => 'the channels file names no three ACCEL channels'),
  'DATASET_UNREADABLE.no_rate': unreadable((_: object) => 'the sidecar has no sampling frequency'),
  'DATASET_UNREADABLE.no_object': unreadable((_: object) => 'it is no JSON object'),
  'DATASET_UNREADABLE.columns': unreadable(
    ({ line, found, expected }: { line: number; found: number; expected: number }) =>
      `line ${line} has ${found} columns; its channels file names ${expected}`,
  ),
  'DATASET_UNREADABLE.no_derivatives': unreadable((_: object) => 'there are no derivatives to compare with'),
  'DATASET_UNREADABLE.not_inertial': leftOut('its channels file names no ACCEL channel, so it is no inertial sensor'),
  'DATASET_UNREADABLE.another_system': leftOut(
    'another system of this run measures the same side, or sits nearer to the foot, and was read',
  ),
  TRACKED_POINTS_LEFT: {
    message: ({ file, read, others }: { file: string; read: readonly string[]; others: readonly string[] }) =>
      `${file}: ${read.join(' and ')} read; tracked as well, and left out: ${others.join(', ')}.`,
    hint: 'Choose others with --point NAME=left --point NAME=right, and --mount foot or shank.',
  },
  'DATASET_UNREADABLE.none_inertial': unreadable((_: object) => 'no tracking system has an ACCEL channel'),
  'DATASET_UNREADABLE.points': {
    message: ({ file, points }: { file: string; points: string }) =>
      `${file}: its tracked points are ${points}, of which none is named as a foot or shank. The data set was not read further.`,
    hint: 'Say which to read: --point NAME=left --point NAME=right, and --mount foot or shank.',
  },
  'DATASET_UNREADABLE.unit': unreadable(
    ({ channel, unit }: { channel: string; unit: string }) =>
      `its channels file gives ${channel} in "${unit}", which is no unit of it`,
  ),
  'DATASET_UNREADABLE.no_raw': unreadable((_: object) => 'the raw signals are missing'),
} as const satisfies FaultRoom;

function unreadable<V extends object>(found: (values: V) => string) {
  return {
    message: ({ file, ...values }: { file: string } & V) =>
      `${file}: ${found(values as unknown as V)}. The data set was not read further.`,
    hint: 'Check that the data set was copied whole.',
  };
}

function leftOut(why: string) {
  return {
    message: ({ file }: { file: string }) => `${file}: ${why}. It was left out.`,
    hint: 'If it is to be read instead, name its points with --point NAME=left and --point NAME=right.',
  };
}

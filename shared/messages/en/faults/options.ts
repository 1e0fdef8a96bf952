import type { FaultRoom } from '../../sentence.ts';

/** Quantities, distances and options as people type them. */
export const optionFaults = {
  DISTANCE_UNREADABLE: {
    message: ({ text }: { text: string }) =>
      `distance "${text}" is not readable; expected a positive number with its unit, such as 40yd or 36.576m.`,
    hint: 'Write the unit: m, km, yd or ft.',
  },
  'OPTION_UNREADABLE.quantity': {
    message: ({ field, text, example }: { field: string; text: string; example: string }) =>
      `${field} "${text}" is not readable; expected a number with its unit, such as ${example}.`,
    hint: ({ units }: { units: string[] }) => `Units understood: ${units.join(', ')}.`,
  },
  'OPTION_UNREADABLE.not_positive': {
    message: ({ field, text }: { field: string; text: string }) => `${field} "${text}" is not above zero.`,
    hint: 'Give a positive value.',
  },
  'OPTION_UNREADABLE.split': {
    message: ({ text }: { text: string }) =>
      `split "${text}" is not readable; expected distance=time, such as 10m=2.103s.`,
    hint: 'Give each split by itself, with both units.',
  },
  'OPTION_UNREADABLE.splits_order': {
    message: (
      { near_m, near_s, far_m, far_s }: { near_m: number; near_s: number; far_m: number; far_s: number },
      say,
    ) =>
      `splits ${say.number(near_m)} m = ${say.number(near_s)} s and ${say.number(far_m)} m = ${say.number(far_s)} s do not go forward; each later distance needs a later time.`,
    hint: 'All splits run from the same start, not from the split before.',
  },
  'OPTION_UNREADABLE.number': {
    message: ({ field, text }: { field: string; text: string }) => `${field} is "${text}"; expected a number.`,
    hint: 'Type digits with a point, such as 5.21.',
  },
} as const satisfies FaultRoom;

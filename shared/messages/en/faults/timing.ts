import type { Reason } from '../../../reason-shape.ts';
import type { FaultRoom } from '../../sentence.ts';

type One = { athlete: string | null; repetition: number | string | null };
const who = ({ athlete, repetition }: One): string =>
  `${athlete ?? 'unknown athlete'}, repetition ${repetition ?? '?'}`;

/** Files of times by photocells, guns and hands. */
export const timingFaults = {
  'ROWS_SET_ASIDE.times': {
    message: (
      {
        file,
        count,
        line,
        column,
        found,
        expected,
      }: { file: string; count: number; line: number; column: string | null; found: Reason; expected: Reason },
      say,
    ) =>
      `${file}: ${count} ${say.plural(count, { one: 'time', other: 'times' })} set aside (first: line ${line}, column "${column}": found ${say.because(found)}, expected ${say.because(expected)}).`,
    hint: 'Correct the file and read it again; nothing was filled in.',
  },
  TIME_IMPLAUSIBLE: {
    message: (
      {
        file,
        count,
        line,
        as_written,
        distance_m,
        mps,
        least_mps,
        most_mps,
      }: {
        file: string;
        count: number;
        line: number;
        as_written: string;
        distance_m: number;
        mps: number;
        least_mps: number;
        most_mps: number;
      },
      say,
    ) =>
      `${file}: ${count} ${say.plural(count, { one: 'time', other: 'times' })} that nobody sprints (first: line ${line}: found ${as_written} for ${say.number(distance_m)} m, ${say.number(mps, 1)} m/s on average; expected ${say.number(least_mps)} to ${say.number(most_mps)} m/s).`,
    hint: 'Look for a slipped decimal, another unit, or times between gates (name the column "interval" then).',
  },
  TIMING_METHOD_UNKNOWN: {
    message: ({ file, unknown, of }: { file: string; unknown: number; of: number }, say) =>
      `${file}: ${unknown} of ${of} times do not tell how they were taken; hand and electronic times differ by ${say.number(0.2, 1)} to ${say.number(0.3, 1)} s, so they were not compared with others.`,
    hint: 'Add a column "method": hand, beam, touch pad, photo finish.',
  },
  TIMING_METHODS_MIXED: {
    message: ({ file, ...one }: One & { file: string }) =>
      `${file}: ${who(one)}: hand times and electronic times in one repetition; they are kept apart and never mixed.`,
    hint: 'Times of one method are used together; the others are listed beside them.',
  },
  TIMES_NOT_INCREASING: {
    message: (
      {
        file,
        line,
        found,
        at_m,
        before,
        before_m,
        ...one
      }: One & { file: string; line: number; found: string; at_m: number; before: string; before_m: number },
      say,
    ) =>
      `${file}, line ${line}: ${who(one)}: found ${found} at ${say.number(at_m)} m after ${before} at ${say.number(before_m)} m; times run from the start and must grow. The repetition is not used.`,
    hint: 'If these are times between gates, name the column "interval".',
  },
  TIMING_COLUMNS_MISSING: {
    message: ({ file, begins }: { file: string; begins: string | null }) =>
      `${file}: found ${begins === null ? 'nothing' : `"${begins}"`}; expected a header with distance and time, or a column for each distance such as "10 m". The file was refused.`,
    hint: 'Write a header: athlete, repetition, distance_m, time_s, method.',
  },
} as const satisfies FaultRoom;

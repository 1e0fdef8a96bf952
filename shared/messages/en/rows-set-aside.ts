import type { TimingMethod } from '../../words.ts';
import type { PhraseRoom } from '../sentence.ts';

const METHODS: Record<TimingMethod, string> = {
  hand: 'by hand',
  touch_pad_beam: 'touch pad and beam',
  beam: 'beams',
  gun_photo_finish: 'gun and photo finish',
  motion_start: 'motion start',
  other: 'another way',
};

/** What was found in a row that was set aside and what is expected there, and what became of times in a file. */
export const rowsSetAside = {
  row_columns: ({ n }: { n: number }) => `${n} columns`,
  row_broken_off: 'a row that breaks off',
  row_whole: 'a whole row',
  row_beyond: ({ value, unit }: { value: number; unit: string }, say) => `${say.number(value)} ${unit}`,
  row_at_most: ({ most, unit }: { most: number; unit: string }, say) => `at most ${say.number(most)} ${unit}`,
  row_time_leaps: ({ seconds }: { seconds: number }, say) => `a time ${say.number(seconds)} s after the row before`,
  row_time_same: 'the same time as the row before',
  row_time_earlier: 'a time before rows already read',
  row_later_time: 'a time after it',
  row_one_of: ({ values }: { values: readonly string[] }) => `one of ${values.join(', ')}`,
  row_time: 'a time',
  row_number: 'a number',
  row_value: 'at least one measured value',
  row_distance: 'a distance above zero, such as 10m or 40yd',
  row_race_time: 'a time above zero, such as 1.92 or 1:02.3',
  times_unplaced: (
    {
      athlete,
      date,
      repetition,
      fitting,
    }: { athlete: string | null; date: string | null; repetition: number | null; fitting: number },
    say,
  ) =>
    `${athlete ?? 'no athlete named'}, ${date ?? 'no day'}, repetition ${repetition ?? 'not numbered'}: ${fitting === 0 ? 'no such repetition' : `fits ${say.plural(fitting, { one: 'a repetition', other: `${fitting} repetitions` })}`}`,
  times_do_not_grow: 'the times do not grow with the distance',
  also_timed: (
    {
      time_s,
      distance_m,
      method,
      file,
    }: { time_s: number; distance_m: number; method: TimingMethod | null; file: string },
    say,
  ) =>
    `Also timed: ${say.number(time_s)} s over ${say.number(distance_m)} m, ${method === null ? 'method not told' : METHODS[method]} (${file}).`,
  timed_in_steps: ({ by_hand, step_s }: { by_hand: boolean; step_s: number }, say) =>
    `Times of ${by_hand ? 'a watch' : 'the file'} to ${say.number(step_s)} s.`,
} as const satisfies PhraseRoom;

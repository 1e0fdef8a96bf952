import type { PhraseRoom } from '../../sentence.ts';

/** Sprint tests and strength. Times are in seconds, as strings with their decimals. */
export const testingPhrases = {
  method_hand: 'hand',
  method_touch_pad_beam: 'touch pad and beam',
  method_beam: 'beams',
  method_gun_photo_finish: 'gun and photo finish',
  method_motion_start: 'motion start',
  method_other: 'another method',
  start_standing: 'standing start',
  start_three_point: 'three-point start',
  start_block: 'block start',
  start_crouched: 'crouched start',
  start_rolling: 'rolling start',
  start_flying: 'flying start',
  same_time: ({ date }: { date: string }) => `The same time as on ${date}.`,
  time_changed: ({
    size,
    faster,
    date,
    real,
    hand,
    needed,
  }: {
    size: string;
    faster: boolean;
    date: string;
    real: boolean;
    hand: boolean;
    needed: string;
  }) =>
    `${size} s ${faster ? 'faster' : 'slower'} than on ${date}: ${real ? 'a real change' : 'too little to tell'}, ${hand ? 'hand' : 'electronic'} times need ${needed} s.`,
  limit_of_error: ({ hand }: { hand: string | null }) =>
    `typical error of 1.5 % found for 20 m electronic times, carried over to this distance${hand === null ? '' : `; hand times at least 0.14 s, ${hand}`}`,
  limit_of_own: "1.96 x sqrt 2 x this athlete's own typical error",
  no_interval: 'you set no interval between tests',
  next_test: (
    { days, date, overdue, moved }: { days: number; date: string | null; overdue: number; moved: boolean },
    say,
  ) =>
    `${date === null ? 'no test yet' : `${days} days after the last, of ${date}`}${overdue > 0 ? `, ${overdue} ${say.plural(overdue, { one: 'day', other: 'days' })} overdue` : ''}${moved ? ', moved off the day after a speed session' : ''}`,
  needs_body: 'needs body mass and stature, under Person',
  no_falling_line: 'the splits give no falling force-speed line',
  // Strength
  squat_to_body_mass: 'parallel squat to body mass',
  no_squat: 'No parallel squat kept yet; once one is, it stands here against body mass.',
  no_body_mass: 'No body mass kept yet; once one is, the squat stands against it.',
  squat_is: ({ kg, lb, ratio }: { kg: number; lb: number; ratio: number }, say) =>
    `Parallel squat ${kg} kg (${lb} lb) is ${say.number(ratio, 2)} times body mass.`,
  adult_figures: 'The published figures are of adults: no aim for a minor.',
  one_group: 'A figure of one group of college players: no aim by itself.',
} as const satisfies PhraseRoom;

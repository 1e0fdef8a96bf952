import type { PhraseRoom } from '../../sentence.ts';

/** Weeks, focuses and reports. */
export const courseWords = {
  the_course_over_time: 'the course over time',
  nothing_measured_yet: 'Nothing measured yet',
  after_each_session_one_point:
    "After each session one point stands here. From the fourth session on a trend can be told, with its certainty; from the sixth repetition on the athlete's own variation says what is normal.",
  is_growing_only_repetitions_of: ({ name }: { name: string }) =>
    `${name} is growing: only repetitions of the last 60 days count as normal. A longer contact with growth is no fault.`,
  over_sessions_from_to_the: ({
    label,
    n_sessions,
    date,
    date_2,
  }: {
    label: string;
    n_sessions: number;
    date: string;
    date_2: string;
  }) => `${label} over ${n_sessions} sessions from ${date} to ${date_2}; the numbers are in the table`,
  before: 'before',
  now: 'now',
  diamonds_sessions_dots_single_repetitions: 'Diamonds: sessions. Dots: single repetitions.',
  long_line_the_way_it: ' Long line: the way it goes, with its 95 % band.',
  thick_lines_before_the_block: ' Thick lines: before the block and now; upright: where it begins.',
  bar_at_the_right_normal: ' Bar at the right: normal variation now.',
  normal_now_to: ({ low, high }: { low: string; high: string }) => `Normal now: ${low} to ${high}`,
  provisional_with_the_variation_published: ({ n }: { n: number }, say) =>
    `, provisional: ${n} ${say.plural(n, { one: 'repetition', other: 'repetitions' })}, with the variation published for others `,
  repetitions_of_sessions: ({ n, sessions }: { n: number; sessions: number }) =>
    ` (${n} repetitions of ${sessions} sessions)`,
  a_single_repetition_counts_as: ({ from }: { from: string }) =>
    `. A single repetition counts as different from ${from} off the middle.`,
  older_repetitions_no_longer_count: ({ expired }: { expired: number }) =>
    ` ${expired} older repetitions no longer count.`,
  last_session_left_and_right: 'Last session, left and right:',
  difference_95_from_to_variation: ({
    sentence,
    size,
    low,
    high,
    scatter,
  }: {
    sentence: string;
    size: string;
    low: string;
    high: string;
    scatter: string;
  }) => ` ${sentence} Difference ${size} (95 % from ${low} to ${high}), variation within one side ${scatter}.`,
  by_session: ({ label }: { label: string }) => `${label} by session`,
  like_repetitions_only_same_effort: ({ title, session_date }: { title: string; session_date: string }) =>
    `${title}, ${session_date}. Like repetitions only: same effort, same course. `,
  your_stop_rule_for_speed: 'Your stop rule for speed is off.',
  you_think_of_stopping_when: ({ limit_percent }: { limit_percent: number }) =>
    `You think of stopping when speed falls ${limit_percent} % below the first two repetitions.`,
  too_few_repetitions: 'Too few repetitions',
  two_like_repetitions_of_an: 'Two like repetitions of an athlete make a line here; three tell how the session drifts.',
  at: ({ effort_percent }: { effort_percent: number }) => ` At ${effort_percent} %.`,
  of_by_repetition: ({ label, name, values }: { label: string; name: string; values: string }) =>
    `${label} of ${name} by repetition: ${values}`,
  the_focus: 'the focus',
  worked_on: ({ periods }: { periods: string }) => `Worked on ${periods}.`,
  to: ({ from_date, to_date, note }: { from_date: string; to_date: string; note: string }) =>
    `${from_date} to ${to_date}${note}`,
  at_2: ({ condition }: { condition: string }) => `At ${condition}.`,
  no_number_yet: 'No number yet',
  this_focus_rests_on_none: ({ quantities, name }: { quantities: string; name: string }) =>
    `This focus rests on ${quantities}. None of them was measured with ${name} yet.`,
  your_eye: 'Your eye',
  no_rating_yet_on_the:
    'No rating yet. On the field screen, rate a repetition 1 to 5 and add a note or a photograph; they are kept with it.',
  repetition: ({ date, order_number }: { date: string; order_number: number }) => `${date}, repetition ${order_number}`,
  of_5: ({ rating }: { rating: number }) => `${rating} of 5`,
  photograph_of_repetition: ({ date, order_number }: { date: string; order_number: number }) =>
    `Photograph of ${date}, repetition ${order_number}`,
  no_cue_written_yet_write: 'No cue written yet: write your own words, here or with the athlete.',
  what_the_sensor_cannot_see: 'What the sensor cannot see',
  source: 'Source:',
  your_own_focus: 'Your own focus.',
  deleted: ({ name }: { name: string }) => `"${name}" deleted`,
  focuses: 'Focuses',
  the_one_thing_an_athlete:
    'The one thing an athlete works on, with the number a sensor on the shoe or shank gives for it. The list holds what published findings support; anything else is yours to write.',
  focuses_2: 'focuses',
  change_or_delete: 'Change or delete',
  wanted: ({ aim }: { aim: string }) => `wanted ${aim}`,
  aim: ({ target, unit }: { target: string; unit: string }) => `aim ${target} ${unit}`,
  change_it: 'Change it',
  a_focus_of_your_own: 'A focus of your own',
  your_own_words_to_the: 'your own words to the athlete',
  what_to_look_for: 'What to look for',
  number: 'Number',
  none_only_your_eye_sees: 'none: only your eye sees it',
  wanted_2: 'Wanted',
  aim_2: ({ unit }: { unit: string }) => `Aim${unit}`,
  empty_no_value_only_the: 'empty: no value, only the direction',
  add_focus: 'Add focus',
  the_report: 'the report',
  print: 'Print',
  move_pictures_sideways: 'The pictures are wider than this screen: move them sideways.',
  made_on_grey_is_what: ({ local_today }: { local_today: string }) =>
    `Made on ${local_today}. Grey is what is usual for you.`,
  month_before: 'Month before',
  month_after: 'Month after',
  aim_lower: 'lower',
  aim_higher: 'higher',
  'aim_nearer zero': 'nearer zero',
  'aim_no fixed direction': 'no fixed direction',
} as const satisfies PhraseRoom;

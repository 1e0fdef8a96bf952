import type { PhraseRoom } from '../../sentence.ts';

/** The field screen. */
export const fieldWords = {
  the_session: 'the session',
  session: 'Session',
  previous_athlete: ({ name }: { name: string }) => `${name}, previous athlete`,
  next_athlete: ({ name }: { name: string }) => `${name}, next athlete`,
  nobody_yet: 'Nobody is in this session yet',
  nobody_yet_why:
    "The athletes stand here in running order as soon as the plan names them, or as soon as somebody's first repetition is in. Each result appears by itself.",
  plan_the_session: 'Plan the session',
  files_in: 'Files in',
  // Which session
  field: 'Field',
  sessions: 'sessions',
  no_session_yet: 'No session yet',
  no_session_why:
    'On the field you see each repetition the moment it is in, against what is normal for the athlete. That needs a session: plan one, or bring files in.',
  plan_a_session: 'Plan a session',
  several_today: 'Several sessions today: which one?',
  none_today: 'No session today. Which one to look at?',
  // One athlete
  last_repetition_of: ({ name }: { name: string }) => `${name}, last repetition`,
  by_hand: 'by hand',
  not_run_yet: 'not run yet',
  focus: 'focus',
  cannot_be_measured: ({ focus }: { focus: string }) =>
    `${focus}: the sensors sit where this cannot be measured. Rate it by eye.`,
  not_measured_now: ({ focus }: { focus: string }) => `${focus}: could not be measured in this repetition.`,
  every_contact: 'Every contact',
  say_it: 'Say it',
  say_each: 'Say each new result',
  page_for: ({ name }: { name: string }) => `Page for ${name}`,
  plan: 'Plan',
  through_the_session: 'Through the session',
  repetition_of: ({ done, planned }: { done: number; planned: number | null }) =>
    planned === null ? `repetition ${done}` : `repetition ${done} of ${planned}`,
  not_timed: 'not timed',
  running_order: 'Athletes in running order',
  stop_question: ', stop?',
  beyond: ', beyond',
  // Rest and what is next
  all_done: 'Done:',
  all_planned: ({ done }: { done: number }, say) =>
    `all ${done} planned ${say.plural(done, { one: 'repetition', other: 'repetitions' })}.`,
  rest: 'Rest',
  rest_of: ({ time }: { time: string }) => `of ${time} rest`,
  ready: 'rested, ready',
  next_set: ({ course, percent }: { course: string; percent: number }) => `Then ${course} at ${percent} %`,
  strip_ready: ' · ready',
  // Rating
  your_eye: ({ what }: { what: string }) => `Your eye: ${what}`,
  more_to_rate: ({ given }: { given: string }) =>
    given ? `More: ${given}` : 'More: arms, head, trunk, note, photograph',
  what_to_rate: 'What to rate',
  scale: '(5 best)',
  note: 'Note',
  eye_arms: 'arms',
  eye_head: 'head',
  eye_trunk: 'trunk',
  // A time by hand
  hand_time: 'Hand time',
  start_watch: ({ name }: { name: string }) => `Hand time: start the stopwatch for ${name}`,
  stop_watch: ({ name }: { name: string }) => `Stop ${name}`,
  waits_for_result: 'by hand; goes to the result when it is in.',
  waits_for_network: 'by hand; is sent when the network is back.',
  give_to: ({ n }: { n: number }) => `Give it to repetition ${n}`,
  throw_away: 'Throw away',
  // Replay of a stored session
  replay: 'Replay',
  replay_progress: ({ done, total }: { done: number; total: number }) =>
    `${done} of ${total}, twice as fast. Nothing is stored.`,
  replay_over: 'The replay is over. Nothing of it was stored.',
  replay_not_running: 'No replay of this session runs.',
  replay_end: 'End replay',
  replay_start: 'Start replay',
  running_now: 'Running now',
  running_contacts: ({ n }: { n: number }) => `is running, ${n} contacts`,
  // How fresh
  live: 'Live',
  live_to_send: ({ n }: { n: number }) => `Live, ${n} to send`,
  no_answer: 'No answer.',
  results_from: ({ when, kept }: { when: string; kept: number }, say) =>
    `Results from ${when}; trying again by itself.${kept > 0 ? ` ${kept} ${say.plural(kept, { one: 'entry', other: 'entries' })} kept here until then.` : ''}`,
  before: 'before',
  seconds_ago: ({ n }: { n: number }) => `${n} s ago`,
  minutes_ago: ({ n }: { n: number }) => `${n} min ago`,
  hours_ago: ({ n }: { n: number }) => `${n} h ago`,
  try_now: 'Try now',
  // Against normal
  beyond_chance: 'beyond chance.',
  probably_beyond: 'probably beyond chance.',
  nothing_yet: 'Nothing to compare with yet.',
  today_earlier: ({ values }: { values: string }) => ` Today: ${values}`,
  normal_line: (
    {
      low,
      high,
      n,
      provisional,
      today,
    }: { low: string; high: string; n: number; provisional: boolean; today: boolean },
    say,
  ) =>
    `${today ? 'Earlier today' : 'Normal'} ${low} to ${high} (${provisional ? `provisional, only ${n}` : `${n} ${say.plural(n, { one: 'repetition', other: 'repetitions' })}`}).`,
  // How to read this
  help: 'How to read this',
  help_who: 'Whoever just ran shows by itself. A tap on a name shows someone else until the next result comes.',
  help_line:
    'On each line: the grey bar is normal for this athlete at this effort and course, rings are earlier today, the diamond is this repetition, the black stroke through it its measuring error (95 %).',
  help_beyond_term: 'Better and worse',
  help_beyond:
    'stand only where a change is beyond chance: on about one evening of twenty is an unchanged athlete told one. Which way is better, the focus says. In brackets: how large the change is at least and at most (95 %).',
  help_provisional:
    'Fewer than six like repetitions make a provisional normal, with the variation published for others. All like repetitions of today are judged together, so the more there are the smaller a change shows. Normal follows the athlete: a repetition of four weeks ago counts half (three weeks while growing).',
  help_network:
    'Without network the last results stay, with their age; ratings and hand times wait on this device, also over a reload, and are sent when it is back. The screen stays on while this page is open.',
  // Spoken
  spoken_ms: ' milliseconds',
  spoken_mps: ' metres per second',
  spoken_degrees: ' degrees',
  spoken_minus: 'minus ',
  spoken_percent: ' per cent',
  beside_the_rating_of: ({ aspect }: { aspect: string }) => `Beside the rating of ${aspect}`,
  another_photograph: 'Another photograph',
  photograph: 'Photograph',
  delete_photograph: 'Delete photograph',
  photo_waits: 'Waits on this device and is sent when the network is back.',
} as const satisfies PhraseRoom;

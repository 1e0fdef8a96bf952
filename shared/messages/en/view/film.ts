import type { PhraseRoom } from '../../sentence.ts';

/** Film beside contacts. */
export const filmWords = {
  the_repetition: 'the repetition',
  repetition: ({ order_number }: { order_number: number }) => `Repetition ${order_number}`,
  film_repetition: ({ name, order_number }: { name: string; order_number: number }) =>
    `Film: ${name}, repetition ${order_number}`,
  a_film_is_opened_on:
    'A film is opened on this device and stays on it. Kept is which of its frames belongs to which contact.',
  contact_before: 'Contact before',
  step_of: ({ step, last }: { step: number; last: number }) => `Step ${step} of ${last}`,
  next_contact: 'Next contact',
  instant: 'Instant',
  beside: 'Beside',
  no_other_repetition: 'no other repetition',
  this_repetition: 'This repetition',
  repetition_of: ({ order_number, session_date }: { order_number: number; session_date: string }) =>
    `Repetition ${order_number} of ${session_date}`,
  repetition_2: ({
    best,
    session_date,
    order_number,
    time,
    speed,
    line,
  }: {
    best: string;
    session_date: string;
    order_number: number;
    time: string;
    speed: string;
    line: string;
  }) => `${best}${session_date}, repetition ${order_number}${time}${speed}, ${line}`,
  the_best: 'the best: ',
  open_a_film_of_this: 'Open a film of this device',
  tied_before_open_the_same: ({ ties }: { ties: string }) =>
    `Tied before: ${ties}. Open the same file and it is tied again.`,
  measuring_the_time_from_frame: 'Measuring the time from frame to frame ...',
  this_frame_is_the_of: ({ instant, step }: { instant: string; step: number }) =>
    `This frame is the ${instant} of step ${step}`,
  frame_at_s_of_the: ({ at_s, shortest, longest }: { at_s: string; shortest: string; longest: string }) =>
    `Frame at ${at_s} s of the film, ${shortest === longest ? `one every ${shortest} ms` : `${shortest} to ${longest} ms apart`}`,
  not_tied_yet_find_the: ({ frame }: { frame: string }) =>
    `${frame}. Not tied yet: find the frame of a touchdown and mark it.`,
  the_of_step_was_not: ({ frame, instant, step }: { frame: string; instant: string; step: number }) =>
    `${frame}. The ${instant} of step ${step} was not measured.`,
  the_of_step: ({ instant, step }: { instant: string; step: number }) => `the ${instant} of step ${step}`,
  at: ({ frame, instant_words }: { frame: string; instant_words: string }) => `${frame}: at ${instant_words}.`,
  place_in_the_film_seconds: 'Place in the film, seconds',
  one_frame_back: 'One frame back',
  stop_here: 'Stop here',
  play_slowly: 'Play slowly',
  one_frame_on: 'One frame on',
  tied_by: ({ marks, clock }: { marks: string; clock: string }) => `Tied by ${marks}, ${clock}`,
  step_s: ({ step, instant, film_s }: { step: number; instant: string; film_s: string }) =>
    `step ${step}, ${instant}: ${film_s} s`,
  ms_off_the_line: ({ index }: { index: string }) => `, ${index} ms off the line`,
  take_away: 'Take away',
  the_mark_of_step: ({ step }: { step: number }) => ` the mark of step ${step}`,
  good_to_ms: ({ half_ms, residual_s }: { half_ms: string; residual_s: string }) =>
    `good to ± ${half_ms} ms${residual_s}`,
  by_frames_of_ms_and: ({ frame_ms }: { frame_ms: string }) => ` by frames of ${frame_ms} ms and the recording`,
  one_mark_takes_the_film:
    'One mark takes the film to run in real time. Mark a second touchdown half a second or more away: then slow motion is told, and a third says how well the marks agree.',
  the_film_runs_in_real: 'The film runs in real time. A third mark says how well the marks agree.',
  the_film_runs_in_real_2: 'The film runs in real time.',
  the_film_runs_times_slower: ({ rate, residual_s }: { rate: string; residual_s: string }) =>
    `The film runs ${rate} times slower than the run.${residual_s}`,
  a_third_mark_says_how: ' A third mark says how well the marks agree.',
  the_film_has_one_picture: 'The film has one picture only, or this browser cannot step through it.',
  this_browser_cannot_play_the: 'This browser cannot play the file. MP4 (H.264) and WebM play in most.',
  touchdown: 'touchdown',
  middle: 'middle',
  toe_off: 'toe-off',
  off_after: ({ frame, ms, instant }: { frame: string; ms: string; instant: string }) =>
    `${frame}: ${ms} ms after ${instant}.`,
  off_before: ({ frame, ms, instant }: { frame: string; ms: string; instant: string }) =>
    `${frame}: ${ms} ms before ${instant}.`,
  making_sheet: 'Making the sheet ...',
  sheet_of_all: ({ n, instant }: { n: number; instant: string }, say) =>
    `Sheet: ${instant} of ${say.plural(n, { one: 'the one contact', other: `all ${n} contacts` })}`,
  outside_film: ({ n }: { n: number }, say) =>
    `${n} ${say.plural(n, { one: 'contact lies', other: 'contacts lie' })} outside the film.`,
  every_instant: ({ title, instant }: { title: string; instant: string }) => `${title}: every ${instant}`,
  instant_of: ({ instant, words }: { instant: string; words: string }) => `${instant} of ${words}`,
  step_n: ({ step }: { step: number }) => `step ${step}`,
} as const satisfies PhraseRoom;

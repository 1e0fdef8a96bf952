import type { PhraseRoom } from '../../sentence.ts';

type Count = { n: number };

/** One-page reports. Distances and times come with their units. */
export const reportingPhrases = {
  repetition_title: ({ n, date }: Count & { date: string }) => `Repetition ${n}, ${date}`,
  session_title: ({ title, date }: { title: string; date: string }) => `${title || 'Session'}, ${date}`,
  course_not_given: 'Course not given',
  ran: ({ course, time, hand }: { course: string; time: string | null; hand: boolean }) =>
    `${course}${time === null ? '' : ` in ${time}${hand ? ' by hand' : ''}`}`,
  in_steps: ({ ran, n }: Count & { ran: string }) => `${ran}, in ${n} steps.`,
  contacts_measured: ({ ran, n }: Count & { ran: string }) => `${ran}; ${n} contacts measured.`,
  last_repetition: ({ sentence }: { sentence: string }) =>
    `Last repetition: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`,
  measured: ({ n, total }: Count & { total: string }, say) =>
    `${n} measured ${say.plural(n, { one: 'repetition', other: 'repetitions' })}, ${total} in all.`,
  fastest: ({ course, time }: { course: string | null; time: string }) => ` Fastest ${course ?? 'run'}: ${time}.`,
  no_repetition_this_month: 'No repetition was measured this month.',
  ran_this_month: ({ sessions, n, total }: Count & { sessions: number; total: string }, say) =>
    `${sessions} ${say.plural(sessions, { one: 'session', other: 'sessions' })} with ${n} measured ${say.plural(n, { one: 'repetition', other: 'repetitions' })}, ${total} in all.`,
  test_over: ({ distance, sentence }: { distance: string; sentence: string }) =>
    `Sprint test over ${distance}: ${sentence}`,
  // Pictures
  how_long: 'How long each foot stays down',
  how_fast: 'How fast',
  steps_a_second: 'Steps a second',
  against_normal: 'This repetition against normal',
  by_distance: ({ quantity }: { quantity: string }) =>
    `${quantity} by distance, left and right, over what is normal for the athlete`,
  by_step: ({ quantity }: { quantity: string }) =>
    `${quantity} by step, left and right, over what is normal for the athlete`,
  distance_axis: ({ unit }: { unit: string }) => `distance (${unit})`,
  step_axis: 'step',
  left: 'left',
  right: 'right',
  by_session: ({ label }: { label: string }) => `${label}, session by session`,
  by_repetition: ({ label }: { label: string }) => `${label}, repetition by repetition`,
  session_axis: ({ block }: { block: boolean }) =>
    `diamonds: sessions; grey: normal now${block ? '; lines: before and now' : ''}`,
  repetition_axis: 'repetition; grey: normal',
  before: 'before',
  now: 'now',
  test_picture: ({ title }: { title: string }) => `Sprint test: ${title}`,
  test_axis: 'test; upright lines: what the method cannot tell apart',
  time_axis: 'time (s)',
  not_measured: 'not measured',
  marks:
    'Round marks and the solid line: left foot. Square marks and the dashed line: right foot. Grey: what is usual for you.',
} as const satisfies PhraseRoom;

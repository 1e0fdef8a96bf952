import type { PhraseRoom } from '../../sentence.ts';

/** What several pages of the view say. */
export const commonWords = {
  reading: ({ what }: { what: string }) => `Reading ${what} ...`,
  opening: ({ page }: { page: string }) => `Opening ${page.toLowerCase()} ...`,
  skip: 'Skip to content',
  pages: 'Pages',
  more: 'More',
  nothing_here: 'Nothing here',
  no_page_at: 'There is no page at',
  to_sessions: 'Go to the sessions.',
  not_found: 'Not found',
  // Pages by their title, as in routes.ts
  page_Sessions: 'Sessions',
  page_Session: 'Session',
  page_Repetition: 'Repetition',
  page_Live: 'Live',
  page_Field: 'Field',
  page_Plan: 'Plan',
  page_Athletes: 'Athletes',
  // Faults
  what_to_do: 'What to do:',
  try_again: 'Try again',
  where_it_happened: 'Where it happened',
  code: 'code',
  undo: 'Undo',
  // Sides, places, starts
  left: 'left',
  right: 'right',
  side_unknown: 'side unknown',
  on_foot: 'foot',
  on_shank: 'shank',
  standing: 'standing start',
  three_point: 'three-point start',
  block: 'block start',
  crouched: 'crouched start',
  rolling: 'rolling start',
  flying: 'flying start',
  timed_hand: 'hand',
  timed_touch_pad_beam: 'touch pad and beam',
  timed_beam: 'beams',
  timed_gun_photo_finish: 'gun and photo finish',
  timed_motion_start: 'motion start',
  timed_other: 'other',
  belt_at: ({ speed_mps }: { speed_mps: number }, say) => `belt at ${say.number(speed_mps, 2)} m/s`,
  effort: ({ percent }: { percent: number }, say) => `${say.number(percent)} % effort`,
  course_not_given: 'course not given',
  // Numbers against normal
  not_measurable: 'not measurable',
  not_measurable_because: ({ reason }: { reason: string }) => `not measurable: ${reason}`,
  range: ({ low, high }: { low: string; high: string }) => `${low} to ${high}`,
  beyond_normal: 'beyond normal',
  within_normal: 'within normal',
  normal: 'normal',
  not_beyond_chance: ', not beyond chance',
  beyond_normal_variation: 'beyond normal variation',
  repetitions: ({ n }: { n: number }, say) => `${n} ${say.plural(n, { one: 'repetition', other: 'repetitions' })}`,
  // The demo, and a first look without sensors
  demo: 'Demo club.',
  demo_invented: 'Nobody here exists: people and signals are invented.',
  demo_loading: ({ done, total }: { done: number; total: number }) =>
    `Loading: ${done} of ${total} repetitions, the latest session first. What is there can be used.`,
  demo_progress: 'Repetitions loaded',
  replay_offer: 'No sensors yet?',
  replay_what: ({ title, date, n }: { title: string; date: string; n: number }, say) =>
    `See a session live: ${title}, ${date}, ${n} ${say.plural(n, { one: 'athlete', other: 'athletes' })}. The stored packets of its sensors come again, as at the track.`,
  replay_session: 'session',
  replay_begin: 'Watch it live',
  replay_see: 'A replay runs: watch',
  replay_preparing: 'Getting it ready ...',
  // Cautions
  cautions: 'Cautions',
  caution_measures:
    'Cinderlane measures; it does not diagnose. A longer contact or a difference between left and right is no sign of injury by itself.',
  caution_pain:
    'Sudden pain in the back of the thigh, hip or groin, a pop, a limp: stop, tell an adult, see a clinician.',
  caution_minors: 'Minors train under a responsible adult. Local rules and licensed practice come first.',
} as const satisfies PhraseRoom;

import type { PhraseRoom } from '../../sentence.ts';

type Over = { n: number; shown: string; most: string };
type Count = { n: number };

/** Warnings about a plan, templates, and what can be worked on. Distances come with their units. */
export const planningPhrases = {
  own_limit: 'your own limit',
  speed_repetition_long: ({ n, shown, most }: Over) =>
    `Set ${n}: ${shown} is longer than speed repetitions of at most ${most}.`,
  technique_repetition_long: ({ n, shown, most }: Over) =>
    `Set ${n}: ${shown} is longer than technique repetitions of at most ${most}.`,
  rest_short: ({ n, rest_s, least_s }: Count & { rest_s: number; least_s: number }) =>
    `Set ${n}: ${rest_s} s of rest is less than ${least_s} s; full speed needs full recovery.`,
  speed_distance_high: ({ shown, over, most }: { shown: string; over: string; most: string }) =>
    `${shown} at full speed is ${over} over the limit of ${most}.`,
  speed_repetitions_many: ({ n, most }: Count & { most: number }) =>
    `${n} full-speed repetitions are more than the limit of ${most}.`,
  session_long: ({ minutes, most }: { minutes: number; most: number }) =>
    `About ${minutes} min of running and rest; the limit is ${most} min.`,
  speed_same_day: ({ hours }: { hours: number }) =>
    `On the same day as another speed session; ${hours} h belong between them.`,
  speed_too_soon: ({ days, after, date, hours }: { days: number; after: boolean; date: string; hours: number }, say) =>
    `Only ${say.plural(days, { one: 'one day', other: `${days} days` })} ${after ? 'after' : 'before'} the speed session of ${date}; ${hours} h belong between them.`,
  speed_sessions_many: ({ n, most }: Count & { most: number }) =>
    `This is speed session ${n} within 7 days; the limit is ${most}.`,
  week_rises: ({ now, percent, before, most }: { now: string; percent: number; before: string; most: number }) =>
    `With this, 7 days hold ${now}: ${percent} % more than the 7 days before (${before}); the limit is ${most} %.`,
  no_day_off: ({ trained, off, least }: { trained: number; off: number; least: number }, say) =>
    `${trained} training days within 7 leave ${off} off; at least ${least} ${say.plural(least, { one: 'belongs', other: 'belong' })} to every week.`,
  // Templates, by their key
  template_short_sprints: 'Short sprints',
  template_short_sprints_why: 'Eight sprints of 20 m, 2 min of rest: half of the 16 that were tried.',
  template_short_sprints_who: 'boys of 10 to 18 years in the studies',
  template_acceleration: 'Acceleration',
  template_acceleration_why: 'Five sprints of 30 m from a three-point start, 4 min of rest: 150 m.',
  template_acceleration_who: 'elite adult sprinters',
  template_maximal_velocity: 'Maximal velocity',
  template_maximal_velocity_why:
    'Four flying sprints of 20 m after a run-in of 20 to 40 m, 8 min of rest: 80 m, run-in not counted.',
  template_maximal_velocity_who: 'elite adult sprinters',
  template_empty: 'Empty',
  template_empty_why: 'Write your own sets.',
  // Focuses, by their key
  focus_contact_time: 'Short contact',
  focus_contact_time_meaning: 'How long each foot stays on the ground at speed.',
  focus_contact_time_unseen: 'How stiff the ankle and the hip are while the foot is down.',
  focus_evenness: 'Evenness left and right',
  focus_evenness_meaning:
    'Whether left and right do the same, beyond what each side varies by itself. It is no sign of injury by itself, and among sprinters it was not related to speed.',
  focus_evenness_unseen: 'Why the sides differ. A limp or pain is for a clinician, not for a number.',
  focus_rhythm: 'Step rate and step length',
  focus_rhythm_meaning:
    'How speed is made up: more steps a second, or longer steps. Athletes rely on one or the other.',
  focus_acceleration_end: 'How long they accelerate',
  focus_acceleration_end_meaning:
    'Where the athlete stops gaining speed. Acceleration has sections with transitions between them.',
  focus_acceleration_end_unseen: 'How upright the trunk is.',
  upper_body: 'Arms, head and trunk: watch them yourself and keep a note or a rating with the repetition.',
} as const satisfies PhraseRoom;

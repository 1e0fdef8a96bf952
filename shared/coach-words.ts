/** The closed vocabularies of the coach's part, apart from the schemas so that the view can use them without the schema library. */

/** What a set of a plan is for. */
export const SET_KINDS = ['warm_up', 'technique', 'speed', 'sprint_test'] as const;
export type SetKind = (typeof SET_KINDS)[number];

/** What the strength log knows. */
export const LIFTS = [
  'parallel_squat',
  'straight_leg_deadlift',
  'deadlift',
  'bench_press',
  'power_clean',
  'other',
] as const;
export type Lift = (typeof LIFTS)[number];

/** Which way the number should go. */
export const AIMS = ['lower', 'higher', 'nearer zero', 'no fixed direction'] as const;
export type Aim = (typeof AIMS)[number];

/** What can be laid over one another. */
export const COMPARED_KINDS = ['repetitions', 'sessions', 'blocks'] as const;

import type { PhraseRoom } from '../../sentence.ts';

/** Two sides beside one another. */
export const compareWords = {
  what_is_compared: 'What is compared',
  both_sides: 'both sides',
  choose_both_sides_any_athletes: "Choose both sides: any athlete's, the same one's or two.",
  both_at: ({ condition }: { condition: string }) => `Both at ${condition}.`,
  side_by_side: 'Side by side',
  what_differs: 'What differs',
  b_a_with_what_measuring: ({ quantities }: { quantities: string }) =>
    `B − A with what measuring alone can do to it; beside it the 95 % interval with what the athlete varies by from day to day and from run to run. Beyond chance: 99 %. ${quantities} are looked at together, so one in a hundred reads so by chance.`,
  along_the_run: 'Along the run',
  along: 'Along',
  by_step: 'by step',
  by_distance: 'by distance',
  of: ({ repetitions, sessions, contacts }: { repetitions: string; sessions: string; contacts: string }) =>
    `${repetitions} of ${sessions}, ${contacts}`,
  to: ({ first_date, last_date }: { first_date: string; last_date: string }) => `, ${first_date} to ${last_date}`,
  this_was_not_measured_on: 'This was not measured on either side.',
  not_measured: ({ letter }: { letter: string }) => `${letter} not measured`,
  step: ({ step, label, a, b, unit }: { step: number; label: string; a: string; b: string; unit: string }) =>
    `step ${step}: ${label} ${a}, ${b} ${unit}`,
  of_a_and_b_by: ({ label, by }: { label: string; by: string }) =>
    `${label} of A and B by ${by}; the numbers stand in the table of steps`,
  distance: ({ unit }: { unit: string }) => `distance (${unit})`,
  tap_the_plot_or_use: 'Tap the plot, or use the arrow keys, to read it step by step.',
  each_quantity_in_a_and: 'Each quantity in A and in B, B minus A, and its certainty',
  quantity: 'quantity',
  measuring: '± measuring',
  with_chance_95: 'with chance, 95 %',
  step_by_step: 'Step by step',
  step_by_step_2: ({ label }: { label: string }) => `${label}, step by step`,
  of_every_step_in_a: ({ label }: { label: string }) =>
    `${label} of every step in A and in B, plus or minus 95 per cent`,
  side_a_b: 'side, A / B',
  from: ({ name, from_date }: { name: string; from_date: string }) => `${name}, from ${from_date}`,
  before: ({ name }: { name: string }) => `before ${name}`,
  block: 'Block',
  own_dates: 'own dates',
  kind_repetitions: 'repetitions',
  kind_sessions: 'sessions',
  kind_blocks: 'blocks',
  step_axis: 'step',
  by_steps: 'step',
  by_distances: 'distance',
} as const satisfies PhraseRoom;

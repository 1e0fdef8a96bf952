import type { PhraseRoom } from '../../sentence.ts';

type Figure = { subject: string; now: string };

/** What weeks, sessions and comparisons show, as the desk and the reports say it. Figures come with their units. */
export const judgedPhrases = {
  better: ({ text }: { text: string }) => `Better: ${text}`,
  worse: ({ text }: { text: string }) => `Worse: ${text}`,
  // Before and after of a block
  block_likely: ({
    subject,
    now,
    size,
    direction,
    date,
    range,
  }: Figure & { size: string; direction: string; date: string; range: string }) =>
    `${subject} ${now}: likely ${size} ${direction} since ${date} (${range}), but no change beyond chance yet.`,
  block_none: ({ subject, now, date, range }: Figure & { date: string; range: string }) =>
    `${subject} ${now}: no change beyond chance since ${date} (${range}).`,
  block_changed: ({
    subject,
    before,
    now,
    date,
    size,
    direction,
    range,
  }: Figure & { before: string; date: string; size: string; direction: string; range: string }) =>
    `${subject} from ${before} to ${now} since ${date}, ${size} ${direction} (${range}).`,
  course_nothing: ({ label }: { label: string }) => `${label}: nothing measured yet.`,
  course_needs: ({ label, last }: { label: string; last: string }) =>
    `${label} ${last} in the last session; two sessions before and two within a block are needed to tell a change.`,
  // Through a session
  fatigue_needs: ({ label }: { label: string }) => `${label}: three like repetitions are needed to see it tire.`,
  fatigue: ({
    label,
    fresh,
    last,
    percent,
    drift,
    stop,
  }: {
    label: string;
    fresh: string;
    last: string;
    percent: string;
    drift: string;
    stop: boolean;
  }) => `${label} ${fresh} fresh, ${last} at the end (${percent} %), ${drift}.${stop ? ' Your stop rule is met.' : ''}`,
  no_drift: 'no drift beyond chance',
  drift: ({ size }: { size: string }) => `drifting by ${size} a repetition, beyond chance`,
  // Two sides
  alike: 'A and B alike',
  differs: ({ size, direction }: { size: string; direction: string }) => `B ${size} ${direction} than A`,
  differs_by: ({ text, range, certainty }: { text: string; range: string; certainty: string }) =>
    `${text} (${range}): ${certainty}.`,
  told_likely: 'likely, but not beyond chance',
  'told_beyond chance': 'beyond chance',
  'told_may be chance': 'may be chance',
  // Now against normal
  returning_alone: 'No comparison while returning.',
  nothing_to_compare: 'Nothing to compare with yet.',
  as_usual: ({ range }: { range: string }) => `As usual: normal is ${range}.`,
  against_usual: ({
    size,
    direction,
    alone,
    today,
  }: {
    size: string;
    direction: string;
    alone: boolean;
    today: boolean;
  }) => `${alone ? 'the last one ' : ''}${size} ${direction} than ${today ? 'earlier that day' : 'usual'}`,
  may_be_chance: ({ text, range }: { text: string; range: string }) => `${text}, may be chance: normal is ${range}.`,
  works_on: ({ name, cue }: { name: string; cue: string }) =>
    `Works on: ${name.charAt(0).toLowerCase()}${name.slice(1)}.${cue && ` Cue: “${cue}”.`}`,
  // What a reader of a comparison must know
  nothing_in: ({ side }: { side: string }) => `Nothing was measured in ${side}.`,
  nothing_in_common: 'A and B have no effort and course in common, so nothing can be compared.',
  is_returning: ({ name }: { name: string }) =>
    `${name} is returning from an injury: values stand side by side, nothing is judged.`,
  unlike: 'Not the same effort or course: the values stand side by side, their difference is no change.',
  in_both: ({ n }: { n: number }, say) =>
    `${n} ${say.plural(n, { one: 'repetition belongs', other: 'repetitions belong' })} to A and to B.`,
  other_places: ({ a, b }: { a: readonly string[]; b: readonly string[] }, say) =>
    `The sensors sat on the ${say.list(a)} in A and on the ${say.list(b)} in B: small differences may be the sensors'.`,
  one_athlete: 'One athlete: what stays the same in the measuring error drops out, its repeatable part counts.',
  two_athletes: 'Two athletes: the whole measuring error counts. A difference between people is no advice to either.',
  session_of: ({ date }: { date: string }) => (date ? `session of ${date}` : 'session'),
  repetition_of: ({ n, date }: { n: number | null; date: string }) =>
    n === null ? 'repetition' : `repetition ${n} of ${date}`,
} as const satisfies PhraseRoom;

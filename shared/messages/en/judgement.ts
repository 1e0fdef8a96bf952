import { capital } from '../../capital.ts';
import { coachSpeech } from '../coach-speech.ts';
import type { JudgementWords } from '../judgement-words.ts';

/** A change of left against right, and what the difference is. */
const SIDES = {
  more: 'more to the left',
  less: 'more to the right',
  is: { above: 'longer on the left', below: 'longer on the right' },
};
const TIME = { more: 'longer', less: 'shorter' };
const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];
const MONTHS = 'January February March April May June July August September October November December'.split(' ');
const NO_INJURY = '; no sign of injury by itself';

/** Sentences about a repetition, in English. */
export const JUDGEMENT_EN: JudgementWords = {
  language: 'en',
  decimal_mark: '.',
  coach: coachSpeech('en'),
  per_second: ' per second',
  directions: {
    contact_time_ms: { subject: 'contact', ...TIME },
    flight_time_ms: { subject: 'flight', ...TIME },
    swing_time_ms: { subject: 'swing', ...TIME },
    step_time_ms: { subject: 'step time', ...TIME },
    stride_time_ms: { subject: 'stride time', ...TIME },
    step_rate_hz: { subject: 'step rate', more: 'quicker', less: 'slower' },
    step_length_m: { subject: 'step', ...TIME },
    stride_length_m: { subject: 'stride', ...TIME },
    contact_length_m: { subject: 'contact length', ...TIME },
    speed_mps: { subject: 'speed', more: 'faster', less: 'slower' },
    speed_max_mps: { subject: 'maximum speed', more: 'faster', less: 'slower' },
    time_s: { subject: 'time', more: 'slower', less: 'faster' },
    acceleration_end_m: { subject: 'acceleration', ...TIME },
    heel_recovery_height_m: { subject: 'heel recovery', more: 'higher', less: 'lower' },
    shank_angle_touchdown_deg: { subject: 'landing', more: 'further ahead', less: 'less far ahead' },
    foot_pitch_touchdown_deg: { subject: 'landing', more: 'more on the toes', less: 'flatter' },
    foot_pitch_toe_off_deg: { subject: 'push', more: 'steeper at the end', less: 'flatter at the end' },
    shank_rotation_deg: { subject: 'push', more: 'further round', less: 'less far round' },
    foot_progression_deg: { subject: 'foot', more: 'further out', less: 'further in' },
    swing_fold_deg: { subject: 'leg', more: 'more folded', less: 'less folded' },
    contact_time_side_difference_ms: { subject: 'contact', ...SIDES },
    step_time_side_difference_ms: { subject: 'step time', ...SIDES },
  },
  other: { more: 'more', less: 'less' },
  label: (english) => english,
  date: (date, beside) => {
    const [year, month, day] = date.split('-');
    return `${Number(day)} ${MONTHS[Number(month) - 1]}${beside.startsWith(year) ? '' : ` ${year}`}`;
  },
  month: (month) => `${MONTHS[Number(month.slice(5, 7)) - 1]} ${month.slice(0, 4)}`,

  none_yet: 'No repetition yet.',
  on_its_way: 'Recorded; the result is on its way.',
  nothing_measured: 'No contact could be measured in this repetition.',
  value_alone: ({ subject, figure }) => `${capital(subject)} ${figure}.`,
  nothing_to_compare: ({ subject, figure }) => `${capital(subject)} ${figure}: nothing to compare with yet.`,
  few: (n) => `; only ${n === 1 ? '1 repetition' : `${n} repetitions`} to compare with`,
  as_usual: ({ subject, figure, than, few }) => `${capital(subject)} as ${than}: ${figure}${few}.`,
  may_be_chance: ({ subject, figure, size, than, likely, few }) =>
    `${capital(subject)} ${figure}, ${size} than ${than}: ${likely ? 'likely, but not beyond chance' : 'may be chance'}${few}.`,
  changed: ({ subject, figure, size, than, alone, range, row, wanted, few }) => {
    const who = alone ? 'this one' : 'today';
    const tail = row >= 2 ? `, ${ORDINALS[row] ?? `${row}th`} repetition in a row` : '';
    const text = `${subject} ${figure}, ${who} ${size} than ${than}${range && ` (${range})`}${tail}${few}`;
    return `${wanted === null ? capital(text) : `${wanted ? 'Better' : 'Worse'}: ${text}`}.`;
  },
  range: (near, far) => `${near} to ${far}`,
  range_across: ({ less, more }) => `between ${less} and ${more}`,
  since: ({ date, before, now, direction, range, wanted }) =>
    `${wanted === null ? '' : wanted ? 'better ' : 'worse '}since ${date}: from ${before} to ${now}, ${direction} by ${range}`,
  keep: (cue) => `Keep: “${cue}”`,
  next: (cue) => `Next: “${cue}”`,
  longer_rest: 'A longer rest before the next one.',
  side: ({ subject, now, usual }) => {
    const is = now ? `${now.size} on the ${now.side}` : 'left and right alike within chance';
    const tail = now ? NO_INJURY : '';
    if (usual === 'unknown') return `${capital(subject)} ${is}${tail}.`;
    if (usual === 'as usual') return `${capital(subject)} ${is}, as usual${tail}.`;
    return `${capital(subject)} ${is}: ${usual.size} on the ${usual.side} than usual, beyond chance${NO_INJURY}.`;
  },
  stop: (reasons) => `Consider stopping: ${reasons.join('; ')}.`,
  stop_speed: ({ loss, limit }) => `speed ${loss} % below the first two (you stop at ${limit} %)`,
  stop_row: ({ label, row, limit }) => `${label} beyond normal ${row} times in a row (you stop at ${limit})`,
  clock_question: ({ told, of }) => `The sensor's clock says ${told}, the session is of ${of}. Which is right?`,
};

import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf } from './language.ts';
import type { RepetitionLine } from '../../shared/schemas/repetition.ts';
import type { Session } from '../../shared/schemas/session.ts';
import type { StartStyle, TimingMethod } from '../../shared/words.ts';
import { formatCourse, formatShortDate } from './format.ts';

const common = phrasesOf('common', commonWords);

export function startStyleWords(style: StartStyle): string {
  return common(style);
}

export function timingMethodWords(method: TimingMethod): string {
  return common(`timed_${method}`);
}

type Described = Pick<RepetitionLine, 'course_distance_m' | 'effort_percent' | 'start_style' | 'belt_speed_mps'>;

/** `40 yd, standing start, 90 % effort`; what is unknown is left out. */
export function describeCourse(repetition: Described): string {
  const parts: string[] = [];
  if (repetition.course_distance_m !== null) parts.push(formatCourse(repetition.course_distance_m));
  if (repetition.belt_speed_mps !== null) parts.push(common('belt_at', { speed_mps: repetition.belt_speed_mps }));
  if (repetition.start_style !== null) parts.push(startStyleWords(repetition.start_style));
  if (repetition.effort_percent !== null) parts.push(common('effort', { percent: repetition.effort_percent }));
  return parts.length > 0 ? parts.join(', ') : common('course_not_given');
}

/** The same in a table's cell: `40 yd standing, 90 %`. */
export function describeCourseShortly(repetition: Described): string {
  const course = repetition.course_distance_m === null ? '' : formatCourse(repetition.course_distance_m);
  const belt = repetition.belt_speed_mps === null ? '' : common('belt_at', { speed_mps: repetition.belt_speed_mps });
  const start = repetition.start_style === null ? '' : common(`short_${repetition.start_style}`);
  const effort = repetition.effort_percent === null ? '' : `${repetition.effort_percent} %`;
  return [[course || belt, start].filter(Boolean).join(' '), effort].filter(Boolean).join(', ') || '–';
}

/** `1 repetition`, `2 repetitions`. */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** A session to be chosen from a list: its day and title. */
export function sessionOption(session: Session) {
  const title = session.title ? `, ${session.title}` : '';
  return { value: String(session.session_id), label: `${formatShortDate(session.session_date)}${title}` };
}

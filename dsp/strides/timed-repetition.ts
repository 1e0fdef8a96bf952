import type { Course } from '../../shared/analysis.ts';
import { median } from '../numeric/statistics.ts';

/** Instants of a contact are all that is needed here. */
interface Contact {
  touchdown_s: number;
  toe_off_s: number | null;
}

/**
 * Which of several repetitions in one recording the course's times belong to: one set of times is of one run, and an
 * athlete is timed when running fastest, not when jogging back. Contacts shorten with speed, so it is the one with the
 * shortest contacts.
 * @param repetitions contacts of each
 * @returns its index; -1 for none
 */
export function timedRepetition(repetitions: readonly (readonly Contact[])[]): number {
  let [best, shortest] = [repetitions.length > 0 ? 0 : -1, Number.POSITIVE_INFINITY];
  repetitions.forEach((contacts, k) => {
    const times = contacts.flatMap(({ touchdown_s, toe_off_s }) =>
      toe_off_s === null ? [] : [toe_off_s - touchdown_s],
    );
    // Steps of starts and stops are long in every run; the middle one tells the pace.
    const pace = times.length > 3 ? median(times) : Number.POSITIVE_INFINITY;
    if (pace < shortest) [best, shortest] = [k, pace];
  });
  return best;
}

/** The course without its times: for the repetitions that were not timed. */
export function withoutTimes(course: Course): Course {
  return { ...course, time_s: null, splits: [] };
}

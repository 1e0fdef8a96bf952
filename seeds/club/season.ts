/** When the club trains and what it runs: two evenings a week, three or four days apart; an invented plan of its own. */
import { addDays } from '../../shared/dates.ts';
import type { PlanSet } from '../../shared/schemas/coach/plan.ts';

export const COURSE_M = 40;

export interface ClubSession {
  /** 0 is the latest session, 1 the one before, ... */
  index: number;
  date: string;
  title: string;
  sprint_test: boolean;
  /** Efforts of the repetitions in running order, per cent; every one over the same course. */
  efforts: number[];
  sets: PlanSet[];
  temperature_c: number;
  pressure_hpa: number;
}

export function daysBefore(today: string, days: number): string {
  return addDays(today, -days);
}

function set(
  kind: PlanSet['kind'],
  repetitions: number,
  effort_percent: number,
  rest_s: number,
  note: string,
): PlanSet {
  return {
    kind,
    repetitions,
    distance_m: COURSE_M,
    distance_unit: 'm',
    start_style: 'standing',
    effort_percent,
    rest_s,
    note,
  };
}

/** Days from that session, counted back from today's (0), to today. */
export function daysAgo(index: number): number {
  return Math.floor(index / 2) * 7 + (index % 2) * 3;
}

/**
 * @param today date of the latest session, `2026-11-25`
 * @param repetitions full-speed repetitions a session
 */
export function seasonOf(today: string, weeks: number, repetitions: number): ClubSession[] {
  const sessions: ClubSession[] = [];
  for (let index = 0; index < 2 * weeks; index++) {
    const date = daysBefore(today, daysAgo(index));
    const sprint_test = index % 5 === 4;
    const builds_up = index % 2 === 0;
    const full = new Array<number>(builds_up ? Math.max(1, repetitions - 1) : repetitions).fill(100);
    // The slower of the two part speeds came into the plan two weeks ago.
    const slow = builds_up && index < 4 ? [65] : [];
    const efforts = sprint_test ? [100, 100] : [...slow, 85, ...full];
    sessions.push({
      index,
      date,
      title: sprint_test ? 'Timed runs' : builds_up ? 'Into full speed' : 'Full speed, 40 m',
      sprint_test,
      efforts,
      sets: sprint_test
        ? [set('sprint_test', 2, 100, 360, '')]
        : [
            ...(slow.length > 0 ? [set('technique', 1, 65, 120, '')] : []),
            set('technique', 1, 85, 150, ''),
            set('speed', full.length, 100, 240, ''),
          ],
      temperature_c: 9 + (index % 5),
      pressure_hpa: 1008 + 3 * (index % 4),
    });
  }
  return sessions;
}

/** When the club trains and what it runs: sessions twice a week on non-consecutive days, a sprint test every two weeks. */
import { addDays } from '../../shared/dates.ts';
import type { PlanSet } from '../../shared/schemas/coach/plan.ts';
import { METRES_PER_YARD } from '../../shared/units.ts';

export const COURSE_M = 40 * METRES_PER_YARD;

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
    distance_unit: 'yd',
    start_style: 'standing',
    effort_percent,
    rest_s,
    note,
  };
}

/**
 * @param today date of the latest session, `2026-11-25`
 * @param repetitions full-speed repetitions a session
 */
export function seasonOf(today: string, weeks: number, repetitions: number): ClubSession[] {
  const sessions: ClubSession[] = [];
  for (let index = 0; index < 2 * weeks; index++) {
    const date = daysBefore(today, Math.floor(index / 2) * 7 + (index % 2) * 3);
    const sprint_test = index % 4 === 3;
    const builds_up = index % 2 === 0;
    const full = new Array<number>(builds_up ? Math.max(1, repetitions - 1) : repetitions).fill(100);
    // Half speed came into the plan two weeks ago.
    const half = builds_up && index < 4 ? [50] : [];
    const efforts = sprint_test ? [100, 100] : [...half, 75, ...full];
    sessions.push({
      index,
      date,
      title: sprint_test ? 'Sprint test' : builds_up ? 'Build-up to full speed' : 'Full speed, 40 yd',
      sprint_test,
      efforts,
      sets: sprint_test
        ? [set('sprint_test', 2, 100, 300, 'Same timer, same start, same method.')]
        : [
            ...(half.length > 0 ? [set('technique', 1, 50, 60, 'Think of the focus only.')] : []),
            set('technique', 1, 75, 90, 'Keep the focus while it gets faster.'),
            set('speed', full.length, 100, 180, 'Full speed; stop when it falls apart.'),
          ],
      temperature_c: 9 + (index % 5),
      pressure_hpa: 1008 + 3 * (index % 4),
    });
  }
  return sessions;
}

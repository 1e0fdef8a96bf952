/** Sessions to start from, each made of the figures of one published source; every number is the coach's to change. */
import type { PlanSet, PlanTemplate } from '../../../shared/schemas/coach/plan.ts';
import type { StartStyle } from '../../../shared/words.ts';

function speedSet(repetitions: number, distance_m: number, rest_s: number, start_style: StartStyle): PlanSet {
  return {
    kind: 'speed',
    repetitions,
    distance_m,
    distance_unit: 'm',
    start_style,
    effort_percent: 100,
    rest_s,
    note: '',
  };
}

const HAUGEN = 'Haugen 2019, Sports Med Open 5:44, doi 10.1186/s40798-019-0221-0, table 2';

export const PLAN_TEMPLATES: readonly PlanTemplate[] = [
  {
    key: 'short_sprints',
    name: 'Short sprints',
    purpose: 'Eight sprints of 20 m, 2 min of rest: half of the 16 that were tried.',
    audience: 'boys of 10 to 18 years in the studies',
    source:
      'Moran 2017, Int J Sports Med 38:1-11: twice weekly, up to 16 sprints of about 20 m, more than 90 s of rest',
    sets: [speedSet(8, 20, 120, 'standing')],
  },
  {
    key: 'acceleration',
    name: 'Acceleration',
    purpose: 'Five sprints of 30 m from a three-point start, 4 min of rest: 150 m.',
    audience: 'elite adult sprinters',
    source: `${HAUGEN}: 10 to 50 m, 2 to 7 min, 100 to 300 m a session, 48 h to the next`,
    sets: [speedSet(5, 30, 240, 'three_point')],
  },
  {
    key: 'maximal_velocity',
    name: 'Maximal velocity',
    purpose: 'Four flying sprints of 20 m after a run-in of 20 to 40 m, 8 min of rest: 80 m, run-in not counted.',
    audience: 'elite adult sprinters',
    source: `${HAUGEN}: 10 to 30 m flying, 4 to 15 min, 50 to 150 m a session, 48 to 72 h to the next`,
    sets: [speedSet(4, 20, 480, 'flying')],
  },
  { key: 'empty', name: 'Empty', purpose: 'Write your own sets.', audience: '', source: '', sets: [] },
];

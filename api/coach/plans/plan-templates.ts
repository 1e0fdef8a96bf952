/** Sessions to start from. Common practice of the trade; every number is the coach's to change. */
import type { SetKind } from '../../../shared/coach-words.ts';
import type { PlanSet, PlanTemplate } from '../../../shared/schemas/coach/plan.ts';
import { METRES_PER_YARD } from '../../../shared/units.ts';
import type { StartStyle } from '../../../shared/words.ts';

function set(
  kind: SetKind,
  repetitions: number,
  yards: number,
  effort_percent: number,
  rest_s: number,
  start_style: StartStyle = 'standing',
  note = '',
): PlanSet {
  return {
    kind,
    repetitions,
    distance_m: yards * METRES_PER_YARD,
    distance_unit: 'yd',
    start_style,
    effort_percent,
    rest_s,
    note,
  };
}

const PRACTICE = 'common practice';

export const PLAN_TEMPLATES: readonly PlanTemplate[] = [
  {
    key: 'build_up',
    name: 'Technique build-up',
    purpose: 'One focus, carried from half to three-quarter to full speed.',
    source: PRACTICE,
    sets: [
      set('technique', 3, 40, 50, 60, 'standing', 'Think of the focus only.'),
      set('technique', 3, 40, 75, 90, 'standing', 'Keep the focus while it gets faster.'),
      set('technique', 2, 40, 90, 120, 'standing', 'Nearly full speed, loose.'),
      set('speed', 3, 40, 100, 180, 'standing', 'Full speed; stop when it falls apart.'),
    ],
  },
  {
    key: 'speed_300',
    name: 'Speed: five 20s and five 40s',
    purpose: 'Full speed with full rests: 5 x 20 yd and 5 x 40 yd are 300 yd.',
    source: PRACTICE,
    sets: [
      set('technique', 2, 40, 50, 60, 'standing', 'Wake up.'),
      set('technique', 1, 40, 75, 90),
      set('speed', 5, 20, 100, 100, 'three_point'),
      set('speed', 5, 40, 100, 180, 'standing'),
    ],
  },
  {
    key: 'speed_200',
    name: 'Speed, short: five 20s, two 30s, one 40',
    purpose: 'The low end of a speed session, for the week of a test or after a break: 200 yd.',
    source: PRACTICE,
    sets: [
      set('technique', 2, 40, 50, 60),
      set('speed', 5, 20, 100, 100, 'three_point'),
      set('speed', 2, 30, 100, 150),
      set('speed', 1, 40, 100, 180),
    ],
  },
  {
    key: 'flying',
    name: 'Flying twenties',
    purpose: 'Maximum speed: a 20 yd run-in, then 20 yd at full speed. The run-in is not counted.',
    source:
      'common practice; Haugen 2019, doi 10.1186/s40798-019-0221-0, table 2 (run-in 20 to 40 m, 4 to 15 min rest, 50 to 150 m)',
    sets: [set('technique', 2, 40, 50, 60), set('technique', 1, 40, 75, 90), set('speed', 6, 20, 100, 240, 'flying')],
  },
  {
    key: 'sprint_test',
    name: 'Sprint test',
    purpose: 'Two timed 40s after a short build-up, same method as last time.',
    source: PRACTICE,
    sets: [
      set('technique', 2, 40, 50, 60),
      set('technique', 2, 40, 75, 90),
      set('speed', 1, 20, 100, 180, 'three_point'),
      set('sprint_test', 2, 40, 100, 300, 'three_point', 'Same timer, same start, same method.'),
    ],
  },
  { key: 'empty', name: 'Empty', purpose: 'Write your own sets.', source: PRACTICE, sets: [] },
];

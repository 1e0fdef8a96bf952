/** Sessions to start from, each made of the figures of one published source; every number is the coach's to change. */
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
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

const TEMPLATES = {
  short_sprints: {
    source:
      'Moran 2017, Int J Sports Med 38:1-11: twice weekly, up to 16 sprints of about 20 m, more than 90 s of rest',
    sets: [speedSet(8, 20, 120, 'standing')],
  },
  acceleration: {
    source: `${HAUGEN}: 10 to 50 m, 2 to 7 min, 100 to 300 m a session, 48 h to the next`,
    sets: [speedSet(5, 30, 240, 'three_point')],
  },
  maximal_velocity: {
    source: `${HAUGEN}: 10 to 30 m flying, 4 to 15 min, 50 to 150 m a session, 48 to 72 h to the next`,
    sets: [speedSet(4, 20, 480, 'flying')],
  },
} as const;

/** The templates in one language, the empty one last. */
export function planTemplates(words: JudgementWords = JUDGEMENT_EN): PlanTemplate[] {
  const say = words.coach.planning;
  const keys = Object.keys(TEMPLATES) as (keyof typeof TEMPLATES)[];
  return [
    ...keys.map((key) => ({
      key,
      name: say(`template_${key}`),
      purpose: say(`template_${key}_why`),
      audience: say(`template_${key}_who`),
      source: TEMPLATES[key].source,
      sets: [...TEMPLATES[key].sets],
    })),
    {
      key: 'empty',
      name: say('template_empty'),
      purpose: say('template_empty_why'),
      audience: '',
      source: '',
      sets: [],
    },
  ];
}

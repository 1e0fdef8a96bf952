import { describe, expect, test } from 'vitest';
import { checkPlan } from '../../../api/coach/plans/check-plan.ts';
import { DEFAULT_PLAN_LIMITS } from '../../../api/coach/plan-limits.ts';
import { planTemplates } from '../../../api/coach/plans/plan-templates.ts';
import { planTotals } from '../../../api/coach/plans/plan-totals.ts';
import type { PlanSet } from '../../../shared/schemas/coach/plan.ts';

const speed = (repetitions: number, distance_m: number, rest_s = 180): PlanSet => ({
  kind: 'speed',
  repetitions,
  distance_m,
  distance_unit: 'm',
  start_style: 'standing',
  effort_percent: 100,
  rest_s,
  note: '',
});
const codes = (sets: PlanSet[], date = '2026-03-10', history = [] as Parameters<typeof checkPlan>[3]) =>
  checkPlan({ sets }, DEFAULT_PLAN_LIMITS, date, history).warnings.map((warning) => warning.code);
const day = (date: string, speed_distance_m: number, distance_m = speed_distance_m) => ({
  date,
  distance_m,
  speed_distance_m,
});

describe('plan totals', () => {
  test('five 20s and five 30s are 250 metres', () => {
    const totals = planTotals([speed(5, 20), speed(5, 30)]);
    expect(totals.speed_distance_m).toBeCloseTo(250, 9);
    expect(totals.speed_repetitions).toBe(10);
  });

  test('an empty plan has totals of zero and no warning, whatever the days around it', () => {
    expect(planTotals([]).minutes).toBe(0);
    expect(codes([], '2026-03-10', [day('2026-03-01', 20), day('2026-03-09', 900)])).toEqual([]);
  });

  test('one repetition counts no rest after it', () => {
    expect(planTotals([speed(1, 40, 600)]).minutes).toBeLessThan(0.2);
  });
});

describe('checkPlan', () => {
  test('every template keeps the limits it comes with, and names its source and whom it is about', () => {
    for (const template of planTemplates()) {
      const { warnings } = checkPlan(template, DEFAULT_PLAN_LIMITS, '2026-03-10');
      expect({ [template.key]: warnings.map((warning) => warning.text) }).toEqual({ [template.key]: [] });
      if (template.sets.length > 0) expect([template.source, template.audience]).not.toContain('');
    }
  });

  // Haugen 2019, doi 10.1186/s40798-019-0221-0, table 2: acceleration 100 to 300 m, 10 to 50 m, 2 to 7 min; maximal velocity 4
  // to 15 min; 48 h. Moran 2017, Int J Sports Med 38:1-11: twice weekly, up to 16 sprints.
  test('300 m at full speed are allowed, 310 are not', () => {
    expect(codes([speed(6, 50)])).toEqual([]);
    expect(codes([speed(7, 30), speed(2, 50)])).toEqual(['SPEED_DISTANCE_HIGH']);
  });

  test('names a repetition that is too long, a rest that is too short and too many sprints', () => {
    expect(codes([speed(4, 60)])).toEqual(['REPETITION_LONG']);
    expect(codes([speed(6, 40, 100)])).toEqual(['REST_SHORT']);
    expect(codes([{ ...speed(4, 20, 200), start_style: 'flying' }])).toEqual(['REST_SHORT']);
    expect(codes([speed(17, 15)])).toContain('SPEED_REPETITIONS_MANY');
  });

  test('nothing asks for more: the least possible full speed draws no warning', () => {
    expect(codes([speed(1, 5)])).toEqual([]);
    expect(Object.keys(DEFAULT_PLAN_LIMITS).filter((name) => /distance_min|repetition_min/.test(name))).toEqual([]);
  });

  test('speed on the day after speed comes too soon; two days later does not', () => {
    expect(codes([speed(6, 40)], '2026-03-10', [day('2026-03-09', 240)])).toContain('SPEED_TOO_SOON');
    expect(codes([speed(6, 40)], '2026-03-11', [day('2026-03-09', 240)])).not.toContain('SPEED_TOO_SOON');
  });

  test('a speed session already planned for tomorrow counts too, and one of the same day', () => {
    expect(codes([speed(6, 40)], '2026-03-10', [day('2026-03-11', 240)])).toContain('SPEED_TOO_SOON');
    expect(codes([speed(2, 40)], '2026-03-10', [day('2026-03-10', 240)])).toContain('SPEED_TOO_SOON');
  });

  test('a third speed session within seven days is one too many', () => {
    const history = [day('2026-03-05', 240), day('2026-03-08', 240)];
    expect(codes([speed(6, 40)], '2026-03-10', history)).toContain('SPEED_SESSIONS_MANY');
    expect(codes([speed(6, 40)], '2026-03-12', history)).not.toContain('SPEED_SESSIONS_MANY');
  });

  // AAP 2007, Pediatrics 119:1242: at most 10 % more a week.
  test('a week that rises by more than a tenth is said with both figures, the same day counted', () => {
    const history = [day('2026-03-02', 240)];
    const text = checkPlan({ sets: [speed(7, 40)] }, DEFAULT_PLAN_LIMITS, '2026-03-10', history).warnings;
    expect(text.map((warning) => warning.code)).toEqual(['WEEK_RISES_FAST']);
    expect(text[0].text).toContain('17 % more');
    expect(codes([speed(2, 40)], '2026-03-10', [...history, day('2026-03-10', 0, 200)])).toEqual(['WEEK_RISES_FAST']);
  });

  test('a seventh training day in a row leaves no day off', () => {
    const history = [1, 2, 3, 4, 5, 6].map((n) => day(`2026-03-0${n + 3}`, 0, 100));
    expect(codes([speed(5, 40)], '2026-03-10', history)).toContain('NO_DAY_OFF');
  });

  test('a limit set to null is off, and one that the coach set is called the coach’s', () => {
    const off = { ...DEFAULT_PLAN_LIMITS, speed_distance_max_m: null };
    expect(checkPlan({ sets: [speed(10, 40)] }, off, '2026-03-10').warnings).toEqual([]);
    const own = { ...DEFAULT_PLAN_LIMITS, speed_distance_max_m: 200 };
    expect(checkPlan({ sets: [speed(6, 40)] }, own, '2026-03-10').warnings[0].source).toBe('your own limit');
  });

  test('every warning and every caution names its source; adults’ figures are said to be no aim for minors', () => {
    const { warnings, cautions } = checkPlan(
      { sets: [speed(20, 70, 10)] },
      DEFAULT_PLAN_LIMITS,
      '2026-03-10',
      [],
      [{ returning: true }],
    );
    expect(warnings.length).toBeGreaterThan(3);
    for (const item of [...warnings, ...cautions]) expect(item.source).not.toBe('');
    expect(cautions[0].code).toBe('RETURNING');
    expect(cautions.map((caution) => caution.code)).toEqual(expect.arrayContaining(['STOP_ON_PAIN', 'ADULT_FIGURES']));
  });
});

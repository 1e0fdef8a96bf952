import { describe, expect, test } from 'vitest';
import { checkPlan } from '../../../api/coach/plans/check-plan.ts';
import { DEFAULT_PLAN_LIMITS } from '../../../api/coach/plan-limits.ts';
import { PLAN_TEMPLATES } from '../../../api/coach/plans/plan-templates.ts';
import { planTotals } from '../../../api/coach/plans/plan-totals.ts';
import type { PlanSet } from '../../../shared/schemas/coach/plan.ts';

const YD = 0.9144;
const speed = (repetitions: number, yards: number, rest_s = 180): PlanSet => ({
  kind: 'speed',
  repetitions,
  distance_m: yards * YD,
  distance_unit: 'yd',
  start_style: 'standing',
  effort_percent: 100,
  rest_s,
  note: '',
});
const codes = (sets: PlanSet[], date = '2026-03-10', history = [] as Parameters<typeof checkPlan>[3]) =>
  checkPlan({ sets }, DEFAULT_PLAN_LIMITS, date, history).warnings.map((warning) => warning.code);
const day = (date: string, speed_yd: number, yd = speed_yd) => ({
  date,
  distance_m: yd * YD,
  speed_distance_m: speed_yd * YD,
});

describe('plan totals', () => {
  test('five 20s and five 40s are 300 yards', () => {
    const totals = planTotals([speed(5, 20), speed(5, 40)]);
    expect(totals.speed_distance_m / YD).toBeCloseTo(300, 9);
    expect(totals.speed_repetitions).toBe(10);
  });

  test('an empty plan has totals of zero and no warning', () => {
    expect(planTotals([]).minutes).toBe(0);
    expect(codes([])).toEqual([]);
  });

  test('one repetition counts no rest after it', () => {
    expect(planTotals([speed(1, 40, 600)]).minutes).toBeLessThan(0.2);
  });
});

describe('checkPlan', () => {
  test('every template keeps the limits it comes with', () => {
    for (const template of PLAN_TEMPLATES) {
      const { warnings } = checkPlan(template, DEFAULT_PLAN_LIMITS, '2026-03-10');
      const hard = warnings.filter((warning) => warning.code !== 'SPEED_DISTANCE_LOW');
      expect({ [template.key]: hard.map((warning) => warning.text) }).toEqual({ [template.key]: [] });
    }
  });

  test('exactly 300 yards is allowed, 320 is not', () => {
    expect(codes([speed(5, 20), speed(5, 40)])).toEqual([]);
    expect(codes([speed(8, 40)])).toEqual(['SPEED_DISTANCE_HIGH']);
  });

  test('names a repetition that is too long, a rest that is too short and too many sprints', () => {
    expect(codes([speed(4, 70)])).toEqual(['REPETITION_LONG']);
    expect(codes([speed(6, 40, 45)])).toEqual(['REST_SHORT']);
    expect(codes([speed(17, 20, 90)])).toContain('SPEED_REPETITIONS_MANY');
  });

  test('speed on the day after speed comes too soon; two days later does not', () => {
    expect(codes([speed(6, 40)], '2026-03-10', [day('2026-03-09', 240)])).toContain('SPEED_TOO_SOON');
    expect(codes([speed(6, 40)], '2026-03-11', [day('2026-03-09', 240)])).not.toContain('SPEED_TOO_SOON');
  });

  test('a speed session already planned for tomorrow counts too', () => {
    expect(codes([speed(6, 40)], '2026-03-10', [day('2026-03-11', 240)])).toContain('SPEED_TOO_SOON');
  });

  test('a third speed session within seven days is one too many', () => {
    const history = [day('2026-03-05', 240), day('2026-03-08', 240)];
    expect(codes([speed(6, 40)], '2026-03-10', history)).toContain('SPEED_SESSIONS_MANY');
    expect(codes([speed(6, 40)], '2026-03-12', history)).not.toContain('SPEED_SESSIONS_MANY');
  });

  test('a week that rises by more than a tenth is said with both figures', () => {
    const history = [day('2026-03-02', 240)];
    const text = checkPlan({ sets: [speed(7, 40)] }, DEFAULT_PLAN_LIMITS, '2026-03-10', history).warnings;
    expect(text.map((warning) => warning.code)).toEqual(['WEEK_RISES_FAST']);
    expect(text[0].text).toContain('17 % more');
  });

  test('a seventh training day in a row leaves no day off', () => {
    const history = [1, 2, 3, 4, 5, 6].map((n) => day(`2026-03-0${n + 3}`, 0, 100));
    expect(codes([speed(5, 40)], '2026-03-10', history)).toContain('NO_DAY_OFF');
  });

  test('a limit set to null is off', () => {
    const limits = { ...DEFAULT_PLAN_LIMITS, speed_distance_max_m: null };
    expect(checkPlan({ sets: [speed(10, 40)] }, limits, '2026-03-10').warnings).toEqual([]);
  });

  test('every warning and every caution names its source', () => {
    const { warnings, cautions } = checkPlan({ sets: [speed(20, 70, 10)] }, DEFAULT_PLAN_LIMITS, '2026-03-10');
    expect(warnings.length).toBeGreaterThan(3);
    for (const item of [...warnings, ...cautions]) expect(item.source).not.toBe('');
    expect(cautions.map((caution) => caution.code)).toContain('STOP_ON_PAIN');
  });
});

import { refusalOf } from '../../helpers/told.ts';
import { describe, expect, test } from 'vitest';
import { addDays } from '../../../shared/dates.ts';
import { courseView, focusView } from '../../../api/coach/judgement/course-view.ts';
import { fatigueView } from '../../../api/coach/judgement/fatigue-view.ts';
import { writeCoachSettings } from '../../../api/coach/coach-settings.ts';
import { DEFAULT_PLAN_LIMITS } from '../../../api/coach/plan-limits.ts';
import { setRating } from '../../../api/coach/judgement/ratings.ts';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { Store } from '../../../api/store/store.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

const START = '2026-01-05';
/** Fixed scatter of about 2 ms, so that results do not depend on a run. */
const NOISE = [1.2, -2.1, 0.4, 2.3, -0.9, -1.6, 1.9, 0.2, -0.5, 2.0, -2.4, 0.8, -0.3, 1.1, -1.2, 0.6];

/** Sessions a week apart, four repetitions each, at the level that the function gives for each week. */
function club(weeks: number, level: (week: number) => number, side_ms = 0) {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, 'Wren');
  for (let week = 0; week < weeks; week++) {
    const session = makeSession(store, addDays(START, 7 * week));
    for (let k = 0; k < 4; k++) {
      const contact_time_ms = level(week) + NOISE[(week * 4 + k * 5) % NOISE.length];
      makeRepetition(store, session, athlete_id, { contact_time_ms, side_ms });
    }
  }
  return { store, athlete_id, today: addDays(START, 7 * weeks) };
}

describe('over time', () => {
  test('an athlete whose contact shortens by 1 ms a week is told before and after, with the interval', () => {
    const { store, athlete_id, today } = club(12, (week) => 120 - week);
    const { course, condition } = courseView(store, athlete_id, {}, today);
    expect(condition).toMatchObject({ effort_percent: 100, start_style: 'standing', repetitions: 48 });
    expect(course!.sessions).toHaveLength(12);
    expect(course!.trend!.slope_per_week).toBeCloseTo(-1, 0);
    expect(course!.block).toMatchObject({ beyond: 'below', wanted: true });
    expect(course!.sentence).toMatch(
      /^Better: contact from 1(19|20) to 1(10|11) ms since 5 January, (8|9|10) ms shorter \(\d+ to 1\d ms\)\.$/,
    );
  });

  test('a level that jumps when a focus begins is told from the weeks before it', () => {
    const { store, athlete_id, today } = club(12, (week) => (week < 6 ? 120 : 112));
    addFocus(store, athlete_id, { focus: 'contact_time', from_date: addDays(START, 41) });
    const { course } = courseView(store, athlete_id, {}, today);
    expect(course!.block!.before).toMatchObject({ sessions: 6, first_date: START });
    expect(course!.sentence).toMatch(/^Better: contact from 120 to 112 ms since 15 February, 8 ms shorter/);
  });

  test('without a change none is claimed, and it is said how large one could be', () => {
    const { store, athlete_id, today } = club(12, () => 118);
    const { course } = courseView(store, athlete_id, {}, today);
    expect(course!.block!.beyond).toBeNull();
    expect(course!.sentence).toMatch(
      /^Contact 11\d ms: no change beyond chance since 5 January \(between \d ms shorter and \d ms longer\)\.$/,
    );
  });

  test('three sessions are too few, and it is said what is needed', () => {
    const { store, athlete_id, today } = club(3, () => 118);
    expect(courseView(store, athlete_id, {}, today).course!.sentence).toContain('two sessions before and two within');
  });

  test('a side difference stands beside the variation within a side and is never called a sign of injury', () => {
    const { store, athlete_id, today } = club(5, () => 118, 14);
    const { sides } = courseView(store, athlete_id, {}, today).course!;
    expect(sides!.difference).toBeCloseTo(14, 0);
    expect(sides!.beyond_within_side).toBe(true);
    expect(sides!.sentence).toMatch(/^Contact 14 ms longer on the left, as usual; no sign of injury by itself\.$/);
  });

  test('a focus gathers its quantities, its period and the ratings', () => {
    const { store, athlete_id, today } = club(5, () => 118);
    addFocus(store, athlete_id, { focus: 'rhythm', from_date: START, note: 'longer steps' });
    setRating(store, 3, 'rhythm', { rating: 4, note: 'better' });
    const view = focusView(store, athlete_id, 'rhythm', today);
    expect(view.courses.map((course) => course.quantity)).toEqual(['step_rate_hz', 'step_length_m', 'speed_max_mps']);
    const inYards = focusView(store, athlete_id, 'rhythm', today, 'yd').courses[1];
    expect(inYards.sentence).toMatch(/^Step \d\.\d\d yd: no change beyond chance/);
    expect(view.periods).toMatchObject([{ from_date: START, note: 'longer steps' }]);
    expect(view.ratings).toMatchObject([{ rating: 4, note: 'better', date: START }]);
    expect(refusalOf(() => focusView(store, athlete_id, 'flapping', today))).toMatch(/must be one of/);
  });

  test('nobody measured yet gives an empty view, not a fault', () => {
    const store = Store.open(':memory:');
    const view = courseView(store, makeAthlete(store, 'New'), {}, START);
    expect(view).toMatchObject({ conditions: [], condition: null, course: null, quantities: [] });
  });
});

describe('through a session', () => {
  test('a steady loss of speed is told in per cent and meets the stop rule; two efforts are kept apart', () => {
    const { store, athlete_id } = club(1, () => 118);
    const session = makeSession(store, '2026-03-01');
    [8.2, 8.2, 8.1, 8.0, 7.9, 7.8].forEach((speed_max_mps) => {
      makeRepetition(store, session, athlete_id, { contact_time_ms: 118, speed_max_mps });
    });
    makeRepetition(store, session, athlete_id, { contact_time_ms: 150, speed_max_mps: 5 }, { effort_percent: 50 });
    writeCoachSettings(store, {
      plan_limits: DEFAULT_PLAN_LIMITS,
      stop_rule: { beyond_in_a_row: null, speed_loss_percent: 3 },
    });
    const { lines } = fatigueView(store, session);
    const speed = lines.find((line) => line.quantity === 'speed_max_mps')!;
    expect(speed.repetitions).toHaveLength(6);
    expect(speed.change_percent).toBeCloseTo((100 * (7.85 - 8.2)) / 8.2, 6);
    expect(speed.stop).toBe(true);
    expect(speed.sentence).toMatch(
      /8\.20 m\/s fresh, 7\.85 m\/s at the end \(−4\.3 %\).*beyond chance\. Your stop rule is met\./,
    );
    expect(lines.find((line) => line.quantity === 'contact_time_ms')!.stop).toBe(false);
  });
});

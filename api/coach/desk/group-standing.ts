import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { GroupLine, GroupStanding } from '../../../shared/schemas/coach/standing.ts';
import { listAthletes } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { blocksOf } from '../judgement/course-view.ts';
import { focusOn } from '../judgement/focus-on.ts';
import { chooseCondition, runConditions } from '../judgement/run-conditions.ts';
import { returningAthletes } from '../returning.ts';
import { sprintTestStanding } from '../tests/sprint-test-view.ts';
import { cautionsFor } from '../words/cautions.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { focusStanding } from './focus-standing.ts';
import { lastTest } from './last-test.ts';

/** Every athlete in one line: what changed in what they work on, whether a test is due, the best time. */
export function groupStanding(
  store: Store,
  today: string,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): GroupStanding {
  const returning = returningAthletes(store);
  const { plan_limits } = readCoachSettings(store);
  const last = lastSessions(store);
  const items = listAthletes(store).map((athlete): GroupLine => {
    const { athlete_id, name, group_ids } = athlete;
    const focus = focusOn(store, athlete_id, today);
    const quantity = focus?.quantity ?? 'contact_time_ms';
    const condition = chooseCondition(runConditions(store, athlete_id));
    const { series, next_test } = sprintTestStanding(store, athlete_id, today, words);
    const standing = focus && focusStanding(focus, today, words);
    return {
      athlete_id,
      name,
      group_ids,
      returning: returning.has(athlete_id),
      focus: standing,
      focus_over: (standing?.weeks ?? 0) > (plan_limits.focus_weeks_max ?? Infinity),
      change: condition
        ? (blocksOf(store, athlete_id, [quantity], condition, today, length, words).get(quantity) ?? null)
        : null,
      last_session: last.get(athlete_id) ?? null,
      next_test_date: next_test.date,
      test_overdue_days: next_test.overdue_days,
      last_test: lastTest(series),
    };
  });
  return { items, cautions: cautionsFor(items, words) };
}

function lastSessions(store: Store): Map<number, NonNullable<GroupLine['last_session']>> {
  const rows = store
    .prepare(
      `SELECT r.athlete_id, s.session_id, MAX(s.session_date) AS session_date
       FROM repetitions r JOIN sessions s ON s.session_id = r.session_id
       WHERE r.deleted_utc IS NULL AND s.deleted_utc IS NULL AND r.state != 'planned' GROUP BY r.athlete_id`,
    )
    .all() as { athlete_id: number; session_id: number; session_date: string }[];
  return new Map(rows.map(({ athlete_id, ...session }) => [athlete_id, session]));
}

import { addDays } from '../../shared/dates.ts';
import { FOCUSES } from '../../api/coach/focuses.ts';
import { addFocus, addMeasure } from '../../api/coach/athlete-records.ts';
import { planTemplates } from '../../api/coach/plans/plan-templates.ts';
import { setSessionPlan } from '../../api/coach/plans/session-plans.ts';
import { addSprintTest } from '../../api/coach/tests/sprint-tests.ts';
import { createGroup } from '../../api/store/groups.ts';
import type { Store } from '../../api/store/store.ts';
import { makeAthlete, makeRepetition, makeSession } from '../api/coach/make-club.ts';
import { uniform } from '../helpers/random.ts';

export interface YearOfData {
  athletes: number;
  sessions: number;
  repetitions: number;
  /** The session of the last day, with a plan. */
  tonight: number;
  athlete_ids: number[];
}

/** Athletes on the field tonight: as many as one coach has at a time. */
const TONIGHT = 12;

/**
 * A year of a large club, written straight into the store: results as an analysis would give them, without signals, so that
 * the speed of everything behind the analysis can be measured. Two sessions a week, eight repetitions each and athlete; on the
 * last evening twelve athletes are there.
 */
export function fillYear(store: Store, today: string, athletes = 30, weeks = 52): YearOfData {
  const random = uniform(1);
  const focuses = FOCUSES.map((focus) => focus.key);
  const athlete_ids = Array.from({ length: athletes }, (_, i) => makeAthlete(store, `Athlete ${i + 1}`));
  const { group_id } = createGroup(store, { name: 'Everyone', athlete_ids });
  let repetitions = 0;
  let sessions = 0;
  let tonight = 0;
  for (const [i, id] of athlete_ids.entries()) {
    addFocus(store, id, { focus: focuses[i % focuses.length], from_date: addDays(today, -40) });
    addMeasure(store, id, { date: addDays(today, -300), body_mass_kg: 60 + i, stature_m: 1.7, leg_length_m: 0.9 });
    for (let k = 0; k < 26; k++) {
      const time_s = Number((5.3 - k * 0.01 + random() * 0.1).toFixed(2));
      addSprintTest(store, {
        athlete_id: id,
        date: addDays(today, -14 * k),
        distance_m: 36.576,
        timing_method: 'beam',
        time_s,
      });
    }
  }
  for (let day = weeks * 7; day >= 0; day -= 3.5) {
    store.transaction(() => {
      const session = makeSession(store, addDays(today, -Math.floor(day)), group_id);
      sessions += 1;
      tonight = session;
      for (let k = 0; k < 8; k++) {
        for (const [i, id] of (day === 0 ? athlete_ids.slice(0, TONIGHT) : athlete_ids).entries()) {
          const effort_percent = k < 2 ? 50 : 100;
          const contact_time_ms = 110 + i + (k < 2 ? 25 : 0) + 4 * random() + day * 0.01;
          makeRepetition(
            store,
            session,
            id,
            { contact_time_ms, side_ms: random() * 4, speed_max_mps: 8 + random() / 5 },
            { effort_percent },
          );
          repetitions += 1;
        }
      }
    });
  }
  const template = planTemplates().find((entry) => entry.sets.length > 0)!;
  setSessionPlan(store, tonight, {
    template: template.key,
    sets: template.sets,
    athlete_ids: athlete_ids.slice(0, TONIGHT),
  });
  return { athletes, sessions, repetitions, tonight, athlete_ids };
}

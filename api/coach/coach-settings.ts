import type { CoachSettings } from '../../shared/schemas/coach/coach-settings.ts';
import type { Store } from '../store/store.ts';
import { DEFAULT_PLAN_LIMITS } from './plan-limits.ts';

const NAME = 'coach';

/**
 * 'End the session when performance drops or technique deteriorates' (Haugen 2019, doi 10.1186/s40798-019-0221-0) comes without
 * a figure, so the stop rule starts empty for the coach to fill.
 */
export const DEFAULT_COACH_SETTINGS: CoachSettings = {
  plan_limits: DEFAULT_PLAN_LIMITS,
  stop_rule: { beyond_in_a_row: null, speed_loss_percent: null },
};

/** The coach's limits and stop rule; what was never changed has its default. */
export function readCoachSettings(store: Store): CoachSettings {
  const row = store.first(store.query.selectFrom('settings').select('value').where('name', '=', NAME));
  const stored = row ? (JSON.parse(row.value) as Partial<CoachSettings>) : {};
  return {
    plan_limits: { ...DEFAULT_PLAN_LIMITS, ...stored.plan_limits },
    stop_rule: { ...DEFAULT_COACH_SETTINGS.stop_rule, ...stored.stop_rule },
  };
}

export function writeCoachSettings(store: Store, settings: CoachSettings): CoachSettings {
  const value = JSON.stringify(settings);
  store.run(
    store.query
      .insertInto('settings')
      .values({ name: NAME, value })
      .onConflict((conflict) => conflict.column('name').doUpdateSet({ value })),
  );
  return readCoachSettings(store);
}

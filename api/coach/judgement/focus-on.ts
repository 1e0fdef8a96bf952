import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { AthleteFocusNow } from '../../../shared/schemas/coach/field-view.ts';
import type { Focus } from '../../../shared/schemas/coach/focus.ts';
import type { Mounting } from '../../../shared/words.ts';
import type { Store } from '../../store/store.ts';
import { currentFocuses } from '../athlete-records.ts';
import { focusName, leadQuantity } from '../focuses.ts';
import { findFocus } from '../own-focuses.ts';

/** What an athlete works on, on one day, with what the judgement needs of it. */
export interface FocusOnDay extends AthleteFocusNow {
  of: Focus;
  from_date: string;
}

/** The current focus of an athlete with the quantity that the sensors' mounting can give; null without one. */
export function focusOn(store: Store, athlete_id: number, date: string): FocusOnDay | null {
  const current = currentFocuses(store, athlete_id, date)[0];
  const of = current ? findFocus(store, current.focus) : null;
  if (!current || !of) return null;
  return {
    focus: current.focus,
    name: current.name,
    quantity: leadQuantity(of, mountingOf(store, athlete_id)),
    cue: current.cue || of.cue,
    of,
    from_date: current.from_date,
  };
}

/** The part that screens show. */
export function focusNow({ focus, name, quantity, cue }: FocusOnDay, words = JUDGEMENT_EN): AthleteFocusNow {
  return { focus, name: focusName(focus, name, words), quantity, cue };
}

/** Where the athlete's sensors sat last; as assigned when nothing was recorded yet. */
function mountingOf(store: Store, athlete_id: number): Mounting | null {
  const row = store
    .prepare('SELECT mounting FROM recordings WHERE athlete_id = ? ORDER BY recording_id DESC LIMIT 1')
    .get(athlete_id) as { mounting: Mounting } | undefined;
  if (row) return row.mounting;
  const assigned = store.prepare('SELECT mounting FROM athlete_sensors WHERE athlete_id = ? LIMIT 1').get(athlete_id);
  return (assigned as { mounting: Mounting } | undefined)?.mounting ?? null;
}

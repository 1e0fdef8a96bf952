import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { FocusStanding } from '../../../shared/schemas/coach/standing.ts';
import { daysBetween } from '../../../shared/dates.ts';
import type { FocusOnDay } from '../judgement/focus-on.ts';
import { focusNow } from '../judgement/focus-on.ts';

/** What an athlete works on as pages at the desk show it. */
export function focusStanding(focus: FocusOnDay, today: string, words = JUDGEMENT_EN): FocusStanding {
  return {
    ...focusNow(focus, words),
    from_date: focus.from_date,
    weeks: Math.max(0, daysBetween(focus.from_date, today) / 7),
    target: focus.of.quantities.find(({ quantity }) => quantity === focus.quantity)?.target ?? null,
  };
}

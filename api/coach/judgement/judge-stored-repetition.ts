import { speechOf } from '../../../shared/messages/speeches.ts';
import type { FieldAthlete } from '../../../shared/schemas/coach/field-view.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import type { Mounting } from '../../../shared/words.ts';
import type { Store } from '../../store/store.ts';
import type { RepetitionValueRow } from '../../store/coach-tables.ts';
import { addDays } from '../../../shared/dates.ts';
import { currentFocuses } from '../athlete-records.ts';
import { isGrowing } from '../../measuring/growth.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { findFocus, leadQuantity } from '../focuses.ts';
import { judge } from './judge.ts';
import { type Condition, conditionOf, type PlainValue, plainHistories } from './value-history.ts';

/** No baseline reaches further back (dsp/athlete/baseline.ts: 180 days for adults). */
const HISTORY_DAYS = 181;
/** A baseline rests on the latest 40; the rest leaves room for today's own. */
const HISTORY_MOST = 54;

/** One repetition judged: what the field screen, the repetition's report and the spoken result are made of. */
export function judgeStoredRepetition(
  store: Store,
  repetition: RepetitionLine,
  surface: string | null,
  quantities: readonly string[],
  stop_after: number | null,
  length: LengthUnit = 'm',
): Judgement[] {
  const condition: Condition = { ...conditionOf(repetition), surface: repetition.surface ?? surface };
  const date = repetition.session_date;
  const growing = isGrowing(store, repetition.athlete_id, date);
  const from = addDays(date, -HISTORY_DAYS);
  const limits = { from, to: date, most: HISTORY_MOST };
  const histories = plainHistories(store, repetition.athlete_id, quantities, condition, limits);
  const own = ownValues(store, repetition.analysis_id);
  return quantities.flatMap((quantity) => {
    const history = histories.get(quantity) ?? [];
    const value = own.get(quantity);
    if (!value) return [];
    const earlier = history.filter((entry) => isBefore(entry, repetition));
    return [judge(value, earlier, { date, growing, stop_after, length })];
  });
}

/** Contact time, the quantity of the focus, speed: in the order they are shown. */
export function quantitiesToJudge(focus_quantity: string | null): string[] {
  return [...new Set(['contact_time_ms', ...(focus_quantity ? [focus_quantity] : []), 'speed_max_mps'])];
}

/** The current focus of an athlete with the quantity that the sensors' mounting can give. */
export function focusOn(store: Store, athlete_id: number, date: string): FieldAthlete['focus'] {
  const current = currentFocuses(store, athlete_id, date)[0];
  const focus = current ? findFocus(current.focus) : null;
  if (!current || !focus) return null;
  return { focus: current.focus, name: current.name, quantity: leadQuantity(focus, mountingOf(store, athlete_id)) };
}

/** The sentence of what is beyond normal, the unwanted and the focus's first; else the focus's, else contact time's. */
export function leadingSentence(
  judgements: readonly Judgement[],
  latest: RepetitionLine | null,
  focus_quantity: string | null,
): string {
  if (latest === null) return 'No repetition yet.';
  if (latest.fault) return speechOf('en').tell(latest.fault).message;
  if (latest.state !== 'analysed') return 'Recorded; the result is on its way.';
  const ofFocus = judgements.find((judgement) => judgement.quantity === focus_quantity);
  const first = [ofFocus, ...judgements].filter((judgement) => judgement?.beyond);
  const beyond = first.find((judgement) => judgement?.worse) ?? first[0];
  return (beyond ?? ofFocus ?? judgements[0])?.sentence ?? 'No contact could be measured in this repetition.';
}

/** Every value of one analysis, by quantity. */
function ownValues(store: Store, analysis_id: number | null): Map<string, RepetitionValueRow> {
  const rows = store.prepare('SELECT * FROM repetition_values WHERE analysis_id = ?').all(analysis_id);
  return new Map((rows as RepetitionValueRow[]).map((row) => [row.quantity, row]));
}

function isBefore(entry: PlainValue, own: RepetitionLine): boolean {
  if (entry.session_date !== own.session_date) return entry.session_date < own.session_date;
  if (entry.session_id !== own.session_id) return entry.session_id < own.session_id;
  return entry.order_number < own.order_number;
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

import type { RepetitionJudgements } from '../../../shared/schemas/coach/repetition-judgements.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import { getSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import { readCoachSettings } from '../coach-settings.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { focusOn, judgeStoredRepetition, leadingSentence, quantitiesToJudge } from './judge-stored-repetition.ts';

/** Shown on the repetition's page besides what the field screen judges. */
const MORE_QUANTITIES = ['flight_time_ms', 'step_rate_hz', 'step_length_m'];

/** Judges one repetition, with the rules and the sentence of the field screen. */
export function repetitionJudgements(
  store: Store,
  repetition_id: number,
  length: LengthUnit = 'm',
): RepetitionJudgements {
  const repetition = getRepetitionLine(store, repetition_id);
  const session = getSession(store, repetition.session_id, true);
  const focus = focusOn(store, repetition.athlete_id, repetition.session_date);
  const leading = quantitiesToJudge(focus?.quantity ?? null);
  const quantities = [...new Set([...leading, ...MORE_QUANTITIES])];
  const { beyond_in_a_row } = readCoachSettings(store).stop_rule;
  const items = judgeStoredRepetition(store, repetition, session.surface, quantities, beyond_in_a_row, length);
  return {
    sentence: leadingSentence(
      items.filter((item) => leading.includes(item.quantity)),
      repetition,
      focus?.quantity ?? null,
    ),
    items,
  };
}

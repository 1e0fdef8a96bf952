import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { RepetitionJudgements } from '../../../shared/schemas/coach/repetition-judgements.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import { getSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { judgeStoredRepetition } from './judge-stored-repetition.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { retell } from './retell.ts';
import { oneSentence } from './verdict.ts';

/** Shown on the repetition's page besides what the field screen judges. */
const MORE_QUANTITIES = ['flight_time_ms', 'step_rate_hz', 'step_length_m'];

/** Judges one repetition, with the rules and the sentence of the field screen. */
export function repetitionJudgements(
  store: Store,
  repetition_id: number,
  length: LengthUnit = 'm',
  words = JUDGEMENT_EN,
): RepetitionJudgements {
  const repetition = getRepetitionLine(store, repetition_id);
  const session = getSession(store, repetition.session_id, true);
  const judged = judgeStoredRepetition(store, repetition.athlete_id, session, repetition, {
    more: MORE_QUANTITIES,
    length,
  });
  const { stop_rule } = readCoachSettings(store);
  const { verdict, judgements } =
    words === JUDGEMENT_EN ? judged : retell(judged, repetition, { words, length, stop_rule });
  return { verdict, sentence: oneSentence(verdict), items: judgements };
}

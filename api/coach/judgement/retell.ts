import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { StopRule } from '../../../shared/schemas/coach/coach-settings.ts';
import type { FieldAthlete, FieldView } from '../../../shared/schemas/coach/field-view.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { focusName } from '../focuses.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { blockSentence } from '../words/block-sentence.ts';
import { cautionsFor } from '../words/cautions.ts';
import { sideSentence } from '../words/side-sentence.ts';
import { verdictSentence } from '../words/verdict-sentence.ts';
import { clockQuestion } from './clock-question.ts';
import type { JudgedRepetition } from './judge-stored-repetition.ts';
import { stopAdvice } from './stop-advice.ts';
import { oneSentence, verdictOf } from './verdict.ts';

export interface Retelling {
  words: JudgementWords;
  length?: LengthUnit;
  stop_rule: StopRule;
}

/**
 * What is said of one repetition, in another language. Every sentence is made anew of the values beside it, by the functions that
 * made it first, so that no language says something that the values do not.
 */
export function retell(
  judged: Pick<JudgedRepetition, 'judgements' | 'leading' | 'focus'>,
  latest: Pick<RepetitionLine, 'state' | 'fault' | 'session_date'> | null,
  { words, length = 'm', stop_rule }: Retelling,
): Pick<JudgedRepetition, 'judgements' | 'verdict' | 'stop' | 'focus'> {
  const judgements = judged.judgements.map((judgement) =>
    retellJudgement(judgement, latest?.session_date ?? '', words, length),
  );
  const leading = judgements.slice(0, judged.leading);
  const stop = stopAdvice(leading, stop_rule, words);
  const { focus } = judged;
  const verdict = verdictOf(leading, latest, {
    focus_quantity: focus?.quantity ?? null,
    cue: focus?.cue ?? '',
    stop,
    length,
    words,
  });
  return {
    judgements,
    verdict,
    stop,
    focus: focus && { ...focus, name: focusName(focus.focus, focus.name, words) },
  };
}

/** The whole field view in another language. */
export function retellField(view: FieldView, words: JudgementWords, length: LengthUnit = 'm'): FieldView {
  const retelling = { words, length, stop_rule: view.stop_rule };
  return {
    ...view,
    athletes: view.athletes.map((athlete) => retellAthlete(athlete, view.session_date, retelling)),
    cautions: cautionsFor(view.athletes, words),
  };
}

function retellAthlete(athlete: FieldAthlete, session_date: string, retelling: Retelling): FieldAthlete {
  const latest = athlete.latest && { ...athlete.latest, session_date };
  const told = retell({ ...athlete, leading: athlete.judgements.length }, latest, retelling);
  const clock_question = latest?.clock_question ? clockQuestion(latest, retelling.words) : '';
  return {
    ...athlete,
    ...told,
    sentence: oneSentence(told.verdict),
    latest: athlete.latest && { ...athlete.latest, clock_question },
  };
}

function retellJudgement(judgement: Judgement, date: string, words: JudgementWords, length: LengthUnit): Judgement {
  const { quantity, sides, since } = judgement;
  return {
    ...judgement,
    since: since && { ...since, sentence: blockSentence(since, date, length, words) },
    side_sentence: sides ? sideSentence(quantity, sides, length, words) : '',
    sentence: verdictSentence(judgement, length, words),
  };
}

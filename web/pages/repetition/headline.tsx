import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { phrasesOf } from '../../app/language.ts';
import type { RepetitionResult } from '../../../shared/analysis.ts';
import type { RepetitionJudgements } from '../../../shared/schemas/coach/repetition-judgements.ts';
import { verdictClass } from '../../parts/verdict-class.ts';
import { reasonFor } from './repetition-figures.tsx';

const t = phrasesOf('repetition', repetitionWords);

interface HeadlineProps {
  result: RepetitionResult;
  /** Null while they are read: the sentence's place is kept. */
  judgements: RepetitionJudgements | null;
}

/** The repetition in one plain sentence, the same that the field screen says. */
export function Headline({ result, judgements }: HeadlineProps) {
  const marks = judgements && !unmeasured(result) ? verdictClass(judgements.verdict) : '';
  return <p class={`headline ${marks}`.trim()}>{unmeasured(result) ?? judgements?.sentence ?? '\u00a0'}</p>;
}

/** What to say where steps were found but no contact time could be had; null where there is one. */
function unmeasured(result: RepetitionResult): string | null {
  if (result.summary.all.contact_time_ms || result.contacts.length === 0) return null;
  const reason = reasonFor(result, 'contact_time_ms');
  return t('no_contact_time', { reason: reason ?? '' });
}

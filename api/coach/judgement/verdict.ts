import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { speechOf } from '../../../shared/messages/speeches.ts';
import type { Focus } from '../../../shared/schemas/coach/focus.ts';
import type { Judgement, NextStep, Verdict } from '../../../shared/schemas/coach/judgement.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { sinceClause } from '../words/block-sentence.ts';
import type { LengthUnit } from '../words/quantity-words.ts';

export interface VerdictOptions {
  /** The quantity that the athlete works on; null without a focus, or where the sensors cannot see it. */
  focus_quantity: Focus['quantities'][number]['quantity'] | null;
  /** The coach's own cue for it; empty when none was written. */
  cue: string;
  /** What the coach's stop rule says; empty when it says nothing. */
  stop: string;
  length?: LengthUnit;
  /** Of the language to say it in; English without them. */
  words?: JudgementWords;
}

/**
 * The one thing to say after a repetition. It is about what the athlete works on, and only about that: a word on whichever of
 * several quantities happens to stand out would be wrong several times as often. The others are judged beside it.
 */
export function verdictOf(
  judgements: readonly Judgement[],
  latest: Pick<RepetitionLine, 'state' | 'fault' | 'session_date'> | null,
  options: VerdictOptions,
): Verdict {
  const { words = JUDGEMENT_EN } = options;
  const plain = (sentence: string): Verdict => ({
    quantity: null,
    kind: null,
    wanted: null,
    sentence,
    since: '',
    since_wanted: null,
    next: { kind: 'none', text: '' },
  });
  if (latest === null) return plain(words.none_yet);
  if (latest.fault) return plain(speechOf(words.language).tell(latest.fault).message);
  if (latest.state !== 'analysed') return plain(words.on_its_way);
  const lead = judgements.find((judgement) => judgement.quantity === options.focus_quantity) ?? judgements[0];
  if (!lead) return plain(words.nothing_measured);
  return {
    quantity: lead.quantity,
    kind: lead.kind,
    wanted: lead.wanted,
    sentence: lead.sentence,
    since: sinceClause(lead.since, latest.session_date, options.length, words),
    since_wanted: lead.since?.wanted ?? null,
    next: nextStep(lead, { ...options, words }),
  };
}

/** The verdict as one sentence. */
export function oneSentence({ sentence, since }: Verdict): string {
  return since === '' ? sentence : `${sentence.replace(/\.$/, '')}; ${since}.`;
}

/**
 * What could be done before the next repetition: stop by the coach's own rule, rest longer when it keeps getting worse, or the
 * coach's own cue. Nothing here ever asks for more.
 */
function nextStep(
  lead: Judgement,
  { cue, stop, words }: Pick<VerdictOptions, 'cue' | 'stop'> & { words: JudgementWords },
): NextStep {
  if (stop !== '') return { kind: 'stop', text: stop };
  if (lead.kind === 'no comparison') return { kind: 'none', text: '' };
  const again = lead.wanted === false && lead.beyond_in_a_row >= 2;
  if (again) return { kind: 'rest', text: words.longer_rest };
  if (cue === '') return { kind: 'none', text: '' };
  return lead.wanted === true ? { kind: 'keep', text: words.keep(cue) } : { kind: 'cue', text: words.next(cue) };
}

import type { RepetitionJudgements } from '../../../shared/schemas/coach/repetition-judgements.ts';

/** The repetition in one plain sentence, the same that the field screen says; its place is kept while it is read. */
export function Headline({ judgements }: { judgements: RepetitionJudgements | null }) {
  const beyond = judgements?.items.some((item) => item.beyond !== null && item.sentence === judgements.sentence);
  return <p class={`headline${beyond ? ' is-beyond' : ''}`}>{judgements?.sentence ?? '\u00a0'}</p>;
}

import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import type { Verdict } from '../../../../shared/schemas/coach/judgement.ts';

const common = phrasesOf('common', commonWords);

/**
 * Class of a verdict's sentence: a change beyond chance has a bar at its side, solid where it is wanted, broken where it is not;
 * the words say it first.
 */
export function markOf({ kind, wanted }: Pick<Verdict, 'kind' | 'wanted'>): string {
  if (kind !== 'changed') return 'verdict';
  return `verdict is-changed ${wanted === true ? 'is-wanted' : wanted === false ? 'is-unwanted' : ''}`.trim();
}

/** The mark of one repetition beside its value; nothing where it says nothing beyond chance. */
export function BeyondMark({ beyond }: { beyond: 'above' | 'below' | null }) {
  if (beyond === null) return null;
  return (
    <span class="beyond-mark">
      {beyond === 'above' ? '▲' : '▼'}
      <span class="visually-hidden">{common(beyond === 'above' ? 'above_normal' : 'below_normal')}</span>
    </span>
  );
}

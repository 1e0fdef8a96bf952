import type { Verdict } from '../../shared/schemas/coach/judgement.ts';

/** How a verdict is marked beside its words: wanted and unwanted differ by the kind of mark; where neither is better, none is drawn. */
export function verdictClass({ kind, wanted }: Pick<Verdict, 'kind' | 'wanted'>): string {
  if (kind !== 'changed') return '';
  if (wanted === null) return 'is-beyond';
  return wanted ? 'is-beyond is-wanted' : 'is-beyond is-unwanted';
}

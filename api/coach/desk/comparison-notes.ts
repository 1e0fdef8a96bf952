import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { ComparedSide, ComparisonQuestion } from '../../../shared/schemas/coach/comparison.ts';
import type { Side } from './compared-side.ts';

interface Circumstances {
  kind: ComparisonQuestion['kind'];
  same_athlete: boolean;
  /** Both sides were run at one effort and course. */
  alike: boolean;
  /** Repetitions with a result on either side, of whatever effort and course. */
  measured: readonly [number, number];
}

/** What a reader of a comparison must know, in plain sentences. */
export function comparisonNotes(
  shown: readonly [ComparedSide, ComparedSide],
  sides: readonly [Side, Side],
  { kind, same_athlete, alike, measured }: Circumstances,
  words: JudgementWords = JUDGEMENT_EN,
): string[] {
  const say = words.coach.judged;
  const empty = measured.flatMap((n, i) => (n === 0 ? [say('nothing_in', { side: 'AB'[i] })] : []));
  if (empty.length > 0) return empty;
  if (!alike && kind !== 'repetitions') return [say('nothing_in_common')];
  const returning = [...new Set(shown.filter((side) => side.returning).map(({ name }) => name))];
  const ids = new Set(sides[0].lines.map((line) => line.repetition_id));
  const shared = sides[1].lines.filter((line) => ids.has(line.repetition_id)).length;
  const [a, b] = shown.map((side) => side.mountings);
  return [
    ...returning.map((name) => say('is_returning', { name })),
    alike ? '' : say('unlike'),
    shared > 0 ? say('in_both', { n: shared }) : '',
    a.join() !== b.join() ? say('other_places', { a, b }) : '',
    say(same_athlete ? 'one_athlete' : 'two_athletes'),
  ].filter(Boolean);
}

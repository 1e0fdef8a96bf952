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
): string[] {
  const empty = measured.flatMap((n, i) => (n === 0 ? [`Nothing was measured in ${'AB'[i]}.`] : []));
  if (empty.length > 0) return empty;
  if (!alike && kind !== 'repetitions') {
    return ['A and B have no effort and course in common, so nothing can be compared.'];
  }
  const returning = [...new Set(shown.filter((side) => side.returning).map(({ name }) => name))];
  const ids = new Set(sides[0].lines.map((line) => line.repetition_id));
  const shared = sides[1].lines.filter((line) => ids.has(line.repetition_id)).length;
  const mountings = shown.map((side) => side.mountings.join(' and '));
  return [
    ...returning.map((name) => `${name} is returning from an injury: values stand side by side, nothing is judged.`),
    alike ? '' : 'Not the same effort or course: the values stand side by side, their difference is no change.',
    shared > 0 ? `${shared} ${shared === 1 ? 'repetition belongs' : 'repetitions belong'} to A and to B.` : '',
    mountings[0] !== mountings[1]
      ? `The sensors sat on the ${mountings[0]} in A and on the ${mountings[1]} in B: small differences may be the sensors'.`
      : '',
    same_athlete
      ? 'One athlete: what stays the same in the measuring error drops out, its repeatable part counts.'
      : 'Two athletes: the whole measuring error counts. A difference between people is no advice to either.',
  ].filter(Boolean);
}

import type { Pseudonyms } from '../pseudonyms.ts';
import type { Selection } from '../selection.ts';

/** The same selection with athletes in the order of their pseudonyms: that of the database tells who came to the club first. */
export function openSelection(selection: Selection, names: Pseudonyms): Selection {
  const order = (id: number) => names.athlete(id);
  const before = (a: number, b: number) => (order(a) < order(b) ? -1 : order(a) > order(b) ? 1 : 0);
  return {
    ...selection,
    athlete_ids: [...selection.athlete_ids].sort(before),
    // The sort is stable: within an athlete the order of the sessions stays.
    repetitions: [...selection.repetitions].sort((a, b) => before(a.athlete_id, b.athlete_id)),
  };
}

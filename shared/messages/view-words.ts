import type { optionFaults } from './en/faults/options.ts';
import type { viewFaults } from './en/faults/view.ts';
import type { VIEW_EN } from './en/view.ts';
import type { FaultsLike, PhrasesLike } from './sentence.ts';

/** What the view fetches for a language other than English: its pages' phrases, its own faults, names of quantities. */
export interface ViewWords {
  phrases: { [Room in keyof typeof VIEW_EN]: PhrasesLike<(typeof VIEW_EN)[Room]> };
  faults: FaultsLike<typeof viewFaults & typeof optionFaults>;
  /** Name and definition by the English label. */
  quantities: { readonly [label: string]: readonly [name: string, definition: string] };
}

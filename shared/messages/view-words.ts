import type { commonWords } from './en/view/common.ts';
import type { fieldWords } from './en/view/field.ts';
import type { repetitionWords } from './en/view/repetition.ts';
import type { optionFaults } from './en/faults/options.ts';
import type { viewFaults } from './en/faults/view.ts';
import type { FaultsLike, PhrasesLike } from './sentence.ts';

/** What the view fetches for a language other than English: its pages' phrases, its own faults, names of quantities. */
export interface ViewWords {
  phrases: {
    common: PhrasesLike<typeof commonWords>;
    field: PhrasesLike<typeof fieldWords>;
    repetition: PhrasesLike<typeof repetitionWords>;
  };
  faults: FaultsLike<typeof viewFaults & typeof optionFaults>;
  /** By the English label of the quantity's definition. */
  labels: { readonly [label: string]: string };
}

import type { ViewWords } from '../view-words.ts';
import { optionFaults_de } from './faults/options.ts';
import { viewFaults_de } from './faults/view.ts';
import { QUANTITY_LABELS_DE } from './quantity-labels.ts';
import { commonWords_de } from './view/common.ts';
import { fieldWords_de } from './view/field.ts';
import { repetitionWords_de } from './view/repetition.ts';

/** Everything the view says in German; one file, fetched when German is spoken. */
export const VIEW_DE: ViewWords = {
  phrases: { common: commonWords_de, field: fieldWords_de, repetition: repetitionWords_de },
  faults: { ...viewFaults_de, ...optionFaults_de },
  labels: QUANTITY_LABELS_DE,
};

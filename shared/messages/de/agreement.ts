import type { agreementReasons } from '../en/agreement.ts';
import type { PhrasesLike } from '../sentence.ts';
import { QUANTITIES_DE } from './quantities.ts';

/** Wie eine Übereinstimmung oder Wiederholbarkeit gerechnet wurde, und was sie offen lässt. */
export const agreementReasons_de: PhrasesLike<typeof agreementReasons> = {
  agreement_repeated: 'Messwiederholungen (Bland und Altman 2007)',
  agreement_independent: 'unabhängige Paare (Bland und Altman 1986)',
  agreement_clocks_unrelated:
    'Die Uhren wurden über die Bodenkontakte selbst zusammengebracht: über eine systematische Abweichung des Aufsetzens sagt der Vergleich nichts, über die von Bodenkontaktzeit und Schrittlänge schon.',
  agreement_too_few: ({ quantity, pairs }, say) =>
    `${QUANTITIES_DE[quantity]?.[0] ?? quantity}: ${pairs} ${say.plural(pairs, { one: 'Paar', other: 'Paare' })}, zu wenige für Übereinstimmungsgrenzen.`,
  icc_one_way_single: 'einfaktoriell mit zufälligen Effekten, Einzelmessung',
  icc_agreement_single: 'zweifaktoriell mit zufälligen Effekten, absolute Übereinstimmung, Einzelmessung',
  icc_consistency_single: 'zweifaktoriell mit gemischten Effekten, Konsistenz, Einzelmessung',
  icc_one_way_mean: 'einfaktoriell mit zufälligen Effekten, Mittel aus k Messungen',
  icc_agreement_mean: 'zweifaktoriell mit zufälligen Effekten, absolute Übereinstimmung, Mittel aus k Messungen',
  icc_consistency_mean: 'zweifaktoriell mit gemischten Effekten, Konsistenz, Mittel aus k Messungen',
  icc_over_contacts: ({ model }, say) => `${say.because(model)}, über Bodenkontakte`,
};

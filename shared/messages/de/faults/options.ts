import type { optionFaults } from '../../en/faults/options.ts';
import type { FaultsLike } from '../../sentence.ts';

export const optionFaults_de: FaultsLike<typeof optionFaults> = {
  DISTANCE_UNREADABLE: {
    message: ({ text }) =>
      `Strecke „${text}“ ist nicht lesbar; erwartet wird eine positive Zahl mit Einheit, etwa 40yd oder 36.576m.`,
    hint: 'Die Einheit dazuschreiben: m, km, yd oder ft.',
  },
  'OPTION_UNREADABLE.quantity': {
    message: ({ field, text, example }) =>
      `${field} „${text}“ ist nicht lesbar; erwartet wird eine Zahl mit Einheit, etwa ${example}.`,
    hint: ({ units }) => `Bekannte Einheiten: ${units.join(', ')}.`,
  },
  'OPTION_UNREADABLE.not_positive': {
    message: ({ field, text }) => `${field} „${text}“ ist nicht größer als null.`,
    hint: 'Einen positiven Wert angeben.',
  },
  'OPTION_UNREADABLE.split': {
    message: ({ text }) => `Zwischenzeit „${text}“ ist nicht lesbar; erwartet wird Strecke=Zeit, etwa 10m=2.103s.`,
    hint: 'Jede Zwischenzeit einzeln angeben, beide Werte mit Einheit.',
  },
  'OPTION_UNREADABLE.splits_order': {
    message: ({ near_m, near_s, far_m, far_s }, say) =>
      `Die Zwischenzeiten ${say.number(near_m)} m = ${say.number(near_s)} s und ${say.number(far_m)} m = ${say.number(far_s)} s laufen nicht vorwärts; zu jeder längeren Strecke gehört eine spätere Zeit.`,
    hint: 'Alle Zwischenzeiten laufen ab demselben Start, nicht ab der vorigen Zwischenzeit.',
  },
  'OPTION_UNREADABLE.number': {
    message: ({ field, text }) => `${field} ist „${text}“; erwartet wird eine Zahl.`,
    hint: 'Ziffern mit Punkt oder Komma eingeben, etwa 5,21.',
  },
};

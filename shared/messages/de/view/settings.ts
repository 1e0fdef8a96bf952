import type { settingsWords } from '../../en/view/settings.ts';
import type { PhrasesLike } from '../../sentence.ts';

export const settingsWords_de: PhrasesLike<typeof settingsWords> = {
  reading_the_plots: 'Die Bilder lesen',
  normal_variation: 'übliche Schwankung',
  earlier_today: 'heute zuvor',
  the_whisker_on_a_point:
    'Der Strich an einem Punkt und die Zahl hinter ± sagen, wo der wahre Wert 95-mal von hundert liegt, soweit es auf die Messung ankommt.',
  the_band_is_what_is:
    'Das Band ist das Übliche für diesen Athleten bei dieser Intensität und Strecke: dunkel, wo etwa zwei von drei Läufen liegen; hell, so weit der Zufall reicht. Markiert wird nur, was außerhalb von beidem liegt. Es ist vorläufig, bis es auf sechs Läufen beruht: bis dahin steht veröffentlichte Schwankung für die eigene.',
  a_dash_or_words_in:
    'Ein Strich, oder Wörter anstelle einer Zahl, heißt: die Sensoren konnten es nicht messen; der Grund steht dabei. Nie wird etwas geraten, um eine Lücke zu füllen.',
  words: 'Wörter',
  metres: 'Meter',
  yards: 'Yards',
  feet: 'Fuß',
  as_this_device_is_set: 'wie dieses Gerät eingestellt ist',
  light_sunlight: 'hell (Sonne)',
  dark: 'dunkel',
  kilograms: 'Kilogramm',
  pounds: 'Pfund',
  units_and_help: 'Maßeinheiten und Hilfe',
  units_on_this_device: 'Maßeinheiten auf diesem Gerät',
  lengths_and_distances: 'Längen und Strecken',
  mass: 'Masse',
  light_and_dark: 'Hell und dunkel',
  colours_on_this_device: 'Farben auf diesem Gerät',
  paper_is_always_printed_in: 'Auf Papier wird immer in den hellen Farben gedruckt.',
  for_programs_every_pages_numbers: 'Für Programme: die Zahlen jeder Seite kommen aus ',
  the_documented_api: 'der beschriebenen Schnittstelle (API)',
  norms: 'Normwerte des Programms',
  norms_here: ({ programme, day, key }) =>
    `${programme} hat am ${day} Bereiche ähnlicher Personen veröffentlicht; sie sind mit dem Schlüssel ${key} unterschrieben.`,
  norms_show: 'Sie neben dem eigenen Üblichen eines Athleten zeigen, als „andere wie dieser“',
  norms_help:
    'Bereiche von zehn Personen oder mehr, nie Personen; Minderjährige stehen nur neben Minderjährigen. Ein Unterschied zu anderen ist kein Fehler und kein Ziel.',
  language: 'Sprache · Language',
  language_of_device: 'Sprache dieses Geräts',
  as_the_browser: 'wie der Browser',
};

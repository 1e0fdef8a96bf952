import type { Column } from '../en/column-names.ts';
import type { layoutEvidence } from '../en/layout-evidence.ts';
import type { Side } from '../../words.ts';
import type { PhrasesLike } from '../sentence.ts';
import { named, unitWords } from './column-names.ts';

const MARKS = {
  comma: 'Komma',
  semicolon: 'Semikolon',
  tab: 'Tabulator',
  bar: 'senkrechter Strich',
  blanks: 'Leerzeichen',
  point: 'Punkt',
};
const SIDES = { left: 'links', right: 'rechts', unknown: 'unbekannt' };

type SideValues = { column: Column; sides: readonly { value: string; side: Side }[] };
const sidesOf = ({ column, sides }: SideValues): string =>
  `Spalte ${named([column])}: ${sides.map(({ value, side }) => `${value} ist ${SIDES[side]}`).join(', ')}`;

/** Was an einer Datei verstanden wurde, und worauf das beruht. */
export const layoutEvidence_de: PhrasesLike<typeof layoutEvidence> = {
  took_none: 'keine',
  took_text: ({ text }) => text,
  took_mark: ({ mark }) => MARKS[mark],
  took_saved_layout: ({ name }) => `gespeichertes Layout „${name}“`,
  took_columns: ({ columns }) => named(columns),
  took_span: ({ from, to }) => `Spalten ${from} bis ${to}`,
  took_sum: ({ columns }) => `${named(columns)} zur Beschleunigung addiert`,
  took_sides: ({ sides }, say) => say.list(sides.map((side) => SIDES[side])),
  took_side_column: (values) => sidesOf(values),
  took_sides_among: (values) => `${sidesOf(values)}; andere Zeilen werden übergangen`,
  took_quantity_column: ({ column, rows }) =>
    `Spalte ${named([column])}: ${rows
      .map(
        ({ side, acc, gyr }) =>
          `${side === 'unknown' ? '' : `${SIDES[side]}: `}${acc} ist Beschleunigung${gyr === null ? '' : `, ${gyr} Drehrate`}`,
      )
      .join('; ')}`,
  took_interpolated: 'auf die Zeitpunkte der Beschleunigung gebracht',
  took_unit: ({ unit }) => unitWords(unit),
  took_time_kind: ({ kind }) =>
    ({
      rows: 'Zeilen mit fester Rate',
      number: 'eine Zahl',
      iso: 'Datum und Uhrzeit in einer Zelle',
      date_and_clock: 'ein Datum und eine Uhrzeit',
      clock: 'eine Uhrzeit',
      interval: 'die Zeit seit der Zeile davor',
    })[kind],
  took_time_in: ({ column, unit }) => `${named([column])} in ${unitWords(unit)}`,
  took_time_of: ({ column, of }) => `${named([column])} von ${of} Spalten mit Zeit`,
  took_summed: ({ column, unit }) => `${named([column])} aufsummiert, in ${unitWords(unit)}`,
  took_fraction: ({ column, unit }) => `${named([column])} fügt ${unitWords(unit)} hinzu`,
  took_rate: ({ hz }, say) => `Zeilen mit ${say.number(hz)} Hz`,
  took_no_stamps: 'Datum und Uhrzeit nicht benutzt',
  took_no_date: ({ column }) => `${named([column])} nicht benutzt`,
  took_no_order: 'nicht zu unterscheiden',

  by_layout: 'aus dem Layout',
  by_user: 'angegeben',
  by_line: ({ line }) => `„${line}“`,
  by_file_name: ({ file }) => `der Name der Datei „${file}“`,
  by_column: 'bei der Spalte geschrieben',
  by_names: 'Namen, Einheiten und Buchstaben der Achsen',
  by_names_of_side: 'die Namen der Spalten nennen die Seite',
  by_nothing_of_side: 'nichts sagt die Seite',
  by_every_row: 'jede Zeile sagt es',
  by_one_place: 'die einzigen zwei, die links und rechts einer Stelle sind',
  by_fingerprint: 'für Dateien dieser Form gemacht',
  by_first_sheet: ({ sheets }) => `das erste von ${sheets} Blättern`,
  by_only_sheet: 'das einzige Blatt',
  by_byte_order_mark: 'Byte-Reihenfolge-Marke',
  by_zero_bytes: 'jedes zweite Byte ist null',
  by_valid_utf8: 'gültiges UTF-8',
  by_code_page: ({ encoding, words }) =>
    `kein gültiges UTF-8; in ${encoding} ${words.length === 1 ? 'ist' : 'sind'} ${words.join(', ')} ${words.length === 1 ? 'ein Wort' : 'Wörter'}`,
  by_no_utf8: 'kein gültiges UTF-8; als Windows-1252 gelesen, das Latin-1 enthält',
  by_even_split: ({ columns }) => `teilt die Zeilen durchgehend in ${columns} Spalten von Zahlen`,
  by_numbers: 'die Zellen lassen sich damit als Zahlen lesen',
  by_misfit_names: ({ line, names, columns }) =>
    `Zeile ${line} hat ${names} Namen für ${columns} Spalten; sie wurden nicht benutzt`,
  by_no_names: 'keine Zeile mit Namen über der ersten Zeile',
  by_turning_nameless: 'ohne Namen: mit den anderen zurückgedreht ist ihr Mittel 1 g',
  by_gravity_nameless: 'ohne Namen: die drei Spalten, deren Betrag in Ruhe 1 g ist',
  by_zero_nameless: 'ohne Namen: die drei Spalten, die in Ruhe bei null liegen',
  by_no_zero_nameless: 'keine drei Spalten allein liegen in Ruhe bei null',
  by_gravity_unknown: 'Namen unbekannt, doch die einzigen drei Achsen, deren Betrag in Ruhe 1 g ist',
  by_turning_unknown: 'Namen unbekannt, doch mit ihnen zurückgedreht lässt die Beschleunigung 1 g übrig',
  by_gravity_axes: 'die einzigen drei Achsen, und ihr Betrag in Ruhe ist 1 g',
  by_gravity_apart: 'sie wurde abgezogen und steht in eigenen Spalten; die Summe ist, was der Sensor maß',
  by_unit_beside_counts: 'das andere sind Zählwerte davon; dieses hat eine Einheit',
  by_filtered_beside: 'das andere ist als gefiltert benannt; Bodenkontakte werden in dem gefunden, was der Sensor maß',
  by_no_rate_columns: 'keine drei Spalten mit Drehrate',
  by_only_zeros: 'ihre Spalten enthalten nichts als Nullen',
  by_axes_of_rows: 'die Achsen ihrer Zeilen',
  by_rest_of_rows: ({ acc, gyr }) =>
    `Zeilen mit ${acc} haben in Ruhe einen Betrag von 1 g${gyr === null ? '' : `, Zeilen mit ${gyr} liegen in Ruhe bei null`}`,
  by_rows_apart: 'beide stehen in eigenen Zeilen: auf der Geraden zwischen zwei Nachbarn, nie über eine Lücke hinweg',
  by_growing: 'wächst um eins je Zeile; größere Schritte sind verlorene Messwerte',
  by_counts_of_layout: ({ counts, unit }, say) => `${say.number(counts)} Zählwerte je ${unit}, aus dem Layout`,
  by_counts_of_line: ({ counts, unit, line }, say) => `${say.number(counts)} Zählwerte je ${unit}, aus „${line}“`,
  by_whole_numbers: ({ facts, counts }, say) =>
    `ganze Zahlen; ${say.because(facts)}, nahe an ${counts} Zählwerten je g`,
  by_too_much_for_degrees: ({ facts, dps }, say) =>
    `${say.because(facts)}: zu viel Bewegung für ${say.number(dps, 0)} deg/s`,
  by_same_stamps: 'sie sind in jeder angesehenen Zeile gleich',
  by_steadiest: 'die gleichmäßigste, und nicht die Zeit der Ankunft',
  by_interval_name: ({ hz }, say) => `als Zeit seit der Zeile davor benannt; ergibt ${say.number(hz)} Hz`,
  by_whole_seconds: 'die Zeitstempel sind ganze Sekunden, und damit wachsen sie gleichmäßig',
  by_stamps: ({ stamp }) => `Daten oder Uhrzeiten wie ${stamp}`,
  by_either_order: ({ stamp }) =>
    `${stamp}: Tag und Monat sind nicht zu unterscheiden; das Datum wird weggelassen, die Zeit behalten`,
  by_no_zone: 'keine ist geschrieben',
  by_no_clock: ({ file }) => `Daten ohne Uhrzeit in ${file}`,
  by_rate_given: 'Rate angegeben, keine Spalte mit Zeit',
  by_rate_line: ({ line }) => `„${line}“, keine Spalte mit Zeit`,
  by_date: ({ hz }, say) => `der Größe nach ein heutiges Datum; ergibt ${say.number(hz)} Hz`,
  by_stated_rate: ({ hz, stated_hz }, say) =>
    `der Schritt ergibt ${say.number(hz)} Hz, wie angegeben (${say.number(stated_hz)} Hz)`,
  by_next_rate: ({ step, stated_hz }, say) =>
    `ein Schritt von ${say.number(step)} nahe an den angegebenen ${say.number(stated_hz)} Hz`,
  by_step_at_rate: ({ step, stated_hz }, say) =>
    `ein Schritt von ${say.number(step)} bei den angegebenen ${say.number(stated_hz)} Hz`,
  by_written_unit: ({ hz }, say) => `geschrieben; ergibt ${say.number(hz)} Hz`,
  by_motion: ({ step, hz }, say) =>
    `der Schritt von ${say.number(step)} ergibt ${say.number(hz)} Hz, womit sich der Sensor wie ein Bein bewegt hat`,
  by_only_unit: ({ step, hz }, say) =>
    `der Schritt von ${say.number(step)} ergibt ${say.number(hz)} Hz; keine andere Einheit ergibt eine Rate von 8 bis 8000 Hz`,
};

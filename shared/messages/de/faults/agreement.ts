import type { agreementFaults } from '../../en/faults/agreement.ts';
import type { FaultsLike } from '../../sentence.ts';

type Line = { file: string; line: number };

export const agreementFaults_de: FaultsLike<typeof agreementFaults> = {
  'OPTION_UNREADABLE.repeatable_quantity': {
    message: ({ quantity, known }, say) =>
      `quantity ist „${quantity}“; möglich sind ${say.list(known, 'or')}. Nichts wurde getan.`,
    hint: 'Diese werden als Mittelwerte jedes Laufs gehalten.',
  },
  'EXPORT_EMPTY.repeatability': {
    message: ({ athletes }, say) =>
      `${athletes} ${say.plural(athletes, { one: 'Athlet hat', other: 'Athleten haben' })} in dieser Auswahl zwei Einheiten oder mehr; eine Wiederholbarkeitsstudie braucht zwei solche Athleten. Nichts wurde verglichen.`,
    hint: 'Zeitraum, Intensitäten oder Strecke erweitern.',
  },
  'REFERENCE_UNREADABLE.header': unreadable(
    ({ header }: { header: string }) => `die Kopfzeile ist „${header}“; erwartet eine Spalte touchdown_s`,
  ),
  'REFERENCE_UNREADABLE.empty': unreadable(
    ({ column }: { column: string }) => `${column} ist leer; erwartet eine Zahl in Sekunden`,
  ),
  'REFERENCE_UNREADABLE.no_number': unreadable(
    ({ column, found }: { column: string; found: string }) => `${column} ist „${found}“; erwartet eine Zahl`,
  ),
  'REFERENCE_UNREADABLE.side': unreadable(
    ({ found }: { found: string }) => `side ist „${found}“; erwartet left, right oder unknown`,
  ),
  'REFERENCE_UNREADABLE.no_rows': unreadable((_: object) => 'es gibt keine Zeilen; erwartet eine Zeile je Kontakt'),
  'FILE_NOT_FOUND.of_study': {
    message: ({ file }) => `${file}: fehlt oder lässt sich nicht öffnen. Die Studie wurde nicht gemacht.`,
    hint: 'Dateinamen in einer Liste gelten von der Liste aus.',
  },
  'LIST_UNREADABLE.no_rows': unreadableList((_: object) => 'die Liste hat keine Zeilen'),
  'LIST_UNREADABLE.mount': unreadableList(
    ({ found, known }: { found: string; known: readonly string[] }) =>
      `mount ist „${found}“; möglich sind ${known.join(' oder ')}`,
  ),
  'LIST_UNREADABLE.no_sensor': unreadableList((_: object) => 'weder left noch right nennt eine Datei'),
  'LIST_UNREADABLE.no_reference': unreadableList((_: object) => 'reference nennt keine Datei'),
  'LIST_UNREADABLE.no_repetition': unreadableList(
    ({ found }: { found: string }) => `repetition ist "${found}"; es muss die Kennung eines Laufs im Archiv sein`,
  ),
  'LIST_UNREADABLE.repetition_twice': unreadableList(
    ({ found }: { found: string }) => `Lauf ${found} steht zweimal in der Liste`,
  ),
  'REFERENCE_NOT_ALIGNED.few': {
    message: ({ recording, matched, of }) =>
      `${recording}: höchstens ${matched} von ${of} Kontakten der Referenz fallen auf Kontakte der Sensoren; die meisten müssen es. Die Uhren wurden nicht zusammengebracht.`,
    hint: 'Die Referenz auf der Uhr der Sensordatei geben, oder mit mehr Schritten, oder mit dem Start des Laufs.',
  },
  'REFERENCE_NOT_ALIGNED.two_places': {
    message: ({ recording, apart_s }, say) =>
      `${recording}: die Referenz passt an zwei Stellen, ${say.number(apart_s, 2)} s auseinander. Die Uhren wurden nicht zusammengebracht.`,
    hint: 'Die Referenz auf der Uhr der Sensordatei geben, oder mit mehr Schritten, oder mit dem Start des Laufs.',
  },
};

function unreadable<V extends object>(found: (values: V) => string) {
  return {
    message: ({ file, line, ...values }: Line & V) =>
      `${file}, Zeile ${line}: ${found(values as unknown as V)}. Die Referenz wurde nicht verwendet.`,
    hint: 'Spalten: side, touchdown_s, toe_off_s, step_length_m; eine Zeile je Kontakt, Sekunden auf einer Uhr.',
  };
}

function unreadableList<V extends object>(found: (values: V) => string) {
  return {
    message: ({ file, line, ...values }: Line & V) =>
      `${file}, Zeile ${line}: ${found(values as unknown as V)}. Die Studie wurde nicht gemacht.`,
    hint: 'Spalten: athlete, left, right, mount, reference; bei Bedarf recording, belt_speed, course, time.',
  };
}

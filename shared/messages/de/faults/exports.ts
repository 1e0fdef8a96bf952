import type { exportFaults } from '../../en/faults/exports.ts';
import type { FaultsLike } from '../../sentence.ts';

export const exportFaults_de: FaultsLike<typeof exportFaults> = {
  FOLDER_NOT_EMPTY: {
    message: ({ folder }) =>
      `${folder} enthält schon Dateien; ein Export braucht einen neuen oder leeren Ordner. Nichts wurde geschrieben.`,
    hint: 'Einen anderen Ordner nennen, oder diesen leeren.',
  },
  'EXPORT_EMPTY.selection': {
    message: 'Kein ausgewerteter Lauf passt zu dieser Auswahl. Nichts wurde exportiert.',
    hint: 'Zeitraum, Intensitäten oder Athleten erweitern.',
  },
  'EXPORT_EMPTY.no_consent': {
    message: ({ found, athletes }) =>
      `${found} Läufe passen, aber keiner ihrer ${athletes} Athleten hat der Verwendung in der Forschung zugestimmt. Nichts wurde exportiert.`,
    hint: 'Zuerst die Zustimmung festhalten, auf der Exportseite.',
  },
  'FIGURE_EMPTY.study': {
    message: ({ quantity }) => `Der Vergleich enthält „${quantity}“ nicht, also gibt es davon keine Abbildung.`,
    hint: 'Eine Größe so nennen, wie der Vergleich sie aufführt; weniger als drei Paare werden nicht verglichen.',
  },
  'FIGURE_EMPTY.course': {
    message: ({ quantity }) =>
      `Es gibt keine Einheiten mit „${quantity}“ bei dieser Intensität und Strecke, also gibt es davon keine Abbildung.`,
    hint: 'Die Seite des Verlaufs nennt die Größen und Bedingungen, die gemessen wurden.',
  },
  'FIGURE_EMPTY.repetition': {
    message: ({ quantity, by }) =>
      `Dieser Lauf enthält diese Größe nicht (${quantity}, ${by === 'step' ? 'nach Schritten' : 'nach der Strecke'}), also gibt es davon keine Abbildung.`,
    hint: 'Die Gründe stehen auf seiner Seite; nach Schritten ist mehr bekannt als nach der Strecke.',
  },
  EXPORT_NOT_FOUND: {
    message: ({ export_id }) => `Es gibt keinen Export ${export_id}.`,
    hint: 'Die Exportseite nennt die gemachten.',
  },
  'DATASET_UNREADABLE.missing': unreadable((_: object) => 'die Datei fehlt'),
  'DATASET_UNREADABLE.no_description': unreadable(
    (_: object) => 'es gibt keine dataset_description.json, also ist dies kein BIDS-Datensatz',
  ),
  'DATASET_UNREADABLE.no_motion': unreadable((_: object) => 'es gibt keine Dateien *_motion.tsv'),
  'DATASET_UNREADABLE.no_acceleration': unreadable((_: object) => 'die Kanaldatei nennt keine drei ACCEL-Kanäle'),
  'DATASET_UNREADABLE.no_rate': unreadable((_: object) => 'die Begleitdatei nennt keine Abtastrate'),
  'DATASET_UNREADABLE.no_object': unreadable((_: object) => 'sie ist kein JSON-Objekt'),
  'DATASET_UNREADABLE.columns': unreadable(
    ({ line, found, expected }: { line: number; found: number; expected: number }) =>
      `Zeile ${line} hat ${found} Spalten; die Kanaldatei nennt ${expected}`,
  ),
  'DATASET_UNREADABLE.no_derivatives': unreadable((_: object) => 'es gibt keine Ableitungen zum Vergleichen'),
  'DATASET_UNREADABLE.not_inertial': leftOut(
    'die Kanaldatei nennt keinen ACCEL-Kanal, es ist also kein Bewegungssensor',
  ),
  'DATASET_UNREADABLE.another_system': leftOut(
    'ein anderes System dieses Laufs misst dieselbe Seite oder sitzt näher am Fuß und wurde gelesen',
  ),
  TRACKED_POINTS_LEFT: {
    message: ({ file, read, others }) =>
      `${file}: Gelesen wurde ${read.join(' und ')}; ebenfalls gemessen und weggelassen: ${others.join(', ')}.`,
    hint: 'Andere wählen mit --point NAME=left --point NAME=right und --mount foot oder shank.',
  },
  'DATASET_UNREADABLE.none_inertial': unreadable((_: object) => 'kein Aufnahmesystem hat einen ACCEL-Kanal'),
  'DATASET_UNREADABLE.points': {
    message: ({ file, points }) =>
      `${file}: die Messpunkte sind ${points}; keiner heißt nach einem Fuß oder Unterschenkel. Der Datensatz wurde nicht weiter gelesen.`,
    hint: 'Sagen, welche gelesen werden: --point NAME=left --point NAME=right und --mount foot oder shank.',
  },
  'DATASET_UNREADABLE.unit': unreadable(
    ({ channel, unit }: { channel: string; unit: string }) =>
      `die Kanaldatei gibt ${channel} in "${unit}" an, was keine Einheit dafür ist`,
  ),
  'DATASET_UNREADABLE.no_raw': unreadable((_: object) => 'die Rohsignale fehlen'),
};

function unreadable<V extends object>(found: (values: V) => string) {
  return {
    message: ({ file, ...values }: { file: string } & V) =>
      `${file}: ${found(values as unknown as V)}. Der Datensatz wurde nicht weiter gelesen.`,
    hint: 'Prüfen, ob der Datensatz ganz kopiert wurde.',
  };
}

function leftOut(why: string) {
  return {
    message: ({ file }: { file: string }) => `${file}: ${why}. Das wurde weggelassen.`,
    hint: 'Soll es stattdessen gelesen werden, seine Punkte nennen: --point NAME=left und --point NAME=right.',
  };
}

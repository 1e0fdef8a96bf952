import type { timingFaults } from '../../en/faults/timing.ts';
import type { FaultsLike } from '../../sentence.ts';

const who = ({ athlete, repetition }: { athlete: string | null; repetition: number | string | null }): string =>
  `${athlete ?? 'unbekannter Athlet'}, Lauf ${repetition ?? '?'}`;

export const timingFaults_de: FaultsLike<typeof timingFaults> = {
  'ROWS_SET_ASIDE.times': {
    message: ({ file, count, line, column, found, expected }, say) =>
      `${file}: ${count} ${say.plural(count, { one: 'Zeit', other: 'Zeiten' })} beiseitegelegt (zuerst: Zeile ${line}, Spalte „${column}“: gefunden ${say.because(found)}, erwartet ${say.because(expected)}).`,
    hint: 'Die Datei berichtigen und neu einlesen; nichts wurde ergänzt.',
  },
  TIME_IMPLAUSIBLE: {
    message: ({ file, count, line, as_written, distance_m, mps, least_mps, most_mps }, say) =>
      `${file}: ${count} ${say.plural(count, { one: 'Zeit', other: 'Zeiten' })}, die niemand sprintet (zuerst: Zeile ${line}: gefunden ${as_written} auf ${say.number(distance_m)} m, im Mittel ${say.number(mps, 1)} m/s; erwartet ${say.number(least_mps)} bis ${say.number(most_mps)} m/s).`,
    hint: 'Nach einem verrutschten Komma, einer anderen Einheit oder Zwischenzeiten von Tor zu Tor suchen (die Spalte dann „interval“ nennen).',
  },
  TIMING_METHOD_UNKNOWN: {
    message: ({ file, unknown, of }, say) =>
      `${file}: ${unknown} von ${of} Zeiten sagen nicht, wie sie genommen wurden; Handzeiten und elektronische unterscheiden sich um ${say.number(0.2, 1)} bis ${say.number(0.3, 1)} s, darum wurden sie mit keinen anderen verglichen.`,
    hint: 'Eine Spalte „method“ ergänzen: hand, beam, touch pad, photo finish.',
  },
  TIMING_METHODS_MIXED: {
    message: ({ file, ...one }) =>
      `${file}: ${who(one)}: Handzeiten und elektronische Zeiten in einem Lauf; sie bleiben getrennt und werden nie vermischt.`,
    hint: 'Zeiten einer Art gelten zusammen; die anderen stehen daneben.',
  },
  TIMES_NOT_INCREASING: {
    message: ({ file, line, found, at_m, before, before_m, ...one }, say) =>
      `${file}, Zeile ${line}: ${who(one)}: gefunden ${found} bei ${say.number(at_m)} m nach ${before} bei ${say.number(before_m)} m; Zeiten laufen ab dem Start und müssen wachsen. Der Lauf wird nicht verwendet.`,
    hint: 'Sind es Zeiten von Tor zu Tor, die Spalte „interval“ nennen.',
  },
  TIMING_COLUMNS_MISSING: {
    message: ({ file, begins }) =>
      `${file}: gefunden ${begins === null ? 'nichts' : `„${begins}“`}; erwartet eine Kopfzeile mit Strecke und Zeit, oder eine Spalte je Strecke wie „10 m“. Die Datei wurde abgewiesen.`,
    hint: 'Eine Kopfzeile schreiben: athlete, repetition, distance_m, time_s, method.',
  },
};

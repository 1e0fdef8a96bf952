import type { coachFaults } from '../../en/faults/coach.ts';
import type { FaultsLike } from '../../sentence.ts';

export const coachFaults_de: FaultsLike<typeof coachFaults> = {
  'COACH_RECORD_NOT_FOUND.athlete_measures': missing('kein Körpermaß'),
  'COACH_RECORD_NOT_FOUND.athlete_focuses': missing('keinen Schwerpunkt eines Athleten'),
  'COACH_RECORD_NOT_FOUND.coach_focuses': missing('keinen eigenen Schwerpunkt'),
  'COACH_RECORD_NOT_FOUND.sprint_tests': missing('keinen Sprinttest'),
  'COACH_RECORD_NOT_FOUND.strength_records': missing('keinen Krafteintrag'),
  FOCUS_QUANTITY_UNKNOWN: {
    message: ({ quantity }) => `„${quantity}“ ist keine Größe, die hier gemessen wird. Nichts wurde gespeichert.`,
    hint: 'Den Namen einer Spalte von steps.csv verwenden, oder eine Größe der Seite „Verlauf“.',
  },
  RATING_ASPECT_UNKNOWN: {
    message: ({ aspect, known }, say) =>
      `„${aspect}“ lässt sich nicht bewerten; möglich sind ein Schwerpunkt oder ${say.list(known, 'or')}. Nichts wurde gespeichert.`,
    hint: 'Die Schwerpunkte stehen unter /api/coach/focuses.',
  },
  PHOTO_UNREADABLE: {
    message: ({ bytes }) =>
      `Die Datei mit ${bytes} Byte ist kein Bild in JPEG, PNG oder WebP. Nichts wurde gespeichert.`,
    hint: 'Das Foto senden, wie das Gerät es aufnimmt, als JPEG, PNG oder WebP.',
  },
  PHOTO_NOT_FOUND: {
    message: ({ repetition_id, aspect }) => `Lauf ${repetition_id} hat kein Foto neben „${aspect}“.`,
    hint: 'Die Bewertungen des Laufs sagen, welche eines haben.',
  },
  'REPORT_EMPTY.repetition': {
    message: ({ repetition_id }) => `Lauf ${repetition_id} hat noch kein Ergebnis.`,
    hint: 'Einen anderen Lauf, eine andere Einheit oder einen anderen Monat wählen; ein Bericht braucht mindestens einen ausgewerteten Lauf oder einen Sprinttest.',
  },
  'REPORT_EMPTY.session': {
    message: ({ athlete }) => `${athlete} hat in dieser Einheit keinen ausgewerteten Lauf.`,
    hint: 'Einen anderen Lauf, eine andere Einheit oder einen anderen Monat wählen; ein Bericht braucht mindestens einen ausgewerteten Lauf oder einen Sprinttest.',
  },
  'REPORT_EMPTY.month': {
    message: ({ athlete, date }, say) =>
      `Mit ${athlete} wurde bis zum ${say.day(date)} nichts gemessen und nichts getestet.`,
    hint: 'Einen anderen Lauf, eine andere Einheit oder einen anderen Monat wählen; ein Bericht braucht mindestens einen ausgewerteten Lauf oder einen Sprinttest.',
  },
  FOCUS_UNKNOWN: {
    message: ({ focus, known }, say) =>
      `focus ist „${focus}“; möglich sind ${say.list(known, 'or')}. Nichts wurde gespeichert.`,
    hint: 'Die Schwerpunkte stehen unter /api/coach/focuses.',
  },
  WATCH_COUNT: {
    message: ({ count }) =>
      `watches_s enthält ${count} Ablesungen; erlaubt sind eine, zwei oder drei. Nichts wurde gespeichert.`,
    hint: 'Die Ablesungen von höchstens drei Uhren eingeben.',
  },
  SPRINT_TIME_MISSING: {
    message: 'Der Test hat weder eine Zeit noch die Ablesung einer Uhr. Nichts wurde gespeichert.',
    hint: (_, say) => `Die Zeit in Sekunden eingeben, etwa ${say.number(5.21, 2)}.`,
  },
  SPLITS_NOT_RISING: {
    message: ({ split_s, split_m, before_s, before_m, finish_s, finish_m }, say) =>
      `Die Zwischenzeit ${say.number(split_s)} s bei ${say.number(split_m, 2)} m muss nach ${say.number(before_s)} s bei ${say.number(before_m, 2)} m kommen und nicht nach dem Ziel (${say.number(finish_s)} s bei ${say.number(finish_m, 2)} m). Nichts wurde gespeichert.`,
    hint: 'Zwischenzeiten laufen ab dem Start, jede später und weiter als die davor.',
  },
  ERASE_NAME_DIFFERS: {
    message: ({ typed, name }) =>
      `Der eingegebene Name ist „${typed}“, der des Athleten „${name}“. Nichts wurde gelöscht.`,
    hint: 'Den Namen genau so eingeben, wie er da steht. Endgültiges Löschen lässt sich nicht zurücknehmen; Löschen schon.',
  },
};

function missing(what: string) {
  return {
    message: ({ id }: { id: number }) => `Es gibt ${what} ${id}.`,
    hint: 'Vielleicht wurde gelöscht; das lässt sich zurücknehmen.',
  };
}

import type { accessFaults } from '../../en/faults/access.ts';
import type { FaultsLike } from '../../sentence.ts';

export const accessFaults_de: FaultsLike<typeof accessFaults> = {
  DEVICE_UNKNOWN: {
    message: 'Dieses Gerät ist nicht mit Cinderlane gekoppelt; nichts wurde gelesen oder geändert.',
    hint: 'Einen Kopplungscode zeigt der Rechner, auf dem Cinderlane läuft, unter „Devices“.',
  },
  ROLE_REFUSED: {
    message: ({ role, roles }) =>
      `Dieses Gerät ist als „${role}“ gekoppelt; hierfür braucht es ${roles.join(' oder ')}. Nichts wurde gelesen oder geändert.`,
    hint: 'Die Rolle lässt sich auf dem Rechner, auf dem Cinderlane läuft, unter „Devices“ ändern.',
  },
  OTHER_DAY_REFUSED: {
    message: ({ date }) =>
      `Dieses Gerät arbeitet nur mit den heutigen Einheiten; diese ist vom ${date}. Nichts wurde gelesen oder geändert.`,
    hint: 'Andere Tage stehen einem Gerät mit der Rolle des Trainers offen.',
  },
  'OTHER_DAY_REFUSED.athlete': {
    message:
      'Dieses Gerät arbeitet nur mit denen, die heute laufen; diese Person ist in keiner heutigen Einheit. Nichts wurde gelesen oder geändert.',
    hint: 'Erst in die heutige Einheit aufnehmen, oder ein Gerät mit der Rolle des Trainers verwenden.',
  },
  CONSENT_NOT_GIVEN: {
    message: ({ repetition_id }) =>
      `Für Lauf ${repetition_id} liegt keine Einwilligung in die Verwendung für Forschung vor; ein Gerät für Studien darf ihn nicht lesen. Nichts wurde verglichen.`,
    hint: 'Weglassen, oder den Trainer fragen, ob die Einwilligung eingetragen werden kann.',
  },
  FRESH_CODE_NEEDED: {
    message:
      'Das gibt Namen heraus oder lässt sich nicht rückgängig machen; es braucht einen frischen Code. Nichts wurde getan.',
    hint: 'Einen Bestätigungscode zeigt der Rechner, auf dem Cinderlane läuft, unter „Devices“; hier eingeben.',
  },
  'CODE_REFUSED.none': {
    message: 'Es wartet kein Code: ein Code gilt zwei Minuten, fünf Versuche und für ein Gerät.',
    hint: 'Einen neuen zeigt der Rechner, auf dem Cinderlane läuft, unter „Devices“.',
  },
  'CODE_REFUSED.wrong': {
    message: ({ tries_left }, say) =>
      `Das ist nicht der Code. ${tries_left === 0 ? 'Er gilt nicht mehr.' : `Versuche übrig: ${say.number(tries_left)}.`}`,
    hint: 'Der Code hat sechs Ziffern und steht auf dem Rechner, auf dem Cinderlane läuft, unter „Devices“.',
  },
  DEVICE_NOT_FOUND: {
    message: ({ device_id }) => `Ein Gerät ${device_id} gibt es nicht.`,
    hint: 'GET /api/access/devices zählt sie auf.',
  },
  AUTHORITY_NOT_FOUND: {
    message: 'Dieser Server hat keine Zertifizierungsstelle angelegt.',
    hint: 'Er legt eine an, wenn er mit --lan gestartet wird.',
  },
  ERASE_UNFINISHED: {
    message:
      'Die Zeilen der Person sind weg, aber ein anderes Programm liest noch die Datenbank; ihr Protokoll ließ sich nicht leeren, Bytes des Namens können darin stehen.',
    hint: 'Andere Programme schließen, die die Datenbank offen haben, und Cinderlane neu starten: es beendet zuerst die Löschung.',
  },
  TOO_MANY_REQUESTS: {
    message: ({ after }) => `Zu viele Anfragen von diesem Gerät; es darf in ${after} wieder fragen.`,
    hint: 'Andere Seiten von Cinderlane auf diesem Gerät schließen.',
  },
};

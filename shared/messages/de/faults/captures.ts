import type { captureFaults } from '../../en/faults/captures.ts';
import type { FaultsLike } from '../../sentence.ts';

export const captureFaults_de: FaultsLike<typeof captureFaults> = {
  'CAPTURE_STATE.no_sensor': state('kein Sensor ist gekoppelt', 'Zuerst Sensoren suchen und jedem eine Seite geben.'),
  'CAPTURE_STATE.not_paired_here': state(
    'dieser Sensor ist nicht mit dem Funk dieses Rechners gekoppelt',
    'Ihn zuerst auf der Seite „Live“ koppeln.',
  ),
  'CAPTURE_STATE.none_held': state('kein Sensor wird zum Beschreiben gehalten', 'Zuerst einen Sensor wählen.'),
  'CAPTURE_STATE.no_packets': state('die Aufnahme enthält keine Pakete', 'Eine andere wählen.'),
  'CAPTURE_STATE.none_runs': state('keine Aufnahme läuft', 'Zuerst die Sensoren verbinden.'),
  'CAPTURE_STATE.not_marked': state('Start wurde nicht gedrückt', 'Vor dem Stopp den Start drücken.'),
  'CAPTURE_STATE.capture_runs': state('eine Aufnahme läuft', 'Sie zuerst beenden.'),
  'CAPTURE_STATE.replay_runs': state('ein Abspielen läuft', 'Es zuerst beenden.'),
  'CAPTURE_STATE.cannot_explore': state(
    'auf diesem Weg lässt sich nicht in einen Sensor hineinsehen',
    'Den Funk des Rechners benutzen, auf dem das Programm läuft (Linux).',
  ),
  'CAPTURE_STATE.description_in_use': {
    message: ({ sensor }) => `Das geht nicht: der Sensor ${sensor} wird mit dieser Beschreibung gelesen.`,
    hint: 'Zuerst den Sensor vergessen.',
  },
  'CAPTURE_STATE.nothing_to_play': {
    message: ({ session_id }) =>
      `Einheit ${session_id} hat keinen ausgewerteten Lauf, also gibt es nichts abzuspielen.`,
    hint: 'Eine Einheit mit Ergebnissen wählen.',
  },
  'CAPTURE_STATE.still_running': {
    message: ({ capture_id }) => `Die Aufnahme ${capture_id} läuft noch. Nichts wurde geändert.`,
    hint: 'Zuerst die Aufnahme beenden.',
  },
  CAPTURE_NOT_FOUND: {
    message: ({ capture_id, sensor_id }) =>
      `Es gibt keine Aufnahme ${capture_id}${sensor_id === null ? '' : ` von Sensor ${sensor_id}`}.`,
    hint: 'Die Liste der Aufnahmen nennt die vorhandenen.',
  },
};

function state(what: string, hint: string) {
  return { message: `Das geht jetzt nicht: ${what}.`, hint };
}

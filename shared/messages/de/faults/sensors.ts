import type { sensorFaults } from '../../en/faults/sensors.ts';
import { remarksInWords } from '../../en/description-remarks.ts';
import type { FaultsLike } from '../../sentence.ts';

export const sensorFaults_de: FaultsLike<typeof sensorFaults> = {
  'RADIO_UNAVAILABLE.bus': {
    message:
      'Der Nachrichtenbus des Rechners antwortet nicht, darum ist Bluetooth nicht erreichbar. Aufgezeichnetes ist sicher. Geht das nicht binnen einer Minute vorbei, den Rechner neu starten, oder einen Browser die Sensoren halten lassen.',
    hint: '',
  },
  'RADIO_UNAVAILABLE.denied': {
    message:
      'Dieses Programm darf Bluetooth auf diesem Rechner nicht benutzen. Aufgezeichnetes ist sicher. Seinen Benutzer in die berechtigte Gruppe aufnehmen (sudo usermod -aG bluetooth USER), ab- und anmelden und das Programm neu starten; oder einen Browser die Sensoren halten lassen.',
    hint: '',
  },
  'RADIO_UNAVAILABLE.service': {
    message:
      'Der Bluetooth-Dienst läuft nicht. Aufgezeichnetes ist sicher, und die Sensoren werden wieder verbunden, sobald er zurück ist. Bleibt er weg: systemctl restart bluetooth.',
    hint: '',
  },
  'RADIO_UNAVAILABLE.adapter': {
    message:
      'Es ist kein Bluetooth-Adapter da. Aufgezeichnetes ist sicher. Den Adapter wieder einstecken; dann werden die Sensoren wieder verbunden.',
    hint: '',
  },
  'RADIO_UNAVAILABLE.platform': {
    message:
      'Nur unter Linux erreicht der Server Bluetooth selbst. Hier hält ein Browser die Sensoren: siehe „Sensoren dieses Browsers“.',
    hint: '',
  },
  'RADIO_UNAVAILABLE.off': {
    message: 'Bluetooth ist ausgeschaltet. Einschalten; dann werden die Sensoren wieder verbunden.',
    hint: '',
  },
  'SENSOR_UNREACHABLE.failed': unreachable(({ why }: { why: string }) => `hat versagt: ${why}`),
  'SENSOR_UNREACHABLE.not_connected': unreachable(({ why }: { why: string }) => `ließ sich nicht verbinden (${why})`),
  'SENSOR_UNREACHABLE.not_heard': unreachable((_: object) => 'war nicht zu hören'),
  'SENSOR_UNREACHABLE.no_services': unreachable((_: object) => 'hat seine Dienste nicht genannt'),
  'SENSOR_UNREACHABLE.no_answer': {
    message: ({ sensor_id, within_s, begins_with }, say) =>
      `Sensor ${sensor_id} hat nicht binnen ${say.number(within_s)} s geantwortet; erwartet war eine Antwort, die mit ${begins_with} beginnt. Es wird wieder versucht.`,
    hint: 'Die Antworten in der Beschreibung mit dem Handbuch des Sensors vergleichen, oder den Sensor aus- und einschalten.',
  },
  'SENSOR_UNREACHABLE.browser': {
    message: ({ sensor_id }) =>
      `Sensor ${sensor_id} wird von einem Browser gehalten, und dieser Browser antwortet nicht.`,
    hint: 'Die Live-Seite in diesem Browser öffnen und den Sensor dort verbinden.',
  },
  'SENSOR_UNREACHABLE.not_played': {
    message: ({ sensor_id, known }, say) =>
      `Sensor ${sensor_id} ist nicht in der abgespielten Aufzeichnung; sie enthält ${say.list(known)}.`,
    hint: 'Einen der Sensoren der Aufzeichnung wählen.',
  },
  SENSOR_BOND_REFUSED: {
    message: ({ sensor_id, why }) =>
      `Sensor ${sensor_id} hat die Kopplung verweigert (${why}). Er wurde nicht verbunden.`,
    hint: 'Ihn in den Kopplungsmodus bringen, ältere Kopplungen entfernen (bluetoothctl remove ADDRESS), oder seinen Code angeben, wo er einen verlangt.',
  },
  'SENSOR_BOND_REFUSED.with_code': {
    message: ({ sensor_id, why }) =>
      `Sensor ${sensor_id} hat die Kopplung verweigert (${why}). Er wurde nicht verbunden.`,
    hint: 'Seinen sechsstelligen Code prüfen; ältere Kopplungen mit diesem Sensor auf diesem und anderen Geräten entfernen (bluetoothctl remove ADDRESS), dann ihn aus- und einschalten.',
  },
  'SENSOR_NOT_AS_DESCRIBED.characteristic': {
    message: ({ sensor_id, characteristic_uuid, service_uuid, has_service, found }, say) => {
      const list = found.length === 0 ? 'nichts' : say.list(found);
      const offer = has_service ? `dieser Dienst bietet ${list}` : `er hat keinen solchen Dienst; er hat ${list}`;
      return `Sensor ${sensor_id} bietet keine Charakteristik ${characteristic_uuid} im Dienst ${service_uuid}: ${offer}. Er wurde nicht verbunden.`;
    },
    hint: 'Die Beschreibung wählen, die zum Sensor passt, oder ihre UUIDs berichtigen.',
  },
  'SENSOR_NOT_AS_DESCRIBED.no_memory': {
    message: ({ description_id }) =>
      `Die Beschreibung ${description_id} sagt nicht, wie Aufzeichnungen vom Sensor geholt werden. Nichts wurde geholt.`,
    hint: 'Eine Beschreibung wählen, die es sagt, oder „recordings“ in dieser ergänzen.',
  },
  'SENSOR_RECORDING_DAMAGED.incomplete': {
    message: ({ sensor_id, recording, have, bytes, tries }) =>
      `Aufzeichnung ${recording} von Sensor ${sensor_id}: ${have} von ${bytes} Byte kamen an, und nach ${tries} Versuchen keine mehr. Was ankam, bleibt erhalten; sie bleibt auch im Speicher des Sensors.`,
    hint: 'Den Sensor näher bringen und wieder holen: es geht dort weiter, wo es stehen blieb.',
  },
  'SENSOR_RECORDING_DAMAGED.not_cleared': {
    message: ({ sensor_id, recording, answer }) =>
      `Sensor ${sensor_id} hat seine Aufzeichnung ${recording} nicht gelöscht (Antwort ${answer}). Nichts ging verloren.`,
    hint: 'Die Liste neu holen; läuft auf dem Sensor noch eine Aufzeichnung?',
  },
  STREAM_SETTINGS_INVALID: {
    message: ({ field, found, known }, say) =>
      `${field} ist ${found}; die Beschreibung des Sensors erlaubt ${say.list(known, 'or')}. Nichts wurde geändert.`,
    hint: 'Einen der erlaubten Werte wählen.',
  },
  'PACKET_UNREADABLE.short': unreadable(({ least }: { least: number }) => `mindestens ${least} Byte um die Werte`),
  'PACKET_UNREADABLE.samples': unreadable(
    ({ most, around }: { most: number; around: number }) => `1 bis ${most} Werte in ${around} Byte anderer Felder`,
  ),
  'PACKET_UNREADABLE.checksum': unreadable(({ kind }: { kind: string }) => `eine richtige Prüfsumme ${kind}`),
  'PACKET_UNREADABLE.standard': {
    message: ({ what, bytes, least }) =>
      `${what} mit ${bytes} Byte: mindestens ${least} sind nötig. Es wurde nicht verwendet.`,
    hint: 'Die Firmware des Sensors prüfen.',
  },
  PACKET_LOG_UNREADABLE: {
    message: ({ source }) =>
      `${source}: der erste Eintrag ist nicht der Kopf eines Paketprotokolls. Nichts wurde gelesen; die Datei ist unverändert.`,
    hint: 'Prüfen, ob dies ein Paketprotokoll dieses Programms ist, und ob es ganz ist.',
  },
  'STREAM_DESCRIPTION_INVALID.fields': {
    message: ({ source, faults }, say) =>
      `Beschreibung ${source}: ${remarksInWords(faults, '/', say)}. Sie wurde nicht geladen.`,
    hint: 'Die genannten Felder berichtigen; die mitgelieferten Beschreibungen und die Seite „Sensor beschreiben“ zeigen die Form.',
  },
  'STREAM_DESCRIPTION_INVALID.tried': {
    message: ({ faults }, say) => `Die Beschreibung hat Fehler: ${remarksInWords(faults, 'als Ganzes', say)}.`,
    hint: 'Die genannten Felder berichtigen.',
  },
  'STREAM_DESCRIPTION_INVALID.unknown': {
    message: ({ id, known }, say) => `Es gibt keine Beschreibung „${id}“; es gibt ${say.list(known)}.`,
    hint: 'Eine davon wählen, oder eine Beschreibung für den Sensor hinzufügen.',
  },
  'STREAM_DESCRIPTION_INVALID.shipped': {
    message: ({ id }) =>
      `Die Beschreibung „${id}“ gehört zum Programm und lässt sich nicht entfernen. Nichts wurde geändert.`,
    hint: 'Eine mit derselben Kennung hinzufügen, um sie zu ersetzen.',
  },
};

function unreachable<V extends object>(what: (values: V) => string) {
  return {
    message: ({ sensor_id, ...values }: { sensor_id: string } & V) =>
      `Sensor ${sensor_id} ${what(values as unknown as V)}. Es wird wieder versucht.`,
    hint: 'Ist er eingeschaltet, geladen und innerhalb von 10 m? Ist er mit einem anderen Gerät verbunden?',
  };
}

function unreadable<V extends object>(expected: (values: V) => string) {
  return {
    message: ({ description, bytes, ...values }: { description: string; bytes: number } & V) =>
      `Ein Paket mit ${bytes} Byte von ${description}: erwartet ${expected(values as unknown as V)}. Es wurde behalten, aber nicht verwendet.`,
    hint: 'Prüfen, ob die Beschreibung zur Firmware des Sensors passt.',
  };
}

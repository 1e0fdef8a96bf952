import type { requestFaults } from '../../en/faults/requests.ts';
import type { FaultsLike } from '../../sentence.ts';

export const requestFaults_de: FaultsLike<typeof requestFaults> = {
  REPETITION_HAS_RECORDING: {
    message: ({ repetition_id }) =>
      `Lauf ${repetition_id} hat schon eine Aufzeichnung; sie wird nicht überschrieben. Nichts wurde gespeichert.`,
    hint: 'repetition_id weglassen, um einen Lauf hinzuzufügen, oder den alten zuerst löschen (er lässt sich wiederherstellen).',
  },
  'REQUEST_INVALID.form': {
    message: ({ why }) => `Formular: ${why}. Nichts wurde gespeichert.`,
    hint: 'Die Felder sind unter /api/docs beschrieben.',
  },
  'REQUEST_INVALID.preview': {
    message: ({ why }) => `Formular: ${why}. Nichts wurde gelesen.`,
    hint: 'Die Felder sind unter /api/docs beschrieben.',
  },
  ORIGIN_REFUSED: {
    message: ({ origin, host }) =>
      `Eine Anfrage von ${origin ?? 'einer Seite'} an „${host}“ wurde abgelehnt: sie kam nicht von der Seite von Cinderlane selbst.`,
    hint: 'Die Adresse öffnen, die der Server ausgegeben hat; mit --host NAME starten, um einen anderen Namen zuzulassen.',
  },
  VIEW_NOT_BUILT: {
    message: 'Die Ansicht ist nicht gebaut; hier ist nur die API.',
    hint: 'npm run build ausführen, dann den Server neu starten. Die API ist unter /api/docs beschrieben.',
  },
  'RECORDING_NOT_FOUND.of_import': {
    message: ({ import_id, side }) => `Import ${import_id} hat keine Datei der Seite „${side}“.`,
    hint: 'Seine Dateien stehen beim Import.',
  },
  IMPORT_NOT_FAILED: {
    message: ({ import_id, state }) =>
      `Import ${import_id} ist im Zustand „${state}“; nur ein fehlgeschlagener oder abgebrochener lässt sich neu starten.`,
    hint: 'Um bei einem fertigen andere Einstellungen zu verwenden, seine Läufe neu auswerten.',
  },
};

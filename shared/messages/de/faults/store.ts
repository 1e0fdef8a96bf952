import type { storeFaults } from '../../en/faults/store.ts';
import type { FaultsLike } from '../../sentence.ts';

export const storeFaults_de: FaultsLike<typeof storeFaults> = {
  DISK_FULL: {
    message: ({ file, why }) =>
      `${file}: Der Speicher ist voll oder lässt sich nicht beschreiben (${why}). Was vorher gespeichert war, ist sicher; dies wurde nicht gespeichert.`,
    hint: 'Platz schaffen, dann noch einmal versuchen.',
  },
  'DISK_FULL.floor': {
    message: ({ folder, free_mb, floor_mb }) =>
      `Auf dem Datenträger von ${folder} sind nur ${free_mb} MB frei; ${floor_mb} MB bleiben für laufende Aufnahmen. Dies wurde nicht gespeichert.`,
    hint: 'Platz schaffen, dann noch einmal versuchen.',
  },
  DATABASE_UNREADABLE: {
    message: ({ file, why }) => `${file}: ist keine Datenbank oder ist beschädigt (${why}). Sie blieb, wie sie ist.`,
    hint: 'Eine Sicherung an ihre Stelle legen, oder mit --data einen anderen Datenordner nennen.',
  },
  DATABASE_BUSY: {
    message: ({ file, why }) =>
      `${file}: Ein anderes Programm hielt die Datenbank zu lange fest (${why}). Dies wurde nicht gespeichert.`,
    hint: 'Noch einmal versuchen; bleibt es so, schließen, was die Datei sonst benutzt.',
  },
  DATABASE_NEWER: {
    message: ({ migration }) =>
      `Die Datenbank stammt von einer neueren Version (sie enthält „${migration}“); diese Version würde sie nicht verstehen. Sie blieb, wie sie ist.`,
    hint: 'Cinderlane aktualisieren, oder mit --data einen anderen Datenordner nennen.',
  },
  'LAYOUT_NOT_FOUND.of_import': {
    message: ({ import_id }) => `Import ${import_id} hat kein Layout: aus seinen Dateien wurde nichts gelesen.`,
    hint: 'Zuerst mit einer Korrektur neu starten; das Layout bleibt, sobald die Dateien gelesen sind.',
  },
  REANALYSIS_NOT_FOUND: {
    message: ({ reanalysis_id }) => `Es gibt keine erneute Auswertung ${reanalysis_id}.`,
    hint: 'Die Liste ist aktuell.',
  },
};

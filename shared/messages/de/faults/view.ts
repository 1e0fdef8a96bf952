import type { viewFaults } from '../../en/faults/view.ts';
import type { FaultsLike } from '../../sentence.ts';

export const viewFaults_de: FaultsLike<typeof viewFaults> = {
  VIEW_FAILED: {
    message: ({ why }) => `Diese Seite ist fehlgeschlagen: ${why}`,
    hint: 'Die Seite neu laden. Nichts Gespeichertes wurde verändert.',
  },
  SERVER_UNREACHABLE: {
    message: 'Der Cinderlane-Server hat nicht geantwortet.',
    hint: 'Prüfen, ob er läuft und ob dieses Gerät im selben Netz ist, dann noch einmal versuchen.',
  },
  ANSWER_UNREADABLE: {
    message: ({ status }) => `Der Server hat mit ${status} geantwortet, ohne zu sagen, warum.`,
    hint: 'Die Ausgabe des Servers ansehen.',
  },
  'IMPORT_CANCELLED.sending': {
    message: 'Das Senden wurde abgebrochen. Nichts wurde gespeichert.',
    hint: '',
  },
  'LAYOUT_UNREADABLE.no_json': {
    message: ({ file }) =>
      `${file}: kein JSON gefunden; erwartet wird ein Layout, wie der Export es schreibt. Nichts wurde übernommen.`,
    hint: 'Die Datei wählen, die exportiert wurde.',
  },
};

import type { recordingFaults } from '../../en/faults/recordings.ts';
import type { FaultsLike } from '../../sentence.ts';

const NO_RUNNING =
  'In der Aufzeichnung wurde kein Laufen gefunden: Stehen und Gehen zählen nicht. Die Aufzeichnung bleibt erhalten.';

export const recordingFaults_de: FaultsLike<typeof recordingFaults> = {
  ATHLETE_NOT_FOUND: missing('keinen Athleten'),
  GROUP_NOT_FOUND: missing('keine Gruppe'),
  SESSION_NOT_FOUND: missing('keine Einheit'),
  REPETITION_NOT_FOUND: missing('keinen Lauf'),
  RECORDING_NOT_FOUND: missing('keine Aufzeichnung'),
  IMPORT_NOT_FOUND: missing('keinen Import'),
  ANALYSIS_NOT_FOUND: missing('keine Auswertung'),
  LAYOUT_NOT_FOUND: missing('kein Layout'),
  NO_RUNNING_FOUND: {
    message: NO_RUNNING,
    hint: 'Prüfen, ob die Dateien zu diesem Lauf gehören, sowie den Sitz (Fuß oder Unterschenkel) und die Abtastrate.',
  },
  'NO_RUNNING_FOUND.worn_elsewhere': {
    message: ({ doubt }, say) => `${NO_RUNNING} ${say.tell(doubt).message}`,
    hint: ({ doubt }, say) => say.tell(doubt).hint,
  },
  'INTERNAL.reanalysis': {
    message: ({ why }) => `Das Programm ist an diesem Lauf gescheitert: ${why}`,
    hint: '',
  },
};

function missing(what: string) {
  return {
    message: ({ id }: { id: number }) => `Es gibt ${what} ${id}.`,
    hint: 'Vielleicht wurde gelöscht. Die Liste ist aktuell; Gelöschtes lässt sich wiederherstellen.',
  };
}

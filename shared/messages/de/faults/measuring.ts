import type { measuringFaults } from '../../en/faults/measuring.ts';
import type { FaultsLike } from '../../sentence.ts';

export const measuringFaults_de: FaultsLike<typeof measuringFaults> = {
  REPETITION_NOT_RECORDED: {
    message: ({ repetition_id }) => `Lauf ${repetition_id} hat keine Aufzeichnung, also gibt es nichts auszuwerten.`,
    hint: 'Zuerst seine Sensordateien einlesen.',
  },
  'INTERNAL.analysis': {
    message: ({ why }) =>
      `Das Programm ist an dieser Aufzeichnung gescheitert: ${why}. Die Rohdateien bleiben erhalten; sonst wurde nichts gespeichert.`,
    hint: 'Das ist ein Fehler des Programms; die Rohdateien lassen sich nach einer Aktualisierung neu auswerten.',
  },
  TASK_CANCELLED: {
    message:
      'Die Arbeit wurde abgebrochen, bevor sie fertig war. Angekommene Rohdateien bleiben erhalten; sonst wurde nichts gespeichert.',
    hint: 'Sie lässt sich jederzeit neu starten.',
  },
  TASK_TOO_LONG: {
    message: ({ limit_s }, say) =>
      `Die Arbeit wurde nach ${say.number(limit_s)} s beendet, weit länger, als Dateien dieser Größe brauchen. Die Rohdateien bleiben erhalten; sonst wurde nichts gespeichert.`,
    hint: 'Die Datei in einem Texteditor ansehen: Ist es die Aufnahme, die der Sensor geschrieben hat? Wenn ja, zeigt sie einen Fehler des Programms, der gemeldet werden sollte.',
  },
  IMPORT_GIVEN_UP: {
    message: ({ tries }) =>
      `Das Programm ist ${tries}-mal geendet, während es an diesen Dateien arbeitete; von selbst beginnt es nicht noch einmal damit. Die Dateien bleiben erhalten.`,
    hint: 'Die Dateien ansehen; von Hand lässt sich die Übernahme wieder starten.',
  },
  SERVER_BUSY: {
    message: ({ waiting }) => `${waiting} solche Aufgaben warten schon; diese wurde nicht angenommen.`,
    hint: 'In einer Minute noch einmal versuchen.',
  },
  'UPLOAD_TOO_LARGE.unpacked': {
    message: ({ file, packed, unpacked }, say) =>
      `${file}: entpackt sich zu mehr als ${say.number(unpacked)} Bytes aus ${say.number(packed)}; das tut keine Aufnahme. Die Datei wurde abgelehnt.`,
    hint: 'Die Datei entpacken und ansehen, was darin steht.',
  },
  WORKER_FAILED: {
    message: ({ why }) =>
      `Die Auswertung ist stehen geblieben (${why}). Die Rohdateien bleiben erhalten; sonst wurde nichts gespeichert.`,
    hint: 'Noch einmal versuchen; bleibt sie bei derselben Datei stehen, zeigt diese einen Fehler des Programms, der gemeldet werden sollte.',
  },
  TIME_OF_SEVERAL_REPETITIONS: {
    message: ({ found }) =>
      `Die Aufzeichnung enthält ${found} Läufe, angegeben ist aber nur eine Zeit; eine Zeit gehört zu einem Lauf. Sie wurde weggelassen.`,
    hint: 'Jedem Lauf seine eigene Zeit geben; er wird dann damit neu ausgewertet.',
  },
  'INTERNAL.import': {
    message: ({ why }) => `Der Import ließ sich nicht speichern: ${why}. Die Rohdateien bleiben erhalten.`,
    hint: 'Noch einmal versuchen; die Dateien müssen nicht neu gesendet werden.',
  },
  'OPTION_UNREADABLE.word': {
    message: ({ field, text, words }) => `${field} ist „${text}“; es muss eines davon sein: ${words.join(', ')}.`,
    hint: 'Eines der genannten Wörter verwenden.',
  },
  SETTINGS_UNREADABLE: {
    message: ({ file, path, found, expected }) =>
      `${file}, Einstellung „${path || '(ganz)'}“: gefunden ${found}, erwartet ${expected}. Es wurde nichts ausgewertet.`,
    hint: 'Nur die geänderten Einstellungen nennen; dsp/settings/settings.ts führt alle mit ihren Vorgaben auf.',
  },
  TOO_MANY_SENSORS: {
    message: ({ files, n }) =>
      `${files}: ${n} Sensoren gefunden; eine Auswertung nimmt einen, oder einen je Seite. Es wurde nichts ausgewertet.`,
    hint: 'In einem Layout nennen, welche Spalten zum linken und zum rechten Sensor gehören.',
  },
  SIDES_UNCLEAR: {
    message: ({ files, first, second }) =>
      `${files}: zwei Sensoren mit den Seiten „${first}“ und „${second}“ gefunden; erwartet werden ein linker und ein rechter. Es wurde nichts ausgewertet.`,
    hint: 'Jede Datei als links oder rechts angeben, oder die Seiten in einem Layout nennen.',
  },
  'NO_SAMPLES.in_file': {
    message: ({ file }) => `${file}: keine Messwerte gefunden. Es wurde nichts ausgewertet.`,
    hint: 'Prüfen, ob der Logger Daten geschrieben hat und die Datei ganz kopiert wurde.',
  },
  'RECORDING_NOT_FOUND.of_side': {
    message: ({ repetition_id, side }) => `Lauf ${repetition_id} hat keine Aufzeichnung der Seite „${side}“.`,
    hint: 'Die vorhandenen Seiten stehen beim Lauf.',
  },
  LONG_RUN_CUT: {
    message: ({ at_s }, say) =>
      `Die Aufzeichnung ist lang und läuft bei ${say.number(at_s, 1)} s weiter, wo sie für die Auswertung geteilt wurde; die Schritte über den Schnitt fehlen.`,
    hint: 'Die Datei in einer Pause teilen, wenn jeder Schritt zählt.',
  },
};

import type { commandLineFaults } from '../../en/faults/command-line.ts';
import type { FaultsLike } from '../../sentence.ts';

export const commandLineFaults_de: FaultsLike<typeof commandLineFaults> = {
  'OPTION_MISSING.course': {
    message: '--time ist ohne --course angegeben; eine Zeit braucht ihre Strecke. Es wurde nichts getan.',
    hint: '--course dazusetzen, etwa --course 40yd.',
  },
  'OPTION_MISSING.files': {
    message: 'Weder --left noch --right noch --file ist angegeben. Es wurde nichts getan.',
    hint: 'Mindestens eine Sensordatei nennen; --file nimmt eine, die beide Füße enthält.',
  },
  'OPTION_UNREADABLE.both_feet': {
    message: '--file enthält beide Füße, doch auch --left oder --right ist angegeben. Es wurde nichts getan.',
    hint: 'Nur --file angeben, oder --left und --right.',
  },
  'FILE_NOT_FOUND.to_back_up': {
    message: ({ file }) => `${file}: hier gibt es keine Datenbank zu sichern. Es wurde nichts geschrieben.`,
    hint: 'Ihren Ordner mit --data nennen.',
  },
  BACKUP_FAILED: {
    message: ({ file, why }) => `${file}: die Sicherung kam nicht zustande (${why}). Eine ältere ist unberührt.`,
    hint: 'Prüfen, ob Platz ist und in den Ordner geschrieben werden darf.',
  },
  'FILE_NOT_FOUND.to_restore': {
    message: ({ file }) => `${file}: Eine Sicherung dieses Namens gibt es nicht. Die Datenbank ist, wie sie war.`,
    hint: 'Die Datei mit --from nennen.',
  },
  'FILE_NOT_FOUND.passphrase': {
    message: ({ file }) => `${file}: Die Passphrase lässt sich nicht lesen. Es wurde nichts getan.`,
    hint: 'Eine Datei nennen, deren erste Zeile die Passphrase ist.',
  },
  'OPTION_UNREADABLE.passphrase': {
    message: ({ shortest }) =>
      `Die Passphrase ist kürzer als ${shortest} Zeichen; sie ließe sich erraten. Es wurde nichts getan.`,
    hint: 'Vier oder fünf zufällig gewählte Wörter lassen sich leicht behalten und schwer erraten.',
  },
  'OPTION_UNREADABLE.whole_number': {
    message: ({ option, text }) =>
      `${option} ist „${text}“; es muss eine ganze Zahl von 1 bis 10000 sein. Es wurde nichts getan.`,
    hint: 'Für den üblichen Wert weglassen.',
  },
  RESTORE_FAILED: {
    message: ({ file, why }) =>
      `${file}: Die Sicherung wurde nicht zurückgespielt (${why}). Die Datenbank ist, wie sie war.`,
    hint: 'Eine andere Sicherung versuchen; eine verschlossene braucht die Passphrase, mit der sie gemacht wurde.',
  },
  'FILE_NOT_FOUND.to_export': {
    message: ({ file }) => `${file}: hier gibt es keine Datenbank zum Exportieren. Es wurde nichts geschrieben.`,
    hint: 'Ihren Ordner mit --data nennen.',
  },
  'OPTION_UNREADABLE.identifier': {
    message: ({ option, word }) => `${option} ist „${word}“; es muss eine Zahl sein. Es wurde nichts getan.`,
    hint: 'Kennzahlen stehen in den Adressen der Ansicht, etwa #/athletes/3.',
  },
  'FILE_NOT_FOUND.folder': {
    message: ({ folder, why }) => `${folder}: ${why}. Es wurde nichts getan.`,
    hint: 'Den Ordner nennen, in dem die Aufzeichnungen liegen; Ordner darin werden nicht durchsucht.',
  },
  'FILE_NOT_FOUND.list': {
    message: ({ file }) => `${file}: ist nicht da oder lässt sich nicht öffnen. Es wurde nichts getan.`,
    hint: 'Die Schreibweise und den aktuellen Ordner prüfen.',
  },
  LIST_UNREADABLE: {
    message: ({ file, line, why }) => `${file}, Zeile ${line}: ${why}. Nichts wurde eingelesen.`,
    hint: 'cinderlane import --help nennt die Spalten.',
  },
  'FILE_NOT_FOUND.of_import': {
    message: ({ file }) => `${file}: ist nicht da oder lässt sich nicht öffnen.`,
    hint: 'Die Schreibweise und den aktuellen Ordner prüfen.',
  },
  'OPTION_MISSING.of_import': {
    message: ({ option }) => `cinderlane import: ${option} fehlt. Es wurde nichts getan.`,
    hint: 'cinderlane import --help führt die Optionen auf.',
  },
  'OPTION_UNREADABLE.point': {
    message: ({ text }) =>
      `--point ist „${text}“; es muss der Name eines Messpunkts und seine Seite sein, etwa sensor3=left. Es wurde nichts getan.`,
    hint: 'Einmal für jede Seite angeben.',
  },
  'OPTION_UNREADABLE.parallel': {
    message: ({ text }) =>
      `--parallel ist „${text}“; es muss eine ganze Zahl von 1 bis 256 sein. Es wurde nichts getan.`,
    hint: 'Weglassen für so viele, wie es Prozessoren gibt.',
  },
  JSON_UNREADABLE: {
    message: ({ file, why }) => `${file}: ist kein JSON (${why}). Es wurde nichts getan.`,
    hint: 'Kommas, Anführungszeichen und Klammern an dieser Stelle prüfen.',
  },
  FILE_NOT_FOUND: {
    message: ({ file, why }) => `${file}: ${why}. Es wurde nichts getan.`,
    hint: 'Die Schreibweise und den aktuellen Ordner prüfen.',
  },
  COMMAND_UNKNOWN: {
    message: ({ word }) => `Es gibt keinen Befehl „${word}“. Es wurde nichts getan.`,
    hint: ({ commands }) => `Befehle: ${commands.join(', ')}. cinderlane --help sagt mehr.`,
  },
  'ATHLETE_NOT_FOUND.by_name': {
    message: ({ name }) => `Es gibt keinen Athleten namens „${name}“. Es wurde nichts getan.`,
    hint: 'Namen so schreiben, wie sie gezeigt werden, mit Groß- und Kleinschreibung.',
  },
  OUTPUT_NOT_WRITABLE: {
    message: ({ folder, why }) => `${folder}: die Ergebnisse ließen sich nicht schreiben (${why}).`,
    hint: 'Prüfen, ob in den Ordner geschrieben werden darf und Platz ist.',
  },
  'OPTION_UNKNOWN.operand': {
    message: ({ command, word }) => `cinderlane ${command}: „${word}“ wird hier nicht erwartet. Es wurde nichts getan.`,
    hint: ({ command }) => `cinderlane ${command} --help führt die Optionen auf.`,
  },
  'OPTION_UNKNOWN.option': {
    message: ({ command, option }) => `cinderlane ${command}: es gibt keine Option ${option}. Es wurde nichts getan.`,
    hint: ({ command }) => `cinderlane ${command} --help führt die Optionen auf.`,
  },
  'OPTION_MISSING.option': {
    message: ({ command, option }) => `cinderlane ${command}: ${option} fehlt. Es wurde nichts getan.`,
    hint: ({ command }) => `cinderlane ${command} --help führt die Optionen auf.`,
  },
  'OPTION_MISSING.value': {
    message: ({ command, option, value }) =>
      `cinderlane ${command}: ${option} braucht einen Wert ${value}. Es wurde nichts getan.`,
    hint: ({ command }) => `cinderlane ${command} --help führt die Optionen auf.`,
  },
  'OPTION_UNREADABLE.no_value': {
    message: ({ command, option }) => `cinderlane ${command}: ${option} nimmt keinen Wert. Es wurde nichts getan.`,
    hint: ({ command }) => `cinderlane ${command} --help führt die Optionen auf.`,
  },
  'OPTION_UNREADABLE.choice': {
    message: ({ command, option, value, words }, say) =>
      `cinderlane ${command}: ${option} ist „${value}“; es muss ${say.list(words, 'or')} sein. Es wurde nichts getan.`,
    hint: ({ command }) => `cinderlane ${command} --help führt die Optionen auf.`,
  },
  'OPTION_UNREADABLE.twice': {
    message: ({ command, option }) =>
      `cinderlane ${command}: ${option} ist zweimal angegeben; es zählt nur einmal. Es wurde nichts getan.`,
    hint: ({ command }) => `cinderlane ${command} --help führt die Optionen auf.`,
  },
};

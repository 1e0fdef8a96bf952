import type { archiveFaults } from '../../en/faults/archive.ts';
import type { FaultsLike } from '../../sentence.ts';

export const archiveFaults_de: FaultsLike<typeof archiveFaults> = {
  'OPTION_UNREADABLE.archive': {
    message: ({ option }) => `${option} ist keine Adresse einer PostgreSQL-Datenbank. Nichts wurde getan.`,
    hint: 'So schreiben: postgres://benutzer@rechner/datenbank; das Passwort kann in PGPASSWORD stehen oder in der Datei, die PGPASSFILE nennt.',
  },
  'OPTION_UNREADABLE.action': {
    message: ({ found, words }, say) =>
      `"${found}" gibt es hier nicht zu tun; möglich ist ${say.list(words, 'or')}. Nichts wurde getan.`,
    hint: 'Hinter das Kommando schreiben, etwa: cinderlane archive push.',
  },
  'FILE_NOT_FOUND.data_folder': {
    message: ({ folder }) => `${folder}: diesen Ordner gibt es nicht. Nichts wurde getan.`,
    hint: 'Den Ordner der Datenbank mit --data nennen; für einen neuen Rechner zuerst anlegen.',
  },
  'FILE_NOT_FOUND.certificate': {
    message: ({ file }) => `${file}: ein Zertifikat dieses Namens gibt es nicht. Nichts wurde getan.`,
    hint: 'Mit sslrootcert die Datei der Stelle nennen, die das Zertifikat des Servers unterschrieben hat.',
  },
  ARCHIVE_UNREACHABLE: {
    message: ({ host, why }) =>
      `Das Archiv auf ${host} ist nicht zu erreichen (${why}). Was schon gesendet wurde, ist dort sicher; hier ist alles sicher.`,
    hint: 'Noch einmal, wenn es ein Netz gibt: Es geht weiter, wo es war.',
  },
  ARCHIVE_NOT_ENCRYPTED: {
    message: ({ host, mode }) =>
      `sslmode ist ${mode}; ${host} ist nicht dieser Rechner, also wird nur verschlüsselt und mit geprüftem Zertifikat verbunden. Nichts wurde gesendet.`,
    hint: 'sslmode weglassen oder auf verify-full setzen; die eigene Stelle mit sslrootcert nennen.',
  },
  ARCHIVE_REFUSED: {
    message: ({ host, why }) => `Das Archiv auf ${host} lässt diesen Benutzer nicht ein (${why}). Nichts wurde getan.`,
    hint: 'Benutzer und Passwort prüfen; wer das Archiv führt, gibt sie aus.',
  },
  'ARCHIVE_REFUSED.rights': {
    message: ({ host, why }) =>
      `Das Archiv auf ${host} lässt diesen Benutzer das nicht tun (${why}). Nichts wurde geändert.`,
    hint: 'Wer das Archiv führt, weiß weiter.',
  },
  'ARCHIVE_REFUSED.no_club': {
    message: ({ host }) => `Der Benutzer auf ${host} ist kein Verein, also gibt es nichts auszutauschen.`,
    hint: 'Die Adresse nehmen, die für den Verein ausgegeben wurde.',
  },
  ARCHIVE_NOT_MADE: {
    message: ({ host, why }) => `Die Datenbank auf ${host} enthält kein Archiv (${why}). Nichts wurde getan.`,
    hint: 'Wer sie führt, legt eines an: cinderlane archive init --archive ADRESSE.',
  },
  ARCHIVE_OLDER: {
    message: ({ host }) =>
      `Das Archiv auf ${host} hat eine ältere Form, als diese Version verlangt. Nichts wurde getan.`,
    hint: 'Wer es führt, bringt es auf den Stand: cinderlane archive init --archive ADRESSE.',
  },
  ARCHIVE_NEWER: {
    message: ({ migration }) =>
      `Das Archiv hat eine neuere Form (es enthält "${migration}"), als diese Version versteht. Nichts wurde getan.`,
    hint: 'Cinderlane auf diesem Rechner aktualisieren.',
  },
  ARCHIVE_NAME_TAKEN: {
    message: ({ name, role_name }) =>
      `"${name}" kann nicht eingelassen werden: Der Server des Archivs kennt ${role_name} schon. Nichts wurde geändert.`,
    hint: 'Einen anderen Namen wählen.',
  },
  'ARCHIVE_ANOTHER.club': {
    message: ({ folder }) =>
      `${folder} wurde schon mit einem anderen Archiv oder Verein ausgetauscht. Nichts wurde getan.`,
    hint: 'Jene Adresse nehmen, oder mit --data einen anderen Datenordner nennen.',
  },
  ARCHIVE_KEY_DIFFERS: {
    message:
      'Das Kennwort ist nicht das, mit dem die Namen dieses Vereins im Archiv versiegelt sind. Nichts wurde ausgetauscht.',
    hint: 'Das Kennwort des ersten Austauschs angeben; ohne eines bleiben Namen versiegelt, und alles andere wird ausgetauscht.',
  },
  NORMS_NOT_FOUND: {
    message: 'Das Programm hat keine Normwerte veröffentlicht.',
    hint: 'Wer es führt, veröffentlicht sie mit: cinderlane archive publish.',
  },
  'NORMS_NOT_FOUND.here': {
    message: 'Dieser Verein hat keine Normwerte eines Programms geholt.',
    hint: 'So werden sie geholt: cinderlane archive norms --archive ADRESSE.',
  },
  'NORMS_NOT_FOUND.unknown': {
    message: ({ name }) => `Von ${name} sind Geschlecht oder Geburtsjahr nicht bekannt, also steht niemand daneben.`,
    hint: 'Dafür muss nichts eingetragen werden; ohne dies wird nur mit den eigenen Werten verglichen.',
  },
  'NORMS_UNTRUSTED.key': {
    message: ({ known, found }) =>
      `Die Normwerte sind mit dem Schlüssel ${found} unterschrieben; dieser Verein vertraut ${known}. Sie wurden nicht übernommen.`,
    hint: 'Fragen, ob der Schlüssel gewechselt wurde und von wem: Das weiß, wer das Archiv führt.',
  },
  'NORMS_UNTRUSTED.signature': {
    message: 'Die Normwerte wurden nach dem Unterschreiben verändert. Sie wurden nicht übernommen.',
    hint: 'Das dem sagen, der das Archiv führt.',
  },
  'NORMS_UNTRUSTED.few': {
    message: ({ people, fewest }) =>
      `Die Normwerte nennen eine Gruppe von ${people}; weniger als ${fewest} Menschen könnten erkannt werden. Sie wurden nicht übernommen.`,
    hint: 'Das dem sagen, der das Archiv führt.',
  },
  'FILE_NOT_FOUND.norms_key': {
    message: ({ file }) => `${file} ist kein Ed25519-Schlüssel. Nichts wurde veröffentlicht.`,
    hint: 'Den Schlüssel des Programms nennen, oder eine neue Datei, damit einer gemacht wird.',
  },
  'TOOL_MISSING.duckdb': {
    message: ({ name }) =>
      `Die Dateien werden mit DuckDB gefragt, das größer als dieses Programm und nicht eingerichtet ist (${name}). Nichts wurde getan.`,
    hint: ({ variable, name }) =>
      `npm install --prefix ORDNER ${name}, dann ${variable} auf diesen Ordner setzen. Auch jedes andere Programm, das Parquet liest, kann die Dateien lesen.`,
  },
  QUANTITY_UNKNOWN: {
    message: ({ quantity }) => `"${quantity}" ist keine Größe eines Bodenkontakts. Nichts wurde getan.`,
    hint: 'Die Spalten von contacts in dictionary.csv nennen sie, etwa contact_time_ms.',
  },
  'FILE_NOT_FOUND.archive_files': {
    message: ({ folder }) => `${folder} enthält keine Dateien eines Archivs. Nichts wurde getan.`,
    hint: 'So werden sie geschrieben: cinderlane archive parquet --files ORDNER.',
  },
  'FILE_NOT_FOUND.sql': {
    message: ({ file }) => `${file}: eine Datei dieses Namens gibt es nicht. Nichts wurde getan.`,
    hint: 'Eine Datei mit einer SQL-Abfrage über die Sichten repetitions und contacts nennen.',
  },
  RUN_NOT_FOUND: {
    message: ({ run }) => `Das Archiv hat keinen Auftrag "${run}". Nichts wurde getan.`,
    hint: 'Die es gibt, nennt: cinderlane work status.',
  },
  REPETITION_LEFT_ARCHIVE: {
    message: 'Der Lauf oder seine Aufnahme ist nicht mehr im Archiv.',
    hint: 'Jemand wurde gelöscht oder stimmt nicht mehr zu: Hier ist nichts noch einmal zu tun.',
  },
  'REPETITION_LEFT_ARCHIVE.unknown': {
    message: ({ repetition_id, n }) =>
      `Das Archiv hat keinen Lauf ${repetition_id}${n > 1 ? ` (und ${n - 1} weitere der Liste nicht)` : ''}. Nichts wurde getan.`,
    hint: 'Die Spalte repetition_uuid der Parquet-Dateien oder eines Exports nennt die vorhandenen.',
  },
  'REPETITION_LEFT_ARCHIVE.export': {
    message: 'Jemand aus diesem Teil wurde gelöscht oder stimmt nicht mehr zu: Seine Dateien wurden entfernt.',
    hint: 'Fehlgeschlagenes noch einmal tun lassen: Der Teil kommt ohne sie wieder.',
  },
  RUN_KIND_DIFFERS: {
    message: ({ run }) => `Auftrag ${run} ist von anderer Art: Damit geht das nicht. Nichts wurde getan.`,
    hint: 'Eine Neuauswertung wird übernommen oder zurückgenommen; ein Vergleich oder ein Export wird abgeholt.',
  },
  RUN_NOT_ENDED: {
    message: ({ run, missing }) =>
      `Auftrag ${run} hat ${missing} Teile, die nicht fertig sind. Nichts wurde geschrieben.`,
    hint: 'Auf die Auswerter warten, oder Fehlgeschlagenes noch einmal tun lassen: cinderlane work retry.',
  },
  CLUB_NOT_FOUND: {
    message: ({ name, known }, say) =>
      `Das Archiv hat keinen Verein "${name}". Es hat: ${say.list(known)}. Nichts wurde getan.`,
    hint: 'Den Namen so schreiben, wie er zugelassen wurde.',
  },
  ARCHIVE_DAMAGED: {
    message: ({ what }) =>
      `${what} kam aus dem Archiv mit anderen Bytes, als gesendet wurden. Es wurde nicht gespeichert.`,
    hint: 'Das dem sagen, der das Archiv führt; ein Rechner des Vereins, der es noch hat, sendet es neu, sobald es dort herausgenommen ist.',
  },
};

import type { serverFaults } from '../../en/faults/server.ts';
import type { FaultsLike } from '../../sentence.ts';

export const serverFaults_de: FaultsLike<typeof serverFaults> = {
  SERVER_RUNNING: {
    message: ({ folder, address }) =>
      `Auf ${folder} arbeitet schon ein Server, unter ${address}; zwei täten dieselbe Arbeit doppelt.`,
    hint: 'Diese Adresse öffnen oder jenen Server zuerst beenden.',
  },
  'SERVER_RUNNING.starting': {
    message: ({ folder }) =>
      `Ein anderes Cinderlane hält ${folder} und startet oder endet gerade; zwei täten dieselbe Arbeit doppelt.`,
    hint: 'Einen Augenblick warten oder das andere zuerst beenden.',
  },
  FOLDER_NOT_WRITABLE: {
    message: ({ folder, why }) =>
      `In ${folder} lässt sich nicht schreiben (${why}). Der Server wurde nicht gestartet; nichts wurde geändert.`,
    hint: 'Diesem Benutzer dort das Schreiben erlauben oder mit --data einen anderen Ordner nennen.',
  },
  'READ_ONLY.disk': {
    message: ({ folder, why }) =>
      `Der Datenträger von ${folder} ist voll oder nicht beschreibbar (${why}); darum zeigt Cinderlane, was gespeichert ist, und ändert nichts.`,
    hint: 'Dort Platz schaffen, mindestens 200 MB, dann Cinderlane beenden und neu starten.',
  },
  'READ_ONLY.folder': {
    message: ({ folder, why }) =>
      `In ${folder} lässt sich nicht schreiben (${why}); darum zeigt Cinderlane, was gespeichert ist, und ändert nichts.`,
    hint: 'Dem Benutzer, der Cinderlane ausführt, dort das Schreiben erlauben oder den Ordner dorthin kopieren, wo er es darf, und ihn mit --data nennen; dann neu starten.',
  },
  'READ_ONLY.held': {
    message: ({ folder }) =>
      `Ein anderes Programm hält die Datenbank in ${folder}; darum zeigt Cinderlane, was gespeichert ist, und ändert nichts.`,
    hint: 'Schließen, was die Datei sonst benutzt, etwa ein Kopier- oder Abgleichprogramm, dann Cinderlane beenden und neu starten.',
  },
  'READ_ONLY.newer': {
    message: ({ migration }) =>
      `Die Datenbank stammt von einer neueren Version (sie enthält „${migration}“); darum zeigt diese Version, was sie davon versteht, und ändert nichts.`,
    hint: 'Cinderlane aktualisieren, dann neu starten.',
  },
  'INTERNAL.start': {
    message: ({ error_id, folder }) =>
      `Der Server konnte wegen eines Programmfehlers nicht starten. Was gespeichert ist, ist sicher. In ${folder} steht er in errors.log unter ${error_id}.`,
    hint: 'Noch einmal starten; bleibt es so, diese Zeile aus errors.log an den Betreuer des Programms geben. Sie enthält keine Namen.',
  },
  'OPTION_UNREADABLE.host': {
    message: ({ host }) =>
      `--host ist „${host}“, das ist keine Adresse dieses Rechners; der Server wurde nicht gestartet.`,
    hint: 'Weglassen für nur diesen Rechner, oder 0.0.0.0 für jede seiner Adressen.',
  },
  'OPTION_UNREADABLE.reserved_port': {
    message: ({ port }) =>
      `Port ${port} ist dem System vorbehalten und diesem Benutzer nicht offen; der Server wurde nicht gestartet.`,
    hint: 'Mit --port einen ab 1024 nennen.',
  },
  'DATABASE_UNREADABLE.empty': {
    message: ({ file }) =>
      `${file} ist leer, doch was daneben liegt, zeigt, dass hier eine Datenbank war. Nichts wurde geändert.`,
    hint: 'Eine Sicherung an ihre Stelle legen. Um neu zu beginnen, den Ordner vorher wegbewegen.',
  },
  SERVER_PORT_TAKEN: {
    message: ({ port }) => `Port ${port} wird von einem anderen Programm benutzt; der Server wurde nicht gestartet.`,
    hint: ({ option }) => `Mit ${option} einen anderen nennen, oder ${option} 0 für irgendeinen freien.`,
  },
  CERTIFICATE_UNREADABLE: {
    message: ({ cert_file, key_file, why }) =>
      `${cert_file} und ${key_file} sind kein Zertifikat mit seinem Schlüssel: ${why}. Der Server wurde nicht gestartet.`,
    hint: 'Beide müssen zusammengehörige PEM-Dateien sein. Ohne sie macht --lan ein eigenes Zertifikat.',
  },
  'FILE_NOT_FOUND.certificate': {
    message: ({ file }) => `${file} ist nicht lesbar. Der Server wurde nicht gestartet.`,
    hint: 'Ein Zertifikat und seinen Schlüssel nennen, beide als PEM-Datei.',
  },
  'OPTION_MISSING.certificate': {
    message:
      '--tls-cert und --tls-key gehören zusammen und brauchen --lan oder --https-port. Der Server wurde nicht gestartet.',
    hint: 'Ohne beide macht --lan ein eigenes Zertifikat.',
  },
  'OPTION_UNREADABLE.port': {
    message: ({ option, text }) =>
      `${option} ist „${text}“; es muss eine ganze Zahl von 0 bis 65535 sein. Nichts wurde getan.`,
    hint: ({ usual }) => `Weglassen für ${usual}.`,
  },
};

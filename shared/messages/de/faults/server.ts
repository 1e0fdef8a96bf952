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

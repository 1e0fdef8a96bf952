import type { httpFaults, RequestProblem } from '../../en/faults/http.ts';
import type { FaultsLike } from '../../sentence.ts';

function problemText(problem: RequestProblem): string {
  switch (problem.kind) {
    case 'missing':
      return `„${problem.field}“ fehlt`;
    case 'unknown':
      return `„${problem.field}“ ist kein bekanntes Feld`;
    case 'word':
      return `„${problem.field}“ muss eines davon sein: ${problem.words.join(', ')}`;
    case 'other':
      return `${problem.field ? `„${problem.field}“` : 'der Wert'}: ${problem.why}`;
  }
}

export const httpFaults_de: FaultsLike<typeof httpFaults> = {
  ROUTE_NOT_FOUND: {
    message: ({ method, path }) => `Unter ${method} ${path} gibt es nichts.`,
    hint: 'Die Adressen stehen unter /api/docs.',
  },
  'REQUEST_INVALID.fields': {
    message: ({ part, field, problems }) =>
      `${part}${field ? `, Feld „${field}“` : ''}: ${problems.map(problemText).join('; ')}. Nichts wurde gespeichert.`,
    hint: 'Die erwarteten Felder sind unter /api/docs beschrieben.',
  },
  'REQUEST_INVALID.other': {
    message: ({ why }) => `Die Anfrage wurde abgelehnt (${why}). Nichts wurde gespeichert.`,
    hint: 'Siehe /api/docs.',
  },
  UPLOAD_TOO_LARGE: {
    message: ({ why }) => `Das Gesendete ist größer als erlaubt (${why}). Nichts wurde gespeichert.`,
    hint: 'Siehe /api/docs.',
  },
  'PACKET_UNREADABLE.batch': {
    message: ({ sensor_id, damaged, bytes }) =>
      `Ein Stapel Pakete des Sensors ${sensor_id}: ${damaged} von ${bytes} Bytes sind kein ganzer Eintrag. Nichts davon wurde übernommen.`,
    hint: 'Ein Eintrag hat die Form eines Paketprotokolls: Länge, Art, Ankunft, Inhalt, CRC-32.',
  },
  'REQUEST_INVALID.too_many_sensors': {
    message: ({ most }) => `${most} Sensoren werden schon von Browsern gehalten; dieser wurde nicht übernommen.`,
    hint: 'Nicht gebrauchte Live-Seiten schließen; was sie hielten, wird nach einigen Sekunden frei.',
  },
  'INTERNAL.request': {
    message: 'Der Server ist an dieser Anfrage gescheitert. Was vorher gespeichert war, ist sicher.',
    hint: 'Die Ausgabe des Servers sagt mehr; ein neuer Versuch schadet nicht.',
  },
};

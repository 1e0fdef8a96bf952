import type { contactFaults, MissingPlace } from '../../en/faults/contacts.ts';
import type { FaultsLike } from '../../sentence.ts';
import type { Speech } from '../../say.ts';

export const contactFaults_de: FaultsLike<typeof contactFaults> = {
  CONTACTS_MISSED: {
    message: ({ repetition, missing }, say) => {
      const total = missing.reduce((sum, { contacts }) => sum + contacts, 0);
      const are = say.plural(total, {
        one: 'Bodenkontakt wurde gelaufen und nicht gefunden',
        other: 'Bodenkontakte wurden gelaufen und nicht gefunden',
      });
      const places = say.list(missing.map((one) => place(one, say)));
      return `Lauf ${repetition}: ${total} ${are}: ${places}. Was darüber hinwegreicht (Schritt-, Flug- und Doppelschrittzeiten, Schrittfrequenz, Längen und Geschwindigkeit), bleibt leer; Schritte sind gezählt, wie sie gefunden wurden.`;
    },
    hint: ({ missing }) =>
      missing.some(({ samples_lost }) => samples_lost)
        ? 'Die Aufzeichnung aus dem Speicher des Sensors einlesen, falls er einen hat: Ihr fehlt nichts durch Funklücken.'
        : 'Das Signal an dieser Stelle ansehen: Ein Sensor kann verrutscht sein, oder ein Schritt war kein Laufschritt.',
  },
};

function place({ after_step, contacts, samples_lost }: MissingPlace, say: Speech): string {
  const where =
    after_step === 0
      ? 'vor dem ersten gefundenen, der der zweite Schritt des Starts ist'
      : `${say.number(contacts)} nach Schritt ${after_step}`;
  return samples_lost ? `${where} (dort fehlen Messwerte)` : where;
}

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
  FEET_DISAGREE: {
    message: ({ repetition, apart_s, after_left_s, after_right_s, empty }, say) =>
      `Lauf ${repetition}: Ein Schritt nach dem linken Fuß dauert ${ms(after_left_s, say)}, einer nach dem rechten ${ms(after_right_s, say)}. So läuft kaum jemand; die Uhren der beiden Sensoren scheinen ${ms(apart_s, say)} auseinander zu sein. ${
        empty
          ? 'Schritt- und Flugzeiten und was darauf beruht, bleiben leer; Bodenkontakt- und Doppelschrittzeiten jedes Fußes gelten.'
          : 'Schritt- und Flugzeiten von links und rechts sind zweifelhaft; Bodenkontakt- und Doppelschrittzeiten jedes Fußes gelten.'
      }`,
    hint: () =>
      'Beide Sensoren am Anfang einmal aneinanderschlagen oder Dateien mit Uhrzeit einlesen und neu auswerten. Läuft die Person wirklich so, gehört der Unterschied zu ihr.',
  },
};

function ms(time_s: number, say: Speech): string {
  return `${say.number(1000 * time_s, 0)} ms`;
}

function place({ after_step, contacts, samples_lost }: MissingPlace, say: Speech): string {
  const where =
    after_step === 0
      ? 'vor dem ersten gefundenen, der der zweite Schritt des Starts ist'
      : `${say.number(contacts)} nach Schritt ${after_step}`;
  return samples_lost ? `${where} (dort fehlen Messwerte)` : where;
}

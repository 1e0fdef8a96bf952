import type { planningPhrases } from '../../en/coach/planning.ts';
import type { PhrasesLike } from '../../sentence.ts';

export const planningPhrases_de: PhrasesLike<typeof planningPhrases> = {
  own_limit: 'deine eigene Grenze',
  speed_repetition_long: ({ n, shown, most }) =>
    `Serie ${n}: ${shown} ist länger als Tempoläufe von höchstens ${most}.`,
  technique_repetition_long: ({ n, shown, most }) =>
    `Serie ${n}: ${shown} ist länger als Technikläufe von höchstens ${most}.`,
  rest_short: ({ n, rest_s, least_s }) =>
    `Serie ${n}: ${rest_s} s Pause sind weniger als ${least_s} s; volles Tempo braucht volle Erholung.`,
  speed_distance_high: ({ shown, over, most }) => `${shown} mit vollem Tempo sind ${over} über der Grenze von ${most}.`,
  speed_repetitions_many: ({ n, most }) => `${n} Läufe mit vollem Tempo sind mehr als die Grenze von ${most}.`,
  session_long: ({ minutes, most }) => `Etwa ${minutes} min Laufen und Pausen; die Grenze ist ${most} min.`,
  speed_same_day: ({ hours }) => `Am selben Tag wie eine andere Tempoeinheit; ${hours} h gehören dazwischen.`,
  speed_too_soon: ({ days, after, date, hours }, say) =>
    `Nur ${say.plural(days, { one: 'einen Tag', other: `${days} Tage` })} ${after ? 'nach' : 'vor'} der Tempoeinheit vom ${date}; ${hours} h gehören dazwischen.`,
  speed_sessions_many: ({ n, most }) => `Das ist die ${n}. Tempoeinheit in 7 Tagen; die Grenze ist ${most}.`,
  week_rises: ({ now, percent, before, most }) =>
    `Damit haben 7 Tage ${now}: ${percent} % mehr als die 7 Tage davor (${before}); die Grenze ist ${most} %.`,
  no_day_off: ({ trained, off, least }, say) =>
    `${trained} Trainingstage von 7 lassen ${off} frei; mindestens ${least} ${say.plural(least, { one: 'gehört', other: 'gehören' })} in jede Woche.`,
  template_short_sprints: 'Kurze Sprints',
  template_short_sprints_why: 'Acht Sprints über 20 m, 2 min Pause: die Hälfte der 16, die erprobt wurden.',
  template_short_sprints_who: 'Jungen von 10 bis 18 Jahren in den Studien',
  template_acceleration: 'Beschleunigung',
  template_acceleration_why: 'Fünf Sprints über 30 m aus dem Dreipunktstart, 4 min Pause: 150 m.',
  template_acceleration_who: 'erwachsene Spitzensprinter',
  template_maximal_velocity: 'Höchstgeschwindigkeit',
  template_maximal_velocity_why:
    'Vier fliegende Sprints über 20 m nach 20 bis 40 m Anlauf, 8 min Pause: 80 m, der Anlauf nicht gezählt.',
  template_maximal_velocity_who: 'erwachsene Spitzensprinter',
  template_empty: 'Leer',
  template_empty_why: 'Eigene Serien schreiben.',
  focus_contact_time: 'kurzer Kontakt',
  focus_contact_time_meaning: 'Wie lange jeder Fuß bei Tempo am Boden bleibt.',
  focus_contact_time_unseen: 'Wie steif Knöchel und Hüfte sind, solange der Fuß am Boden ist.',
  focus_evenness: 'links wie rechts',
  focus_evenness_meaning:
    'Ob links und rechts dasselbe tun, über das hinaus, was jede Seite für sich schwankt. Es ist für sich allein kein Zeichen einer Verletzung, und bei Sprintern hing es nicht mit dem Tempo zusammen.',
  focus_evenness_unseen:
    'Warum die Seiten sich unterscheiden. Ein Hinken oder Schmerz gehört zu Fachleuten, nicht zu einer Zahl.',
  focus_rhythm: 'Schrittfrequenz und Schrittlänge',
  focus_rhythm_meaning:
    'Woraus das Tempo besteht: mehr Schritte je Sekunde oder längere Schritte. Athleten stützen sich auf das eine oder das andere.',
  focus_acceleration_end: 'wie lange beschleunigt wird',
  focus_acceleration_end_meaning:
    'Wo der Athlet nicht mehr schneller wird. Die Beschleunigung hat Abschnitte mit Übergängen dazwischen.',
  focus_acceleration_end_unseen: 'Wie aufrecht der Rumpf ist.',
  upper_body: 'Arme, Kopf und Rumpf: selbst ansehen und eine Notiz oder Bewertung zum Lauf schreiben.',
};

import type { judgedPhrases } from '../../en/coach/judged.ts';
import type { PhrasesLike } from '../../sentence.ts';

const PLACES: { readonly [place: string]: string } = { foot: 'am Schuh', shank: 'am Unterschenkel' };
const placesOf = (mountings: readonly string[]): string[] => mountings.map((mounting) => PLACES[mounting] ?? mounting);

export const judgedPhrases_de: PhrasesLike<typeof judgedPhrases> = {
  better: ({ text }) => `Besser: ${text}`,
  worse: ({ text }) => `Schlechter: ${text}`,
  block_likely: ({ subject, now, size, direction, date, range }) =>
    `${subject} ${now}: seit ${date} wahrscheinlich ${size} ${direction} (${range}), aber noch nicht mehr als Zufall.`,
  block_none: ({ subject, now, date, range }) =>
    `${subject} ${now}: seit ${date} keine Änderung über den Zufall hinaus (${range}).`,
  block_changed: ({ subject, before, now, date, size, direction, range }) =>
    `${subject} von ${before} auf ${now} seit ${date}, ${size} ${direction} (${range}).`,
  course_nothing: ({ label }) => `${label}: noch nichts gemessen.`,
  course_needs: ({ label, last }) =>
    `${label} ${last} in der letzten Einheit; um eine Änderung zu sagen, braucht es zwei Einheiten vor und zwei in einem Block.`,
  fatigue_needs: ({ label }) =>
    `${label}: um Ermüdung zu sehen, braucht es drei Läufe mit gleicher Intensität und Strecke.`,
  fatigue: ({ label, fresh, last, percent, drift, stop }) =>
    `${label} anfangs ${fresh}, am Ende ${last} (${percent} %), ${drift}.${stop ? ' Deine Regel zum Aufhören ist erfüllt.' : ''}`,
  no_drift: 'kein Verlauf über den Zufall hinaus',
  drift: ({ size }) => `je Lauf um ${size} weiter, mehr als Zufall`,
  alike: 'A und B gleich',
  differs: ({ size, direction }) => `B ${size} ${direction} als A`,
  differs_by: ({ text, range, certainty }) => `${text} (${range}): ${certainty}.`,
  told_likely: 'wahrscheinlich, aber noch nicht mehr als Zufall',
  'told_beyond chance': 'mehr als Zufall',
  'told_may be chance': 'kann Zufall sein',
  returning_alone: 'Während der Rückkehr wird nicht verglichen.',
  nothing_to_compare: 'Noch nichts zum Vergleichen.',
  as_usual: ({ range }) => `Wie üblich: das Übliche ist ${range}.`,
  against_usual: ({ size, direction, alone, today }) =>
    `${alone ? 'der letzte ' : ''}${size} ${direction} als ${today ? 'früher an dem Tag' : 'üblich'}`,
  may_be_chance: ({ text, range }) => `${text}, kann Zufall sein: das Übliche ist ${range}.`,
  works_on: ({ name, cue }) => `Arbeitet an: ${name}.${cue && ` Stichwort: „${cue}“.`}`,
  nothing_in: ({ side }) => `In ${side} wurde nichts gemessen.`,
  nothing_in_common: 'A und B haben keine Intensität und Strecke gemeinsam; nichts lässt sich vergleichen.',
  is_returning: ({ name }) =>
    `${name} kehrt nach einer Verletzung zurück: die Werte stehen nebeneinander, nichts wird beurteilt.`,
  unlike: 'Nicht dieselbe Intensität oder Strecke: die Werte stehen nebeneinander, ihr Unterschied ist keine Änderung.',
  in_both: ({ n }, say) => `${say.plural(n, { one: '1 Lauf gehört', other: `${n} Läufe gehören` })} zu A und zu B.`,
  other_places: ({ a, b }, say) =>
    `Die Sensoren saßen in A ${say.list(placesOf(a))} und in B ${say.list(placesOf(b))}: kleine Unterschiede können von den Sensoren kommen.`,
  one_athlete: 'Ein Athlet: was am Messfehler gleich bleibt, fällt heraus; es zählt der wiederkehrende Teil.',
  two_athletes:
    'Zwei Athleten: der ganze Messfehler zählt. Ein Unterschied zwischen Menschen ist für keinen von beiden ein Rat.',
  session_of: ({ date }) => (date ? `Einheit vom ${date}` : 'Einheit'),
  repetition_of: ({ n, date }) => (n === null ? 'Lauf' : `Lauf ${n} vom ${date}`),
};

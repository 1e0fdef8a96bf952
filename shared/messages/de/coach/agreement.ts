import type { agreementPhrases } from '../../en/coach/agreement.ts';
import type { PhrasesLike } from '../../sentence.ts';

type Interval = { value: string; low: string; high: string };
const interval = ({ value, low, high }: Interval): string => `${value} (${low} bis ${high})`;

/** Eine Studie zur Übereinstimmung mit einem Referenzsystem: Bericht, Tabelle und Abbildungen. */
export const agreementPhrases_de: PhrasesLike<typeof agreementPhrases> = {
  study_title: 'Übereinstimmung mit einem Referenzsystem',
  made_by: ({ version, method }) =>
    `Cinderlane ${version}, Verfahren ${method}. Differenzen sind Cinderlane minus Referenz.`,
  found_in: ({ recordings, athletes, matched, of, missed, extra }) =>
    `${recordings} Aufzeichnungen von ${athletes} Athleten: ${matched} von ${of} Bodenkontakten der Referenz zugeordnet, ${missed} fehlen, ${extra} zu viel`,
  recording: 'Aufzeichnung',
  athlete: 'Athlet',
  contacts: 'Kontakte',
  matched: 'zugeordnet',
  missed: 'fehlen',
  extra: 'zu viel',
  pairs_of: ({ pairs, athletes, method }) => `${pairs} Paare von ${athletes} Athleten; ${method}.`,
  bias: ({ bias, sd, between, within }) =>
    `Systematische Abweichung ${interval(bias)}, SD ${sd}${between === null ? '' : ` (zwischen Athleten ${between}, innerhalb ${within})`}.`,
  limits: ({ lower, upper }) =>
    `Übereinstimmungsgrenzen ${interval(lower)} und ${interval(upper)}; in Klammern 95-%-Intervalle.`,
  errors: ({ mean, square, typical }) =>
    `Mittlerer absoluter Fehler ${mean}, quadratischer Mittelwert ${square}, typischer Fehler ${typical}.`,
  own_limits: ({ within_low, within_high, low, high }) =>
    `Grenzen um die eigene Abweichung eines Athleten ${within_low} bis ${within_high}; die Abweichungen der Athleten liegen zwischen ${low} und ${high}.`,
  correlation: ({ form, icc, model }) => `${form} ${interval(icc)}: ${model}.`,
  grows: ({ slope }) => `Die Differenz wächst um ${interval(slope)} je Einheit der Größe.`,
  coverage: ({ percent }) => `Die angegebenen 95-%-Intervalle enthalten die Referenz in ${percent} % der Paare.`,
  source_limits:
    'Systematische Abweichung, SD und Grenzen unabhängiger Paare mit Intervallen nach Student: Bland und Altman 1986 (doi 10.1016/S0140-6736(86)90837-8).',
  source_repeated:
    'Mehrere Paare je Athlet: Varianz zwischen und innerhalb von Athleten durch Varianzanalyse, Bland und Altman 2007 (doi 10.1080/10543400701329422); Intervalle dieser Grenzen: MOVER, Zou 2013 (Stat Methods Med Res 22:630-642).',
  source_correlation:
    'ICC(A,1), absolute Übereinstimmung, und ICC(C,1), Konsistenz: McGraw und Wong 1996 (doi 10.1037/1082-989X.1.1.30), Intervalle wie Shrout und Fleiss 1979 (doi 10.1037/0033-2909.86.2.420).',
  source_errors:
    'Größenabhängige Abweichung: Ausgleichsgerade der Differenz über dem Mittel beider, Intervall ihrer Steigung nach Student. Typischer Fehler: SD der Differenzen durch Wurzel 2, Hopkins 2000 (Sports Med 30:1-15).',
  source_coverage:
    'Abdeckung: Anteil der Paare innerhalb des 1,96-Fachen der angegebenen Standardunsicherheiten (JCGM 100:2008); angestrebt sind 95 %.',
  figure_title: ({ quantity }) => `Übereinstimmung mit der Referenz: ${quantity}`,
  instant_axis: 'Zeitpunkt in der Aufzeichnung, s',
  mean_axis: ({ unit }) => `Mittel beider, ${unit}`,
  difference_axis: ({ unit }) =>
    `Differenz, ${unit}: Linie = Abweichung, Striche = Übereinstimmungsgrenzen, Bänder = ihre 95-%-Intervalle, Punkte = Gerade der Größenabhängigkeit`,
  left: 'links',
  right: 'rechts',
  caption: ({ quantity, unit, pairs, bias, limits }) =>
    `Differenzen (${quantity}, Cinderlane minus Referenz, ${unit}) über dem Mittel beider: ${pairs} ${bias} ${limits} Hohl: linker Fuß, gefüllt: rechter Fuß; Formen: Athleten.`,
};

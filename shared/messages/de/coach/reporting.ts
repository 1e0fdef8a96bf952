import type { reportingPhrases } from '../../en/coach/reporting.ts';
import type { PhrasesLike } from '../../sentence.ts';

export const reportingPhrases_de: PhrasesLike<typeof reportingPhrases> = {
  repetition_title: ({ n, date }) => `Lauf ${n}, ${date}`,
  session_title: ({ title, date }) => `${title || 'Einheit'}, ${date}`,
  course_not_given: 'Strecke nicht angegeben',
  ran: ({ course, time, hand }) => `${course}${time === null ? '' : ` in ${time}${hand ? ' von Hand' : ''}`}`,
  in_steps: ({ ran, n }) => `${ran}, in ${n} Schritten.`,
  contacts_measured: ({ ran, n }) => `${ran}; ${n} Bodenkontakte gemessen.`,
  last_repetition: ({ sentence }) => `Letzter Lauf: ${sentence}`,
  measured: ({ n, total }, say) =>
    `${n} ${say.plural(n, { one: 'gemessener Lauf', other: 'gemessene Läufe' })}, zusammen ${total}.`,
  fastest: ({ course, time }) => ` Schnellster Lauf${course === null ? '' : ` über ${course}`}: ${time}.`,
  no_repetition_this_month: 'In diesem Monat wurde kein Lauf gemessen.',
  ran_this_month: ({ sessions, n, total }, say) =>
    `${sessions} ${say.plural(sessions, { one: 'Einheit', other: 'Einheiten' })} mit ${n} ${say.plural(n, { one: 'gemessenen Lauf', other: 'gemessenen Läufen' })}, zusammen ${total}.`,
  test_over: ({ distance, sentence }) => `Sprinttest über ${distance}: ${sentence}`,
  how_long: 'Wie lange jeder Fuß am Boden bleibt',
  how_fast: 'Wie schnell',
  steps_a_second: 'Schritte je Sekunde',
  against_normal: 'Dieser Lauf gegen das Übliche',
  by_distance: ({ quantity }) => `${quantity} nach Strecke, links und rechts, über dem für den Athleten Üblichen`,
  by_step: ({ quantity }) => `${quantity} nach Schritten, links und rechts, über dem für den Athleten Üblichen`,
  distance_axis: ({ unit }) => `Strecke (${unit})`,
  step_axis: 'Schritt',
  left: 'links',
  right: 'rechts',
  by_session: ({ label }) => `${label}, Einheit für Einheit`,
  by_repetition: ({ label }) => `${label}, Lauf für Lauf`,
  session_axis: ({ block }) => `Rauten: Einheiten; grau: jetzt üblich${block ? '; Linien: vorher und jetzt' : ''}`,
  repetition_axis: 'Lauf; grau: üblich',
  before: 'vorher',
  now: 'jetzt',
  test_picture: ({ title }) => `Sprinttest: ${title}`,
  test_axis: 'Test; senkrechte Striche: was die Zeitnahme nicht unterscheiden kann',
  time_axis: 'Zeit (s)',
  not_measured: 'nicht gemessen',
  marks:
    'Runde Marken und durchgezogene Linie: linker Fuß. Eckige Marken und gestrichelte Linie: rechter Fuß. Grau: das für dich Übliche.',
};

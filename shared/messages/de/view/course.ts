import type { courseWords } from '../../en/view/course.ts';
import type { PhrasesLike } from '../../sentence.ts';

export const courseWords_de: PhrasesLike<typeof courseWords> = {
  the_course_over_time: 'den Verlauf',
  nothing_measured_yet: 'Noch nichts gemessen',
  after_each_session_one_point:
    'Nach jeder Einheit steht hier ein Punkt. Ab der vierten Einheit lässt sich eine Richtung mit ihrer Sicherheit sagen; ab dem sechsten Lauf sagt die eigene Schwankung des Athleten, was üblich ist.',
  is_growing_only_repetitions_of: ({ name }) =>
    `${name} wächst: nur Läufe der letzten 60 Tage zählen als üblich. Ein längerer Bodenkontakt beim Wachsen ist kein Fehler.`,
  over_sessions_from_to_the: ({ label, n_sessions, date, date_2 }) =>
    `${label} über ${n_sessions} Einheiten vom ${date} bis ${date_2}; die Zahlen stehen in der Tabelle`,
  before: 'vorher',
  now: 'jetzt',
  diamonds_sessions_dots_single_repetitions: 'Rauten: Einheiten. Punkte: einzelne Läufe.',
  long_line_the_way_it: ' Lange Linie: wohin es geht, mit 95-%-Band.',
  thick_lines_before_the_block: ' Dicke Linien: vor dem Block und jetzt; senkrecht: wo er beginnt.',
  bar_at_the_right_normal: ' Balken rechts: die übliche Schwankung jetzt.',
  normal_now_to: ({ low, high }) => `Jetzt üblich: ${low} bis ${high}`,
  provisional_with_the_variation_published: ({ n }, say) =>
    `, vorläufig: ${n} ${say.plural(n, { one: 'Lauf', other: 'Läufe' })}, mit der bei anderen veröffentlichten Schwankung `,
  repetitions_of_sessions: ({ n, sessions }) => ` (${n} Läufe aus ${sessions} Einheiten)`,
  a_single_repetition_counts_as: ({ from }) => `. Ein einzelner Lauf gilt als anders ab ${from} Abstand von der Mitte.`,
  older_repetitions_no_longer_count: ({ expired }) => ` ${expired} ältere Läufe zählen nicht mehr.`,
  last_session_left_and_right: 'Letzte Einheit, links und rechts:',
  difference_95_from_to_variation: ({ sentence, size, low, high, scatter }) =>
    ` ${sentence} Unterschied ${size} (95 % von ${low} bis ${high}), Schwankung innerhalb einer Seite ${scatter}.`,
  by_session: ({ label }) => `${label} nach Einheiten`,
  like_repetitions_only_same_effort: ({ title, session_date }) =>
    `${title}, ${session_date}. Nur vergleichbare Läufe: gleiche Intensität, gleiche Strecke. `,
  your_stop_rule_for_speed: 'Deine Grenze für das Tempo ist aus.',
  you_think_of_stopping_when: ({ limit_percent }) =>
    `Du erwägst aufzuhören, wenn das Tempo ${limit_percent} % unter die ersten beiden Läufe fällt.`,
  too_few_repetitions: 'Zu wenige Läufe',
  two_like_repetitions_of_an:
    'Zwei vergleichbare Läufe eines Athleten ergeben hier eine Linie; drei sagen, wohin die Einheit geht.',
  at: ({ effort_percent }) => ` Bei ${effort_percent} %.`,
  of_by_repetition: ({ label, name, values }) => `${label} von ${name} nach Läufen: ${values}`,
  the_focus: 'den Schwerpunkt',
  worked_on: ({ periods }) => `Daran gearbeitet: ${periods}.`,
  to: ({ from_date, to_date, note }) => `${from_date} bis ${to_date}${note}`,
  at_2: ({ condition }) => `Bei ${condition}.`,
  no_number_yet: 'Noch keine Zahl',
  this_focus_rests_on_none: ({ quantities, name }) =>
    `Dieser Schwerpunkt beruht auf ${quantities}. Nichts davon wurde bei ${name} bisher gemessen.`,
  your_eye: 'Dein Auge',
  no_rating_yet_on_the:
    'Noch keine Bewertung. Am Platz lässt sich ein Lauf mit 1 bis 5 bewerten, mit einer Notiz oder einem Foto dazu; sie bleiben bei ihm.',
  repetition: ({ date, order_number }) => `${date}, Lauf ${order_number}`,
  of_5: ({ rating }) => `${rating} von 5`,
  photograph_of_repetition: ({ date, order_number }) => `Foto vom ${date}, Lauf ${order_number}`,
  no_cue_written_yet_write: 'Noch kein Stichwort: eigene Worte schreiben, hier oder beim Athleten.',
  what_the_sensor_cannot_see: 'Was der Sensor nicht sieht',
  source: 'Quelle:',
  your_own_focus: 'Dein eigener Schwerpunkt.',
  deleted: ({ name }) => `„${name}“ gelöscht`,
  focuses: 'Schwerpunkte',
  the_one_thing_an_athlete:
    'Das Eine, woran ein Athlet arbeitet, mit der Zahl, die ein Sensor am Schuh oder Unterschenkel dafür liefert. Die Liste enthält, was veröffentlichte Befunde stützen; alles andere schreibst du selbst.',
  focuses_2: 'Schwerpunkte',
  change_or_delete: 'Ändern oder löschen',
  wanted: ({ aim }) => `erwünscht: ${aim}`,
  aim: ({ target, unit }) => `Ziel ${target} ${unit}`,
  change_it: 'Ändern',
  a_focus_of_your_own: 'Ein eigener Schwerpunkt',
  your_own_words_to_the: 'eigene Worte an den Athleten',
  what_to_look_for: 'Worauf zu achten ist',
  number: 'Zahl',
  none_only_your_eye_sees: 'keine: nur dein Auge sieht es',
  wanted_2: 'Erwünscht',
  aim_2: ({ unit }) => `Ziel${unit}`,
  empty_no_value_only_the: 'leer: kein Wert, nur die Richtung',
  add_focus: 'Schwerpunkt hinzufügen',
  the_report: 'den Bericht',
  print: 'Drucken',
  move_pictures_sideways: 'Die Bilder sind breiter als dieser Bildschirm: seitlich verschieben.',
  made_on_grey_is_what: ({ local_today }) => `Erstellt am ${local_today}. Grau ist das für dich Übliche.`,
  month_before: 'Monat davor',
  month_after: 'Monat danach',
  aim_lower: 'niedriger',
  aim_higher: 'höher',
  'aim_nearer zero': 'näher bei null',
  'aim_no fixed direction': 'keine feste Richtung',
};

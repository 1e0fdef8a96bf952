import type { filmWords } from '../../en/view/film.ts';
import type { PhrasesLike } from '../../sentence.ts';

export const filmWords_de: PhrasesLike<typeof filmWords> = {
  the_repetition: 'den Lauf',
  repetition: ({ order_number }) => `Lauf ${order_number}`,
  film_repetition: ({ name, order_number }) => `Film: ${name}, Lauf ${order_number}`,
  a_film_is_opened_on:
    'Ein Film wird auf diesem Gerät geöffnet und bleibt darauf. Behalten wird, welches seiner Bilder zu welchem Bodenkontakt gehört.',
  contact_before: 'Voriger Kontakt',
  step_of: ({ step, last }) => `Schritt ${step} von ${last}`,
  next_contact: 'Nächster Kontakt',
  instant: 'Augenblick',
  beside: 'Daneben',
  no_other_repetition: 'kein anderer Lauf',
  this_repetition: 'Dieser Lauf',
  repetition_of: ({ order_number, session_date }) => `Lauf ${order_number} vom ${session_date}`,
  repetition_2: ({ best, session_date, order_number, time, speed, line }) =>
    `${best}${session_date}, Lauf ${order_number}${time}${speed}, ${line}`,
  the_best: 'der beste: ',
  open_a_film_of_this: 'Einen Film dieses Geräts öffnen',
  tied_before_open_the_same: ({ ties }) =>
    `Früher verbunden: ${ties}. Dieselbe Datei öffnen, und sie ist wieder verbunden.`,
  measuring_the_time_from_frame: 'Die Zeit von Bild zu Bild wird gemessen ...',
  this_frame_is_the_of: ({ instant, step }) => `Dieses Bild ist: ${instant}, Schritt ${step}`,
  frame_at_s_of_the: ({ at_s, shortest, longest }) =>
    `Bild bei ${at_s} s des Films, ${shortest === longest ? `alle ${shortest} ms eines` : `im Abstand von ${shortest} bis ${longest} ms`}`,
  not_tied_yet_find_the: ({ frame }) =>
    `${frame}. Noch nicht verbunden: das Bild eines Aufsetzens suchen und markieren.`,
  the_of_step_was_not: ({ frame, instant, step }) => `${frame}. Nicht gemessen: ${instant}, Schritt ${step}.`,
  the_of_step: ({ instant, step }) => `${instant}, Schritt ${step}`,
  at: ({ frame, instant_words }) => `${frame}: ${instant_words}.`,
  place_in_the_film_seconds: 'Stelle im Film, Sekunden',
  one_frame_back: 'Ein Bild zurück',
  stop_here: 'Hier anhalten',
  play_slowly: 'Langsam abspielen',
  one_frame_on: 'Ein Bild vor',
  tied_by: ({ marks, clock }) => `Verbunden durch ${marks}, ${clock}`,
  step_s: ({ step, instant, film_s }) => `Schritt ${step}, ${instant}: ${film_s} s`,
  ms_off_the_line: ({ index }) => `, ${index} ms neben der Geraden`,
  take_away: 'Wegnehmen',
  the_mark_of_step: ({ step }) => ` die Marke von Schritt ${step}`,
  good_to_ms: ({ half_ms, residual_s }) => `gut auf ± ${half_ms} ms${residual_s}`,
  by_frames_of_ms_and: ({ frame_ms }) => ` durch Bilder von ${frame_ms} ms und die Aufzeichnung`,
  one_mark_takes_the_film:
    'Eine Marke nimmt an, dass der Film in Echtzeit läuft. Ein zweites Aufsetzen markieren, mindestens eine halbe Sekunde entfernt: dann zeigt sich Zeitlupe, und ein drittes sagt, wie gut die Marken zusammenpassen.',
  the_film_runs_in_real: 'Der Film läuft in Echtzeit. Eine dritte Marke sagt, wie gut die Marken zusammenpassen.',
  the_film_runs_in_real_2: 'Der Film läuft in Echtzeit.',
  the_film_runs_times_slower: ({ rate, residual_s }) =>
    `Der Film läuft ${rate}-mal langsamer als der Lauf.${residual_s}`,
  a_third_mark_says_how: ' Eine dritte Marke sagt, wie gut die Marken zusammenpassen.',
  the_film_has_one_picture: 'Der Film hat nur ein Bild, oder dieser Browser kann ihn nicht schrittweise zeigen.',
  this_browser_cannot_play_the:
    'Dieser Browser kann die Datei nicht abspielen. MP4 (H.264) und WebM gehen in den meisten.',
  touchdown: 'Aufsetzen',
  middle: 'Mitte',
  toe_off: 'Abdruck',
  off_after: ({ frame, ms, instant }) => `${frame}: ${ms} ms nach ${instant}.`,
  off_before: ({ frame, ms, instant }) => `${frame}: ${ms} ms vor ${instant}.`,
  making_sheet: 'Der Bogen wird gemacht ...',
  sheet_of_all: ({ n, instant }, say) => `Bogen: ${instant}, ${n} ${say.plural(n, { one: 'Bild', other: 'Bilder' })}`,
  outside_film: ({ n }, say) =>
    `${n} ${say.plural(n, { one: 'Bodenkontakt liegt', other: 'Bodenkontakte liegen' })} außerhalb des Films.`,
  every_instant: ({ title, instant }) => `${title}: jedes Mal ${instant}`,
  instant_of: ({ instant, words }) => `${instant}, ${words}`,
  step_n: ({ step }) => `Schritt ${step}`,
};

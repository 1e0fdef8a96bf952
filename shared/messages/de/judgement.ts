import { coachSpeech } from '../coach-speech.ts';
import type { ComparedWith, JudgementWords } from '../judgement-words.ts';
import { COACH_DE } from './coach.ts';
import { QUANTITIES_DE } from './quantities.ts';

const TIME = { more: 'länger', less: 'kürzer' };
const MONTHS = 'Januar Februar März April Mai Juni Juli August September Oktober November Dezember'.split(' ');
const NO_INJURY = '; für sich allein kein Zeichen einer Verletzung';
const THAN: Record<ComparedWith, string> = { usual: 'üblich', 'earlier today': 'vorhin' };
/** Änderung von links gegen rechts, und was der Unterschied ist. */
const SIDE_CHANGE = {
  more: 'mehr nach links',
  less: 'mehr nach rechts',
  is: { above: 'links länger', below: 'rechts länger' },
};
const SIDES = { left: 'links', right: 'rechts' };

/** Sentences about a repetition, in German. */
export const JUDGEMENT_DE: JudgementWords = {
  language: 'de',
  decimal_mark: ',',
  coach: coachSpeech('de', COACH_DE),
  per_second: ' pro Sekunde',
  directions: {
    contact_time_ms: { subject: 'Kontakt', ...TIME },
    flight_time_ms: { subject: 'Flug', ...TIME },
    swing_time_ms: { subject: 'Schwung', ...TIME },
    step_time_ms: { subject: 'Schrittdauer', ...TIME },
    stride_time_ms: { subject: 'Doppelschrittdauer', ...TIME },
    step_rate_hz: { subject: 'Schrittfrequenz', more: 'höher', less: 'niedriger' },
    step_length_m: { subject: 'Schritt', ...TIME },
    stride_length_m: { subject: 'Doppelschritt', ...TIME },
    contact_length_m: { subject: 'Bodenkontaktweg', ...TIME },
    speed_mps: { subject: 'Tempo', more: 'schneller', less: 'langsamer' },
    speed_max_mps: { subject: 'Höchsttempo', more: 'schneller', less: 'langsamer' },
    time_s: { subject: 'Zeit', more: 'langsamer', less: 'schneller' },
    acceleration_end_m: { subject: 'Beschleunigung', ...TIME },
    heel_recovery_height_m: { subject: 'Ferse im Schwung', more: 'höher', less: 'tiefer' },
    shank_angle_touchdown_deg: { subject: 'Aufsetzen', more: 'weiter vorn', less: 'weniger weit vorn' },
    foot_pitch_touchdown_deg: { subject: 'Aufsetzen', more: 'mehr auf den Zehen', less: 'flacher' },
    foot_pitch_toe_off_deg: { subject: 'Abdruck', more: 'am Ende steiler', less: 'am Ende flacher' },
    shank_rotation_deg: { subject: 'Abdruck', more: 'weiter herum', less: 'weniger weit herum' },
    foot_progression_deg: { subject: 'Fuß', more: 'weiter auswärts', less: 'weiter einwärts' },
    swing_fold_deg: { subject: 'Bein', more: 'mehr gebeugt', less: 'weniger gebeugt' },
    contact_time_side_difference_ms: { subject: 'Kontakt', ...SIDE_CHANGE },
    step_time_side_difference_ms: { subject: 'Schrittdauer', ...SIDE_CHANGE },
  },
  other: { more: 'mehr', less: 'weniger' },
  // Words that a page may part stay whole in a sentence.
  label: (english) => (QUANTITIES_DE[english]?.[0] ?? english).replaceAll('\u00AD', ''),
  date: (date, beside) => {
    const [year, month, day] = date.split('-');
    return `${Number(day)}. ${MONTHS[Number(month) - 1]}${beside.startsWith(year) ? '' : ` ${year}`}`;
  },
  month: (month) => `${MONTHS[Number(month.slice(5, 7)) - 1]} ${month.slice(0, 4)}`,

  none_yet: 'Noch kein Lauf.',
  on_its_way: 'Aufgezeichnet; das Ergebnis kommt gleich.',
  nothing_measured: 'In diesem Lauf war kein Bodenkontakt messbar.',
  value_alone: ({ subject, figure }) => `${subject} ${figure}.`,
  nothing_to_compare: ({ subject, figure }) => `${subject} ${figure}: noch nichts zum Vergleichen.`,
  few: (n) => `; erst ${n === 1 ? '1 Lauf' : `${n} Läufe`} zum Vergleichen`,
  as_usual: ({ subject, figure, than, few }) => `${subject} wie ${THAN[than]}: ${figure}${few}.`,
  may_be_chance: ({ subject, figure, size, than, likely, few }) =>
    `${subject} ${figure}, ${size} als ${THAN[than]}: ${likely ? 'wahrscheinlich, aber noch nicht mehr als Zufall' : 'kann Zufall sein'}${few}.`,
  changed: ({ subject, figure, size, than, alone, range, row, wanted, few }) => {
    const who = alone ? 'dieser' : 'heute';
    const tail = row >= 2 ? `, ${row}. Lauf in Folge` : '';
    const text = `${subject} ${figure}, ${who} ${size} als ${THAN[than]}${range && ` (${range})`}${tail}${few}`;
    return `${wanted === null ? text : `${wanted ? 'Besser' : 'Schlechter'}: ${text}`}.`;
  },
  range: (near, far) => `${near} bis ${far}`,
  range_across: ({ less, more }) => `zwischen ${less} und ${more}`,
  since: ({ date, before, now, direction, range, wanted }) =>
    `${wanted === null ? '' : wanted ? 'besser ' : 'schlechter '}seit ${date}: von ${before} auf ${now}, um ${range} ${direction}`,
  keep: (cue) => `Beibehalten: „${cue}“`,
  next: (cue) => `Als Nächstes: „${cue}“`,
  longer_rest: 'Vor dem nächsten Lauf länger pausieren.',
  side: ({ subject, now, usual }) => {
    const is = now ? `${SIDES[now.side]} ${now.size}` : 'links und rechts gleich, im Rahmen des Zufalls';
    const tail = now ? NO_INJURY : '';
    if (usual === 'unknown') return `${subject} ${is}${tail}.`;
    if (usual === 'as usual') return `${subject} ${is}, wie üblich${tail}.`;
    return `${subject} ${is}: ${SIDES[usual.side]} ${usual.size} als üblich, mehr als Zufall${NO_INJURY}.`;
  },
  stop: (reasons) => `Aufhören erwägen: ${reasons.join('; ')}.`,
  stop_speed: ({ loss, limit }) => `Tempo ${loss} % unter den ersten beiden (deine Grenze: ${limit} %)`,
  stop_row: ({ label, row, limit }) => `${label} ${row}-mal in Folge außerhalb des Üblichen (deine Grenze: ${limit})`,
  clock_question: ({ told, of }) => `Die Uhr des Sensors sagt ${told}, die Einheit ist vom ${of}. Was stimmt?`,
};

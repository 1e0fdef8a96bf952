import type { TimingMethod } from '../../words.ts';
import type { rowsSetAside } from '../en/rows-set-aside.ts';
import type { PhrasesLike } from '../sentence.ts';

const METHODS: Record<TimingMethod, string> = {
  hand: 'von Hand',
  touch_pad_beam: 'Kontaktmatte und Lichtschranke',
  beam: 'Lichtschranken',
  gun_photo_finish: 'Startschuss und Zielfoto',
  motion_start: 'ab der ersten Bewegung',
  other: 'anders',
};

/** Was in einer beiseitegelegten Zeile stand und was dort erwartet wird, und was aus Zeiten einer Datei wurde. */
export const rowsSetAside_de: PhrasesLike<typeof rowsSetAside> = {
  row_columns: ({ n }) => `${n} Spalten`,
  row_broken_off: 'eine Zeile, die abbricht',
  row_whole: 'eine ganze Zeile',
  row_beyond: ({ value, unit }, say) => `${say.number(value)} ${unit}`,
  row_at_most: ({ most, unit }, say) => `höchstens ${say.number(most)} ${unit}`,
  row_time_leaps: ({ seconds }, say) => `eine Zeit ${say.number(seconds)} s nach der Zeile davor`,
  row_time_same: 'dieselbe Zeit wie in der Zeile davor',
  row_time_earlier: 'eine Zeit vor schon gelesenen Zeilen',
  row_later_time: 'eine spätere Zeit',
  row_one_of: ({ values }) => `eines von ${values.join(', ')}`,
  row_time: 'eine Zeit',
  row_number: 'eine Zahl',
  row_value: 'mindestens ein Messwert',
  row_distance: 'eine Strecke über null, etwa 10m oder 40yd',
  row_race_time: 'eine Zeit über null, etwa 1,92 oder 1:02,3',
  times_unplaced: ({ athlete, date, repetition, fitting }, say) =>
    `${athlete ?? 'kein Athlet genannt'}, ${date ?? 'kein Tag'}, Lauf ${repetition ?? 'ohne Nummer'}: ${fitting === 0 ? 'gibt es nicht' : `passt zu ${say.plural(fitting, { one: 'einem Lauf', other: `${fitting} Läufen` })}`}`,
  times_do_not_grow: 'die Zeiten wachsen nicht mit der Strecke',
  also_timed: ({ time_s, distance_m, method, file }, say) =>
    `Auch gemessen: ${say.number(time_s)} s über ${say.number(distance_m)} m, ${method === null ? 'Messweise nicht gesagt' : METHODS[method]} (${file}).`,
  timed_in_steps: ({ by_hand, step_s }, say) =>
    `Zeiten ${by_hand ? 'einer Stoppuhr' : 'der Datei'} auf ${say.number(step_s)} s.`,
};

import type { OtherActivity } from '../../analysis.ts';
import type { readingChecks } from '../en/reading-checks.ts';
import type { PhrasesLike } from '../sentence.ts';

const KINDS: Record<OtherActivity['kind'], string> = {
  standing: 'Stehen',
  walking: 'Gehen',
  jumping: 'Springen',
  dropped: 'heruntergefallen',
  other: 'anderes',
};

/** Woran zu sehen ist, ob eine Datei richtig gelesen wurde. */
export const readingChecks_de: PhrasesLike<typeof readingChecks> = {
  read_rate: ({ rate_hz, duration_s, lost }, say) =>
    `${say.number(rate_hz, rate_hz < 100 ? 1 : 0)} Messwerte je Sekunde über ${say.number(duration_s, 1)} s${lost > 0 ? `, ${lost} verloren` : ''}`,
  read_rate_good: 'genug für Bodenkontaktzeiten',
  read_rate_usable:
    'Bodenkontaktzeiten werden unsicherer als mit 200 je Sekunde; richtig, wenn der Sensor so eingestellt ist, sonst die Einheit der Zeit ansehen',
  read_rate_low: 'zu wenige für Bodenkontaktzeiten; zeichnet der Sensor schneller auf, die Einheit der Zeit ansehen',
  read_never_still: 'in diesem Teil nie in Ruhe',
  read_would_rest: 'eine Sekunde Stehen zeigte hier 1,00 g',
  read_rest: ({ g }, say) => `${say.number(g, 2)} g`,
  read_gravity: 'die Schwerkraft: der Maßstab stimmt',
  read_no_gravity: 'ein ruhender Sensor zeigt 1,00 g: Einheit und Spalten der Beschleunigung ansehen',
  read_shake: ({ g }, say) => `${say.number(g, 1)} g`,
  read_shake_plausible: 'Laufen erschüttert Schuh oder Unterschenkel mit etwa 5 bis 30 g',
  read_shake_doubtful: 'kaum Bewegung: richtig in Ruhe, sonst die Einheit der Beschleunigung ansehen',
  read_shake_impossible: 'so viel erreicht kein getragener Sensor: die Einheit der Beschleunigung ansehen',
  read_no_rotation: 'keine',
  read_without_rotation: 'Bodenkontaktzeiten ohne Drehrate sind unsicherer; Spalten zuordnen, wo es welche gibt',
  read_turn: ({ dps }, say) => `${say.number(dps, 0)} deg/s`,
  read_turn_plausible: 'ein schwingendes Bein dreht sich mit etwa 300 bis 2000 deg/s',
  read_turn_doubtful: 'zu langsam für ein laufendes Bein: richtig in Ruhe, sonst die Einheit der Drehrate ansehen',
  read_turn_impossible: 'mehr als jeder Sensor misst: die Einheit der Drehrate ansehen',
  read_turned_round: ({ axes }) => `die Drehrate um ${axes.join(', ')} scheint umgekehrt`,
  read_turn_its_sign: 'Beschleunigung und Drehrate passen nur zusammen, wenn sie umgekehrt wird: Vorzeichen umkehren',
  read_no_running: ({ seen }) =>
    `keines gefunden${seen.length > 0 ? ` (${seen.map((kind) => KINDS[kind]).join(', ')})` : ''}`,
  read_look_above: 'wurde gelaufen, ist oben etwas falsch gelesen',
  read_contacts: ({ contacts, middle_ms }, say) =>
    `${contacts} Bodenkontakte dieses Fußes${middle_ms === null ? '' : `, die Hälfte unter ${say.number(middle_ms, 0)} ms`}`,
  read_usual_contacts: 'im Sprint bleibt der Fuß 80 bis 130 ms am Boden, beim Traben 200 bis 300 ms',
};

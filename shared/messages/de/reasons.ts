import { MOUNTING_PLACES } from '../../mountings.ts';
import type { Mounting } from '../../words.ts';
import type { REASONS_EN } from '../en/reasons.ts';
import type { PhrasesLike } from '../sentence.ts';
import { agreementReasons_de } from './agreement.ts';
import { layoutEvidence_de } from './layout-evidence.ts';
import { layoutReasons_de } from './layout-reasons.ts';
import { readingChecks_de } from './reading-checks.ts';
import { rowsSetAside_de } from './rows-set-aside.ts';

/** Where the sensor sits, and where it moves as if it sat. */
export const AT_DE: Record<Mounting, string> = { foot: 'am Fuß', shank: 'am Unterschenkel' };
export const atOther_de = (mounting: Mounting): string => AT_DE[MOUNTING_PLACES[mounting].mistaken_for];
const SIDES: Record<string, string> = { left: 'linken', right: 'rechten' };

/** Why something is not measurable, or only with doubt. */
export const REASONS_DE: PhrasesLike<typeof REASONS_EN> = {
  ...layoutReasons_de,
  ...layoutEvidence_de,
  ...agreementReasons_de,
  ...readingChecks_de,
  ...rowsSetAside_de,
  one_foot_alone: 'nur ein Fuß: setzt voraus, dass links und rechts gleich sind',
  contacts_missing_after: ({ contacts }, say) =>
    say.plural(contacts, {
      one: 'nach diesem fehlt ein Bodenkontakt',
      other: `nach diesem fehlen ${say.number(contacts)} Bodenkontakte`,
    }),
  feet_disagree:
    'Schritte nach links und nach rechts passen nicht zusammen: Die Uhren der beiden Sensoren scheinen auseinander zu sein',
  step_unlike_neighbours: 'der Schritt gleicht den umliegenden nicht: Ein Bodenkontakt fehlt oder ist falsch',
  no_next_contact_of_other_foot: 'kein folgender Bodenkontakt des anderen Fußes',
  no_next_contact_of_this_foot: 'kein folgender Bodenkontakt dieses Fußes',
  no_step_time: 'keine Schrittdauer',
  toe_off_unclear: 'der Abdruck zeigt sich in der Beschleunigung nicht deutlich',
  toe_off_rough: ({ u_ms }, say) =>
    `der Abdruck zeigt sich zu ungenau: die Bodenkontaktzeit wäre auf ${say.number(u_ms)} ms unsicher`,
  lost_at_touchdown: 'beim Aufsetzen gingen Messwerte verloren',
  clipped_before_touchdown: 'vor dem Aufsetzen war die Beschleunigung abgeschnitten',
  landing_unclear:
    'die Beschleunigung dieses Doppelschritts gleicht keiner, an der das Aufsetzen ohne Drehratensensor bekannt ist',
  lost_at_toe_off: 'beim Abdruck gingen Messwerte verloren',
  rate_too_low: ({ rate_hz, least_hz }, say) =>
    `${say.number(rate_hz, 0)} Messwerte je Sekunde ergeben keine Bodenkontaktzeit; mindestens ${say.number(least_hz)} sind nötig`,
  contact_of_few_samples: ({ samples, least }, say) =>
    `ein so kurzer Bodenkontakt füllt bei dieser Rate ${say.number(samples, 0)} Messwerte; mindestens ${say.number(least)} sind nötig`,
  worn_elsewhere: ({ mounting }) =>
    `der Sensor bewegt sich wie einer ${atOther_de(mounting)}: diesen Sitz wählen und neu auswerten`,
  no_gyroscope: 'kein Gyroskop',
  needs_gyroscope: 'braucht ein Gyroskop',
  needs_sensor_on: ({ mounting }) => `braucht einen Sensor ${AT_DE[mounting]}`,
  foot_not_at_rest: 'der Fuß war nirgends in Ruhe zu sehen',
  foot_not_at_rest_twice: 'der Fuß war nicht an beiden Enden des Doppelschritts in Ruhe',
  foot_height_open: 'die Höhe des Fußes schließt sich über den Doppelschritt nicht',
  gyroscope_range: 'außerhalb des Messbereichs des Gyroskops',
  swing_beyond_gyroscope: 'der Schwung ging über den Messbereich des Gyroskops hinaus',
  swing_beyond_accelerometer: 'der Schwung ging über den Messbereich des Beschleunigungssensors hinaus',
  samples_missing_in_stride: 'im Doppelschritt fehlen Messwerte',
  no_vertical: 'kein Doppelschritt zeigt Lotrichtung und Laufrichtung',
  no_standing: 'kein ruhiges Stehen in der Aufzeichnung, das zeigt, wie der Sensor am Unterschenkel sitzt',
  clipped_or_no_stride: 'abgeschnittene oder fehlende Messwerte, oder kein benachbarter Doppelschritt',
  axes_doubtful_of: ({ side }) =>
    `Dreh- und Beschleunigungsachsen des ${SIDES[side] ?? ''} Sensors gehören nicht zusammen`.replace('  ', ' '),
  no_time: 'keine Zeit über eine bekannte Strecke',
  no_foot_sensor_no_time: 'kein Sensor am Fuß und keine Zeit über eine bekannte Strecke',
  no_contacts: 'keine Bodenkontakte',
  no_curve: 'keine Beschleunigungskurve',
  fastest_strides_clipped:
    'die schnellsten Doppelschritte gingen über den Messbereich eines Fußsensors hinaus, und niemand hat eine Zeit genommen',
  top_speed_hardly_known: 'die Fußsensoren allein zeigen es kaum, und niemand hat eine Zeit genommen',
  flying_start: 'ein fliegender Start zeigt keine Beschleunigung',
  no_stretch_fits: 'kein Abschnitt des Laufs passt zur Zeit über die fliegende Strecke',
  times_contradict: 'die Zeiten widersprechen sich',
  times_doubted: 'die Zeiten können nicht von diesem Lauf sein; sie und den Beginn der Zeitnahme prüfen',
  outside_timed_stretch: 'außerhalb des gestoppten Abschnitts',
  after_last_time: 'nach der letzten gestoppten Strecke',
  no_clock_to_gates:
    'keine gemeinsame Uhr von Lichtschranken und Sensoren: der Abschnitt mit den kürzesten Bodenkontaktzeiten',
  start_not_seen: 'ab dem ersten Bodenkontakt gezählt: der Start war nicht zu sehen',
  from_foot_sensors_alone: 'aus den Fußsensoren allein: keine Zeit über eine bekannte Strecke',
  timed_with_cautions: ({ one_time, start_unseen, ends_early }) =>
    [
      one_time &&
        'nur eine Zeit: wie schnell die Höchstgeschwindigkeit erreicht wird, folgt aus den Bodenkontaktzeiten und dem Üblichen',
      start_unseen && 'die erste Bewegung war nicht zu sehen: angenommen 0,4 s vor dem ersten Aufsetzen',
      ends_early && 'der Lauf endet vor der Strecke: gehören die Zeiten dazu?',
    ]
      .filter(Boolean)
      .join('; '),
  body_mass_unknown: 'Körpermasse unbekannt',
  body_mass_or_leg_unknown: 'Körpermasse oder Beinlänge unbekannt',
  body_mass_or_stature_unknown: 'Körpermasse oder Körpergröße unbekannt',
  no_force_speed_line: 'die Kurve ergibt keine fallende Kraft-Geschwindigkeits-Gerade',
  wind_unknown: 'Wind unbekannt: die Unsicherheit lässt 2 m/s in beide Richtungen zu',
  not_steady: 'es wurde beschleunigt oder abgebremst: das Modell gilt für gleichmäßiges Laufen',
  good: 'Abtastrate, Messbereich und Verluste genügen dafür',
  samples_lost: ({ share }, say) => `${say.number(100 * share, 1)} % der Messwerte gingen verloren`,
  stamps_jitter: 'die Zeitstempel schwanken',
  moves_as_other: ({ mounting }) => `der Sensor bewegt sich wie einer ${atOther_de(mounting)}`,
  moves_as_other_contacts_missed: ({ mounting }) =>
    `der Sensor bewegt sich wie einer ${atOther_de(mounting)}, und Bodenkontakte fehlen`,
  axes_doubtful: 'Dreh- und Beschleunigungsachsen gehören nicht zusammen',
  full_scale_in_contacts: ({ clipped, contacts }) =>
    `in ${clipped} von ${contacts} Bodenkontakten stieß ein Kanal an seinen Messbereich`,
  rings: 'der Sensor schwingt an seinem Band nach',
  turned: 'der Sensor hat sich am Bein verdreht',
  rate_no_stride: ({ rate_hz }, say) => `${say.number(rate_hz, 0)} Messwerte je Sekunde lösen keinen Doppelschritt auf`,
  rate_touchdown: ({ rate_hz, good_to_ms }, say) =>
    `${say.number(rate_hz, 0)} Messwerte je Sekunde: ein Aufsetzen ist auf ${say.number(good_to_ms, 0)} ms genau`,
  rate_contact: ({ rate_hz, samples }, say) =>
    `${say.number(rate_hz, 0)} Messwerte je Sekunde: ein Bodenkontakt von 100 ms hätte weniger als ${say.number(samples)} Messwerte`,
  rate_smears: ({ rate_hz }, say) => `${say.number(rate_hz, 0)} Messwerte je Sekunde verwischen den Aufprall`,
  rate_angles: ({ rate_hz }, say) =>
    `${say.number(rate_hz, 0)} Messwerte je Sekunde ergeben nicht die Zeitpunkte, an denen Winkel abgelesen werden`,
  no_gyroscope_toe_off: 'kein Gyroskop: der Abdruck wird aus der Beschleunigung allein gefunden',
  no_gyroscope_turning: 'kein Gyroskop: Drehung wird nicht gemessen',
  no_gyroscope_direction: 'kein Gyroskop: die Richtung der Beschleunigung ist unbekannt',
  swapped_toe_out:
    'links und rechts scheinen vertauscht: Auswärts- und Einwärtsstellung des Fußes sind dann vertauscht',
  full_scale_most_swings: 'das Gyroskop stieß in den meisten Schwungphasen an seinen Messbereich',
  full_scale_some_swings: 'das Gyroskop stieß in einigen Schwungphasen an seinen Messbereich',
  turning_unseen: 'ohne Gyroskop ist die Drehung des Beins nicht zu sehen',
  no_running: 'es wurde kein Laufen gefunden',
  few_strides: 'zu wenige Doppelschritte',
  segment_seen: ({ value, strides, foot_below, shank_above }, say) =>
    `solange ein Fuß flach steht, dreht er mit ${say.number(value, 2)} seiner mittleren Rückwärtsdrehung (${strides} ${say.plural(strides, { one: 'Doppelschritt', other: 'Doppelschritte' })}); unter ${say.number(foot_below)} ist es ein Fuß, über ${say.number(shank_above)} ein Unterschenkel`,
  ringing_needs: ({ least_hz }) =>
    `dafür braucht es einige Sekunden Laufen mit mindestens ${least_hz} Messwerten je Sekunde`,
  breaks_off: ({ break_hz, break_db, factor, duration_s }, say) =>
    `oberhalb von ${say.number(break_hz, 0)} Hz bricht die Beschleunigung ab, ${say.number(break_db, 1)} dB innerhalb des Faktors ${say.number(factor)}, wie an einem weichen Band (${say.number(duration_s, 1)} s Laufen)`,
  rings_at: ({ frequency_hz, rise_db, fall_db, duration_s }, say) =>
    `die Beschleunigung schwingt bei ${say.number(frequency_hz, 0)} Hz nach, ${say.number(rise_db, 1)} dB über dem, was darunter, und ${say.number(fall_db, 1)} dB über dem, was darüber liegt (${say.number(duration_s, 1)} s Laufen)`,
  no_resonance: ({ to_hz, duration_s }, say) =>
    `keine schmale Resonanz unter ${say.number(to_hz)} Hz (${say.number(duration_s, 1)} s Laufen)`,
  axis_turned: ({ angle_deg, limit_deg, at_s }, say) =>
    `die Schwungachse hat sich im Sensor um ${say.number(angle_deg, 0)} Grad gedreht, ${at_s === null ? 'nach und nach über die Aufzeichnung' : `bei ${say.number(at_s, 1)} s`}; bis ${say.number(limit_deg, 0)} Grad streuen diese Doppelschritte ohnehin`,
  axis_kept: ({ angle_deg }, say) => `die Schwungachse blieb auf ${say.number(angle_deg, 0)} Grad an ihrem Platz`,
  needs_both_legs: 'dafür braucht es beide Beine: in der Kurve neigt sich ein Bein allein wie das andere',
  needs_strides_of_both: 'dafür braucht es einige ganze Doppelschritte beider Beine, mit Gyroskopen',
  outward_turn: ({ value, right_above, swapped_below }, say) =>
    `Auswärtsdrehung vor dem Abdruck ${say.number(value, 2)} des Üblichen für die angegebenen Seiten; über ${say.number(right_above)} stimmen sie, unter ${say.number(swapped_below)} sind sie vertauscht`,
  axis_reversed: 'eine Achse ist gespiegelt oder umgekehrt',
  mounting_doubtful: 'der Sitz ist zweifelhaft',
  a_sensor_turned: 'ein Sensor hat sich am Bein verdreht',
};

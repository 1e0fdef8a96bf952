import type { testingPhrases } from '../../en/coach/testing.ts';
import type { PhrasesLike } from '../../sentence.ts';

export const testingPhrases_de: PhrasesLike<typeof testingPhrases> = {
  method_hand: 'Hand',
  method_touch_pad_beam: 'Kontaktplatte und Lichtschranke',
  method_beam: 'Lichtschranken',
  method_gun_photo_finish: 'Startschuss und Zielfoto',
  method_motion_start: 'Start mit der ersten Bewegung',
  method_other: 'andere Zeitnahme',
  start_standing: 'Hochstart',
  start_three_point: 'Dreipunktstart',
  start_block: 'Blockstart',
  start_crouched: 'Tiefstart ohne Block',
  start_rolling: 'rollender Start',
  start_flying: 'fliegender Start',
  same_time: ({ date }) => `Dieselbe Zeit wie am ${date}.`,
  time_changed: ({ size, faster, date, real, hand, needed }) =>
    `${size} s ${faster ? 'schneller' : 'langsamer'} als am ${date}: ${real ? 'eine wirkliche Änderung' : 'zu wenig, um es zu sagen'}; ${hand ? 'Handzeiten' : 'elektronische Zeiten'} brauchen ${needed} s.`,
  limit_of_error: ({ hand }) =>
    `typischer Fehler von 1,5 %, gefunden für elektronische Zeiten über 20 m, auf diese Strecke übertragen${hand === null ? '' : `; Handzeiten mindestens 0,14 s, ${hand}`}`,
  limit_of_own: '1,96 x Wurzel 2 x der eigene typische Fehler dieses Athleten',
  no_interval: 'du hast keinen Abstand zwischen Tests gesetzt',
  next_test: ({ days, date, overdue, moved }, say) =>
    `${date === null ? 'noch kein Test' : `${days} Tage nach dem letzten, vom ${date}`}${overdue > 0 ? `, ${overdue} ${say.plural(overdue, { one: 'Tag', other: 'Tage' })} überfällig` : ''}${moved ? ', vom Tag nach einer Tempoeinheit weggeschoben' : ''}`,
  needs_body: 'braucht Körpermasse und Körpergröße, unter „Person“',
  no_falling_line: 'die Zwischenzeiten ergeben keine fallende Gerade von Kraft und Geschwindigkeit',
  squat_to_body_mass: 'parallele Kniebeuge zu Körpermasse',
  no_squat: 'Noch keine parallele Kniebeuge eingetragen; sobald eine da ist, steht sie hier gegen die Körpermasse.',
  no_body_mass: 'Noch keine Körpermasse eingetragen; sobald sie da ist, steht die Kniebeuge dagegen.',
  squat_is: ({ kg, lb, ratio }, say) =>
    `Parallele Kniebeuge ${kg} kg (${lb} lb) ist das ${say.number(ratio, 2)}-Fache der Körpermasse.`,
  adult_figures: 'Die veröffentlichten Zahlen sind von Erwachsenen: kein Ziel für Minderjährige.',
  one_group: 'Eine Zahl einer Gruppe von College-Spielern: für sich allein kein Ziel.',
};

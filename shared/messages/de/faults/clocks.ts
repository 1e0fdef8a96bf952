import type { clockFaults } from '../../en/faults/clocks.ts';
import type { FaultsLike } from '../../sentence.ts';

const METHODS: Record<string, string> = {
  'absolute stamps': 'absolute Zeitstempel',
  'common time column': 'gemeinsame Zeitspalte',
  'shared impacts': 'gemeinsame Stöße',
  'step alternation': 'Wechsel der Schritte',
};
const methodText = (method: string): string => METHODS[method] ?? method;
const SIDES: Record<string, string> = { left: 'linken', right: 'rechten' };

export const clockFaults_de: FaultsLike<typeof clockFaults> = {
  SAME_RECORDING_TWICE: {
    message: 'Linke und rechte Aufzeichnung enthalten dieselben Messwerte; sie wurden nicht gepaart.',
    hint: 'Die Datei des anderen Fußes wählen.',
  },
  CLOCKS_NOT_ALIGNED: {
    message:
      'Die Uhren der beiden Aufzeichnungen haben nichts gemeinsam, und weder Stöße noch Schritte ergeben einen eindeutigen Versatz; sie wurden nicht gepaart.',
    hint: 'Beide Sensoren mit einer Uhr starten, oder vor dem Start dreimal mit beiden Füßen zugleich aufstampfen oder springen.',
  },
  'CLOCKS_NOT_ALIGNED.not_analysed': {
    message: ({ because }, say) => `${say.tell(because).message} Es wurde nichts ausgewertet.`,
    hint: ({ because }, say) => `${say.tell(because).hint} Jede Seite lässt sich weiterhin einzeln auswerten.`,
  },
  'CLOCKS_NOT_ALIGNED.restarted': {
    message: ({ side }) =>
      `Die Uhr des ${SIDES[side] ?? side} Sensors ist in einer langen Aufzeichnung neu angelaufen; die beiden Seiten lassen sich nicht paaren. Es wurde nichts ausgewertet.`,
    hint: 'Die Aufzeichnung dort teilen, wo der Sensor neu angelaufen ist. Jede Seite lässt sich weiterhin einzeln auswerten.',
  },
  'CLOCKS_NOT_ALIGNED.drift': {
    message:
      'Die Uhren der beiden Aufzeichnungen laufen auseinander, und nahe am Laufen verrät zu wenig, um wie viel: Schritte von links und rechts könnten um einen ganzen Doppelschritt falsch gepaart werden. Sie wurden nicht gepaart.',
    hint: 'Kurz vor dem Lauf und noch einmal danach dreimal mit beiden Füßen zugleich aufstampfen oder springen, oder die Aufzeichnung auf den Lauf zuschneiden.',
  },
  'CLOCKS_UNCERTAIN.time_zone': {
    message: ({ hours, doubt }, say) =>
      `Die Zeitstempel der beiden Aufzeichnungen liegen ${say.number(hours)} ${say.plural(hours, { one: 'Stunde', other: 'Stunden' })} auseinander und passen sonst, auch die Schritte: eine davon gilt als andere Zeitzone oder Sommerzeit.${doubt ? ` ${say.tell(doubt).message}` : ''}`,
    hint: 'Beide Sensoren auf dieselbe Zeitzone stellen, am besten UTC; Tag und Stunde der Aufzeichnung können um so viel falsch sein.',
  },
  'CLOCKS_UNCERTAIN.stamps_refined': {
    message: ({ method, moved_s, u_s }, say) =>
      `Die absoluten Zeitstempel der beiden Aufzeichnungen passen nicht auf die Millisekunde zusammen; die rechte wurde um ${say.number(moved_s, 3)} s verschoben (${methodText(method)}), Standardunsicherheit ${say.number(1000 * u_s, 1)} ms.`,
    hint: 'Beide Sensoren kurz vor der Aufzeichnung nach einer Uhr stellen, oder vor dem Start mit beiden Füßen zugleich aufstampfen.',
  },
  'CLOCKS_UNCERTAIN.common_zero': {
    message:
      'Beide Zeitspalten beginnen bei null, enden aber verschieden; die Schritte passen zu einer gemeinsamen Uhr, deshalb wurden die beiden darauf gepaart.',
    hint: 'Falls jeder Sensor seine eigene Uhr genullt hat: vor dem Start mit beiden Füßen zugleich aufstampfen.',
  },
  'CLOCKS_UNCERTAIN.by_steps': {
    message: ({ u_s }, say) =>
      `Die beiden Aufzeichnungen wurden über den Wechsel der Schritte gepaart, als wären links und rechts gleich; Standardunsicherheit ${say.number(1000 * u_s, 1)} ms.`,
    hint: 'Vor dem Start dreimal mit beiden Füßen zugleich aufstampfen oder springen.',
  },
  'CLOCKS_UNCERTAIN.by_one_impact': {
    message: ({ u_s }, say) =>
      `Die beiden Aufzeichnungen wurden über einen einzigen Stoß gepaart; Standardunsicherheit ${say.number(1000 * u_s, 1)} ms.`,
    hint: 'Vor dem Start dreimal mit beiden Füßen zugleich aufstampfen oder springen.',
  },
  'CLOCKS_UNCERTAIN.stamps_overruled': {
    message: ({ stamps, method, apart_s }, say) =>
      `Nach den Zeitstempeln der beiden Aufzeichnungen (${methodText(stamps)}) würden beide Füße zugleich auftreten; verwendet wurde stattdessen ein Abstand von ${say.number(apart_s, 3)} s (${methodText(method)}).`,
    hint: 'Prüfen, ob beide Sensoren wirklich dieselbe Uhr haben.',
  },
  'CLOCKS_UNCERTAIN.stamps_doubted': {
    message: ({ stamps }) =>
      `Nach den Zeitstempeln der beiden Aufzeichnungen (${methodText(stamps)}) treten beide Füße zugleich auf, was beim Laufen nicht vorkommt; nichts anderes verrät den Versatz, deshalb blieben die Zeitstempel stehen.`,
    hint: 'Prüfen, ob beide Sensoren wirklich dieselbe Uhr haben; Flug- und Schrittzeiten sind nicht verlässlich.',
  },
  'CLOCKS_UNCERTAIN.uneven_steps': {
    message: ({ stamps, off_s }, say) =>
      `Nach den Zeitstempeln der beiden Aufzeichnungen (${methodText(stamps)}) fallen die rechten Schritte ${say.number(1000 * off_s, 0)} ms neben die Mitte der linken: Entweder unterscheiden sich die Beine so sehr, oder die Uhren. Flug- und Schrittzeiten sind um so viel unsicher.`,
    hint: 'Prüfen, ob beide Sensoren eine Uhr teilen; vor dem Start mit beiden Füßen stampfen, um Uhren von Beinen zu unterscheiden.',
  },
  'CLOCKS_UNCERTAIN.drifting': {
    message: ({ stamps, ppm, u_s }, say) =>
      `Die Zeitstempel der beiden Aufzeichnungen (${methodText(stamps)}) laufen um ${say.number(Math.abs(0.06 * ppm), 1)} ms je Minute auseinander, wie die Schritte zeigen; das wurde herausgenommen, Standardunsicherheit ${say.number(1000 * u_s, 1)} ms.`,
    hint: 'Beide Sensoren kurz vor der Aufzeichnung nach einer Uhr stellen, oder kürzer aufzeichnen.',
  },
  'CLOCKS_UNCERTAIN.uneven': {
    message: ({ wander_s }, say) =>
      `Die Uhren der beiden Sensoren laufen nicht gleichmäßig gegeneinander: ${say.number(1000 * wander_s, 0)} ms Abweichung von einer Geraden über die Aufzeichnung; um so viel sind Flug- und Schrittzeiten unsicher.`,
    hint: 'Beide Sensoren mit einer Uhr starten, oder lange Aufzeichnungen in Einheiten teilen.',
  },
  'CLOCKS_UNCERTAIN.last_compared': {
    message: ({ reached_s, end_s }, say) =>
      `Die Uhren der beiden Sensoren wurden zuletzt bei ${say.number(reached_s, 0)} s von ${say.number(end_s, 0)} s verglichen, weil danach nicht gelaufen wurde; Flug- und Schrittzeiten späterer Schritte sind weniger sicher.`,
    hint: 'Beide Sensoren mit einer Uhr starten, oder lange Aufzeichnungen in Einheiten teilen.',
  },
};

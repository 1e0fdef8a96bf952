import type { Mounting } from '../../../words.ts';
import { AT_DE, atOther_de } from '../reasons.ts';
import type { analysisFaults, ImpossibleTimes } from '../../en/faults/analysis.ts';
import type { FaultsLike } from '../../sentence.ts';
import type { Speech } from '../../say.ts';
import { timesByFeetText, typedTimesText } from '../../suggested-times.ts';

const SIDES: Record<string, string> = { left: 'Linker', right: 'Rechter' };
const sensor = (side: string, mounting: Mounting): string =>
  `${SIDES[side] ? `${SIDES[side]} Sensor` : 'Sensor'} ${AT_DE[mounting]}`;

function impossible(why: ImpossibleTimes, { number }: Speech): string {
  switch (why.kind) {
    case 'mean_speed':
      return `eine mittlere Geschwindigkeit von ${number(why.mps, 1)} m/s; die Schnellsten bleiben unter ${number(why.most_mps)} m/s`;
    case 'top_speed':
      return `eine Höchstgeschwindigkeit von ${number(why.mps, 1)} m/s; die Schnellsten bleiben unter ${number(why.most_mps)} m/s`;
    case 'no_sprint':
      return 'Zeiten, die kein Sprint aus dem Stand hat';
    case 'start':
      return `eine Startbeschleunigung von ${number(why.mps2, 0)} m/s²; die Schnellsten bleiben unter ${number(why.most_mps2)} m/s²`;
    case 'strides':
      return `um ${number(Math.abs(100 * why.scale), 0)} % ${why.scale > 0 ? 'kürzere' : 'längere'} Doppelschritte, als die Fußsensoren gemessen haben; bis ${number(100 * why.most, 0)} % kommen vor`;
    case 'clock':
      return `eine Uhr, die ${number(Math.abs(why.shift_s), 2)} s ${why.shift_s > 0 ? 'nach' : 'vor'} der ersten Bewegung anlief`;
    case 'running':
      return `${number(why.needed_s, 1)} s Laufen; gelaufen wurde ${number(why.ran_s, 1)} s`;
    case 'body':
      return `einen Körperweg von ${number(why.travels_m, 2)} m über dem Fuß am Boden; bei Läufern sind es ${number(why.least_m)} bis ${number(why.most_m)} m`;
  }
}

export const analysisFaults_de: FaultsLike<typeof analysisFaults> = {
  FILTER_DESIGN_INVALID: {
    message: ({ field, value, allowed }) =>
      `Filterentwurf: ${field} ist ${value}; erlaubt: ${allowed}; es wurde kein Filter erstellt.`,
    hint: 'Eine andere Grenzfrequenz oder Ordnung wählen, oder mit höherer Abtastrate aufzeichnen.',
  },
  SIGNAL_NOT_FINITE: {
    message: ({ index, value }) =>
      `Messwert ${index} des Signals ist ${value}; jeder Messwert muss eine endliche Zahl sein; es wurde nichts gefiltert.`,
    hint: 'Das Signal zuerst an seinen Lücken teilen.',
  },
  SPECTRUM_INPUT_INVALID: {
    message: ({ found, allowed }) => `Spektrum: ${found}; erlaubt: ${allowed}; es wurde nichts berechnet.`,
    hint: 'Das Signal an seinen Lücken teilen, oder die Länge der Funktion überlassen.',
  },
  'TIMES_NOT_INCREASING.twice': {
    message: ({ distance_m, first_s, second_s }, say) =>
      `Die Zeiten der Strecke widersprechen sich: ${say.number(distance_m)} m wurden nach ${say.number(first_s)} s und nach ${say.number(second_s)} s erreicht. Zeiten müssen mit der Strecke wachsen. Alle wurden weggelassen; sonst ging nichts verloren.`,
    hint: 'Die Zeiten berichtigen, dann neu auswerten.',
  },
  'TIMES_NOT_INCREASING.back': {
    message: ({ near_m, near_s, far_m, far_s }, say) =>
      `Die Zeiten der Strecke widersprechen sich: ${say.number(near_m)} m nach ${say.number(near_s)} s, aber ${say.number(far_m)} m nach ${say.number(far_s)} s. Zeiten müssen mit der Strecke wachsen. Alle wurden weggelassen; sonst ging nichts verloren.`,
    hint: 'Die Zeiten berichtigen, dann neu auswerten.',
  },
  TIMES_IMPOSSIBLE: {
    message: ({ times, why, by_feet }, say) =>
      `Die Zeiten der Strecke (${times.map((t) => `${say.number(t.distance_m)} m in ${say.number(t.time_s)} s`).join(', ')}) würden bedeuten: ${impossible(why, say)}. Sie wurden weggelassen; sonst ging nichts verloren.${by_feet?.length ? ` Die Fußsensoren sprechen für ${timesByFeetText(by_feet, say)}.` : ''}`,
    hint: 'Strecke, Zeit und Beginn der Zeitnahme prüfen, und ob sie zu diesem Lauf gehören.',
  },
  'TIMES_DOUBTED.left_out': {
    message: ({ times }, say) =>
      `Zeiten der Strecke: ${typedTimesText(times, say)} passt nicht zu diesem Lauf, die anderen Zeiten passen; die Fußsensoren sprechen für ${timesByFeetText(times, say)}. Das wurde weggelassen; die anderen Zeiten wurden verwendet.`,
    hint: 'Nach einer vertauschten Ziffer oder der Zeit eines anderen Laufs suchen, sie berichtigen, dann neu auswerten.',
  },
  'TIMES_DOUBTED.odd': {
    message: ({ distance_m, typed_s, by_others_s, half_width_s }, { number }) =>
      `Zeiten der Strecke: ${number(distance_m)} m in ${number(typed_s)} s passt nicht zu den anderen, die zueinander passen; sie sprechen für ${number(by_others_s, 2)} ± ${number(half_width_s, 2)} s. Das wurde weggelassen; die anderen Zeiten wurden verwendet.`,
    hint: 'Nach einer vertauschten Ziffer suchen, nach einer Schranke, die jemand anderes auslöste oder die anderswo stand; sie berichtigen, dann neu auswerten.',
  },
  'TIMES_DOUBTED.apart': {
    message: ({ worst_s }, { number }) =>
      `Zeiten der Strecke passen nicht zu einem Lauf: Sie liegen bis ${number(worst_s, 2)} s neben der besten Kurve, und welche falsch ist, lässt sich nicht sagen. Alle wurden verwendet; Geschwindigkeit und Schrittlänge sind deshalb unsicherer.`,
    hint: 'Strecken, Zeiten und den Beginn der Zeitnahme prüfen.',
  },
  'TIMES_DOUBTED.kept': {
    message: ({ times }, say) =>
      `Zeiten der Strecke: ${typedTimesText(times, say)} ist bei diesem Lauf kaum zu glauben; die Fußsensoren sprechen für ${timesByFeetText(times, say)}. Das wurde so verwendet; Geschwindigkeit und Schrittlänge beruhen darauf.`,
    hint: 'Strecke, Zeit und Beginn der Zeitnahme prüfen.',
  },
  AXES_DOUBTFUL: {
    message: ({ side, mounting, gravity_g, turned_g, share, axes }, say) =>
      `${sensor(side, mounting)}: mit der Drehung zurückgerechnet ergibt die Beschleunigung beim Laufen im Mittel ${say.number(gravity_g, 2)} g; erwartet wird 1 g auf ${say.number(100 * share, 0)} %, und mit umgekehrter Drehung um ${axes.join(', ')} kommen ${say.number(turned_g, 2)} g heraus; ausgewertet wurde, wie es ist.`,
    hint: ({ axes }) =>
      `Die Vorzeichen der Achsen in einem Layout angeben: die Drehung um ${axes.join(', ')} ist umgekehrt, oder dieselben Beschleunigungsachsen sind gespiegelt.`,
  },
  SENSOR_SCALE_DOUBTFUL: {
    message: ({ side, mounting, resting_mps2, gravity_mps2, share }, say) =>
      `${sensor(side, mounting)}: in Ruhe misst er ${say.number(resting_mps2, 2)} m/s²; erwartet werden ${say.number(gravity_mps2, 2)} auf ${say.number(100 * share, 0)} %; ausgewertet wurde, wie es ist.`,
    hint: 'Den Maßstab der Beschleunigung im Layout prüfen, oder den Sensor kalibrieren.',
  },
  MOUNTING_DOUBTFUL: {
    message: ({ side, mounting, why }, say) =>
      `${sensor(side, mounting)}: ${say.because(why)}; er wurde also anscheinend ${atOther_de(mounting)} getragen. Ausgewertet wurde er als Sensor ${AT_DE[mounting]}: Bodenkontakte fehlen, und Bodenkontaktzeiten, die um Dutzende Millisekunden falsch wären, sind weggelassen.`,
    hint: ({ mounting }) => `Für diese Datei den Sitz „${atOther_de(mounting)}“ wählen und neu auswerten.`,
  },
  SIDES_DOUBTFUL: {
    message: ({ side, mounting, why }, say) =>
      `${sensor(side, mounting)}: ${say.because(why)}; links und rechts scheinen also vertauscht. Ausgewertet wurde wie angegeben: jeder Bodenkontakt zählt für das andere Bein.`,
    hint: 'Die beiden Dateien oder die Beschriftung der Sensoren tauschen und neu auswerten.',
  },
  SENSOR_LOOSE: {
    message: ({ side, mounting, why }, say) =>
      `${sensor(side, mounting)}: ${say.because(why)}; er sitzt also locker. Die Bodenkontakte wurden so ausgewertet, wie sie sind: Aufsetzen und Abdruck sind verwischt.`,
    hint: 'Das Band oder die Schnürung über dem Sensor festziehen und ihn an Knochen oder Schuh andrücken.',
  },
  SENSOR_TURNED: {
    message: ({ side, mounting, why }, say) =>
      `${sensor(side, mounting)}: ${say.because(why)}; er ist also am Bein verrutscht. Ausgewertet wurde, wie es ist.`,
    hint: 'Ihn so befestigen, dass er sich nicht drehen kann, und vor dem nächsten Lauf wieder an seinen Platz setzen.',
  },
};

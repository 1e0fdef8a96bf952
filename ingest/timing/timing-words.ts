import type { ClockStart, TimingMethod } from '../../shared/words.ts';

export type TimingColumn =
  | 'athlete'
  | 'date'
  | 'set'
  | 'repetition'
  | 'distance'
  | 'time'
  | 'interval'
  | 'method'
  | 'clock';

/** Header words, without accents, in the languages that timing sheets come in. The first that fits wins. */
const COLUMN_WORDS: [TimingColumn, RegExp][] = [
  ['interval', /interval|lap|zwischenzeit|parcial|teilzeit/],
  ['method', /method|methode|metodo|timing|timed by|measured by|messung|chronometrage/],
  ['clock', /clock|zero|start signal|triggered|uhrstart|trigger/],
  ['date', /date|datum|fecha|\bday\b|jour|\bdia\b/],
  ['set', /^(set|serie|satz|series)$/],
  ['repetition', /rep|run\b|trial|lauf|essai|intento|versuch|^(no|nr|n|#)$|number|numero|nummer/],
  ['athlete', /athlete|name|runner|athlet|sportler|coureur|atleta|corredor|lauferin|laufer/],
  ['distance', /dist|\bgate\b|strecke|metres|meters|distancia|schranke/],
  ['time', /time|zeit|temps|tiempo|tempo|split|result|^t$|seconds/],
];

export function timingColumn(header: string): TimingColumn | null {
  const plain = plainText(header)
    .replace(/[_-]/g, ' ')
    .split(/[[(]/, 1)[0]
    .replace(/\b(s|sec|ms|m|yd)$/, '')
    .trim();
  return COLUMN_WORDS.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}

const METHOD_WORDS: [TimingMethod, RegExp][] = [
  ['hand', /hand|manual|stopwatch|stop watch|stoppuhr|chrono manuel|cronometro|^h$|^ht$/],
  // Photocells are gates; a photo finish is a camera.
  ['beam', /photo ?-?(cell|gate|electr)|fotocel|fotozell|photocell|cellules? photo/],
  ['gun_photo_finish', /photo|fat\b|fully auto|zielfoto|gun|automatic|^a$/],
  ['touch_pad_beam', /touch|pad\b|matte|release/],
  ['motion_start', /motion|first movement|bewegung|video/],
  ['beam', /beam|gate|light|cell|lichtschranke|cellule|laser|electronic|elektronisch|electronique|fotocel|dual|single/],
  ['other', /^other$|^sonst|^autre/],
];

export function timingMethod(text: string): TimingMethod | null {
  const plain = plainText(text).trim();
  return METHOD_WORDS.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}

const CLOCK_WORDS: [ClockStart, RegExp][] = [
  ['first_movement', /movement|motion|release|pad|bewegung/],
  ['gun', /gun|shot|signal|schuss|pistol|coup/],
  ['gate', /gate|beam|light|cell|schranke/],
];

export function clockStart(text: string): ClockStart | null {
  const plain = plainText(text);
  return CLOCK_WORDS.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}

/** Lower case, without accents. */
export function plainText(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .replace(/ß/g, 'ss')
    .toLowerCase()
    .trim();
}

import type { Side } from '../../shared/words.ts';
import { LEFT_WORDS, RIGHT_WORDS } from './column-words.ts';
import { possibleDateOrders, readInstant } from './read-instant.ts';

/** What the lines above the table say. Null where they say nothing. */
export interface Preamble {
  rate_hz: number | null;
  start_utc: string | null;
  /** Standard uncertainty of the start by the digits it is written with, seconds. */
  start_utc_u_s: number;
  side: Side;
  ticks_per_s: number | null;
  counts_per_g: number | null;
  counts_per_dps: number | null;
  acc_range_g: number | null;
  gyr_range_dps: number | null;
  acc_bits: number | null;
  /** The lines that told, for the evidence. */
  lines: Record<string, string>;
}

const NUMBER = String.raw`([+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?)`;
const RULES: [keyof Omit<Preamble, 'lines' | 'side' | 'start_utc' | 'start_utc_u_s'>, RegExp][] = [
  [
    'ticks_per_s',
    new RegExp(String.raw`tick.*?${NUMBER}\s*(?:hz|/s|per\s*s)|(?:clock|tick)[^0-9]*?${NUMBER}\s*(?:hz)`, 'i'),
  ],
  ['counts_per_g', new RegExp(String.raw`${NUMBER}\s*(?:lsb|counts?)\s*(?:/|per)\s*g\b`, 'i')],
  [
    'counts_per_dps',
    new RegExp(String.raw`${NUMBER}\s*(?:lsb|counts?)\s*(?:/|per)\s*(?:dps|deg/s|°/s|\(deg/s\)|\(°/s\))`, 'i'),
  ],
  ['acc_range_g', new RegExp(String.raw`(?:range|full\s*scale|bereich|fsr)[^0-9]*?${NUMBER}\s*g\b`, 'i')],
  [
    'gyr_range_dps',
    new RegExp(String.raw`(?:range|full\s*scale|bereich|fsr)[^0-9]*?${NUMBER}\s*(?:dps|deg/s|°/s)`, 'i'),
  ],
  ['acc_bits', /(\d+)\s*-?\s*bits?\b/i],
  [
    'rate_hz',
    new RegExp(
      String.raw`(?:rate|freq|frequen|fs\b|odr|abtast|echantillon|échantillon|muestreo|campionamento|hz|hertz|sampling)[^0-9]*?${NUMBER}`,
      'i',
    ),
  ],
];
const START = /(start|begin|beginn|debut|début|inicio|inizio|recorded|recording|date|datum|fecha|time|zeit)/i;
const INSTANT = /\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}[T ,;]+\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)?(\s*(Z|[+-]\d{2}:?\d{2}))?/;

/** Reads metadata from the free lines above the table: rate, start, side, ticks and scales. */
export function readPreamble(lines: string[]): Preamble {
  const found: Preamble = {
    rate_hz: null,
    start_utc: null,
    start_utc_u_s: 0,
    side: 'unknown',
    ticks_per_s: null,
    counts_per_g: null,
    counts_per_dps: null,
    acc_range_g: null,
    gyr_range_dps: null,
    acc_bits: null,
    lines: {},
  };
  for (const line of lines) {
    readNumbers(line, found);
    if (found.start_utc === null && START.test(line)) readStart(line, found);
    if (found.side === 'unknown') readSide(line, found);
  }
  return found;
}

function readNumbers(line: string, found: Preamble): void {
  // One line may give several scales ("16 g, 2000 deg/s"), but a tick rate is no sampling rate.
  for (const [key, pattern] of RULES) {
    if (found[key] !== null || (key === 'rate_hz' && /tick|clock|lsb|count/i.test(line))) continue;
    const match = pattern.exec(line);
    const text = match?.slice(1).find((group) => group !== undefined);
    const value = text ? Number(text.replace(',', '.')) : Number.NaN;
    if (!(value > 0)) continue;
    found[key] = key === 'rate_hz' && /khz/i.test(line) ? value * 1000 : value;
    found.lines[key] = line.trim();
  }
}

function readStart(line: string, found: Preamble): void {
  const instant = INSTANT.exec(line);
  if (!instant) return;
  const text = instant[0].replace(/[,;]+\s*/, ' ');
  const orders = possibleDateOrders([text]);
  if (orders.length !== 1) return;
  const seconds = readInstant(text, orders[0]);
  if (!Number.isFinite(seconds)) return;
  found.start_utc = new Date(seconds * 1000).toISOString();
  // A rectangle as wide as the last digit (GUM 4.3.7, JCGM 100:2008).
  const digits = /:\d{2}[.,](\d+)/.exec(text)?.[1].length ?? 0;
  const step = /:\d{2}:\d{2}/.test(text) ? Number(`1e-${digits}`) : 60;
  found.start_utc_u_s = step / Math.sqrt(12);
  found.lines.start_utc = line.trim();
}

function readSide(line: string, found: Preamble): void {
  const match =
    /^\W*(?:side|foot|leg|limb|sensor|seite|fuss|fuß|bein|pied|jambe|lado|pie|pierna|lato|piede|location|position|placement)\b[^\p{L}]*(.+)$/iu.exec(
      line,
    );
  if (!match) return;
  const words = match[1].toLowerCase().split(/[^\p{L}]+/u);
  const left = words.some((word) => LEFT_WORDS.includes(word));
  const right = words.some((word) => RIGHT_WORDS.includes(word));
  if (left === right) return;
  found.side = left ? 'left' : 'right';
  found.lines.side = line.trim();
}

import type { Side } from '../../../shared/words.ts';
import { sideInWords } from '../columns/side-in-words.ts';
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

type NumberKey = keyof Omit<Preamble, 'lines' | 'side' | 'start_utc' | 'start_utc_u_s'>;

const NUMBER = String.raw`([+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?)`;
const RULES: [NumberKey | 'g_per_count' | 'dps_per_count', RegExp][] = [
  [
    'ticks_per_s',
    new RegExp(
      String.raw`tick.*?${NUMBER}\s{0,9}(?:hz|/s|per\s{0,9}s)|(?:clock|tick)[^0-9]{0,60}?${NUMBER}\s{0,9}(?:hz)`,
      'i',
    ),
  ],
  ['counts_per_g', new RegExp(String.raw`${NUMBER}\s{0,9}(?:lsb|counts?)\s{0,9}(?:/|per)\s{0,9}g\b`, 'i')],
  [
    'counts_per_dps',
    new RegExp(
      String.raw`${NUMBER}\s{0,9}(?:lsb|counts?)\s{0,9}(?:/|per)\s{0,9}(?:dps|deg/s|°/s|\(deg/s\)|\(°/s\))`,
      'i',
    ),
  ],
  [
    'g_per_count',
    new RegExp(String.raw`${NUMBER}\s{0,9}(?:[mµμu]?g)\s{0,9}(?:/|per)\s{0,9}(?:lsb|counts?|digits?|bit)\b`, 'i'),
  ],
  [
    'dps_per_count',
    new RegExp(
      String.raw`${NUMBER}\s{0,9}(?:m?dps|m?deg/s|m?°/s|\(deg/s\)|\(°/s\))\s{0,9}(?:/|per)\s{0,9}(?:lsb|counts?|digits?|bit)\b`,
      'i',
    ),
  ],
  ['acc_range_g', new RegExp(String.raw`(?:range|full\s{0,9}scale|bereich|fsr)[^0-9]{0,60}?${NUMBER}\s{0,9}g\b`, 'i')],
  [
    'gyr_range_dps',
    new RegExp(String.raw`(?:range|full\s{0,9}scale|bereich|fsr)[^0-9]{0,60}?${NUMBER}\s{0,9}(?:dps|deg/s|°/s)`, 'i'),
  ],
  ['acc_bits', /(\d{1,2})\s{0,2}-?\s{0,2}bits?\b/i],
  [
    'rate_hz',
    new RegExp(
      String.raw`(?:rate|freq|frequen|fs\b|fps\b|odr|abtast|echantillon|échantillon|muestreo|campionamento|hz|hertz|sampling|частот|дискретиз|周波数|频率|频度|采样|주파수|taktfreq|frekv|czestotliw|częstotliw|örnekleme|mintavét|συχν)[^0-9]{0,60}?${NUMBER}`,
      'iu',
    ),
  ],
];
/** Ticks a second as `32768 ticks per second`; as the length of one, `1 tick = 10 us`; as a fraction, `1/32768 s`. */
const TICKS_A_SECOND = new RegExp(
  String.raw`${NUMBER}\s{0,9}(?:ticks?|counts?)?\s{0,9}(?:per|/|a|je|par|por)\s{0,9}s(?:ec\w*|ek\w*)?\b`,
  'i',
);
const TICK_FRACTION = /\b1\s{0,9}\/\s{0,9}(\d+(?:\.\d+)?)\s{0,9}s\b/i;
const LENGTH = new RegExp(String.raw`${NUMBER}\s{0,9}(ns|us|µs|μs|ms|s)\b`, 'gi');
const SECONDS: Record<string, number> = { ns: 1e-9, us: 1e-6, µs: 1e-6, μs: 1e-6, ms: 1e-3, s: 1 };
const TICK = /\bticks?\b|\btimer\b|time\s{0,9}base|zeitbasis/i;
/** Lines that give the time between samples, not their rate. */
const INTERVAL =
  /interval|(?:sampl|abtast|echantillon|échantillon|muestreo|campion)\w{0,20}\W{0,9}(?:period|time|step)|periodendauer|\bdt\b|\bperiod\b|\bperiode\b|\bpériode\b/i;
/** A rate that movement is recorded at. */
const RATES_HZ = [1, 20_000];
const START = /(start|begin|beginn|debut|début|inicio|inizio|recorded|recording|date|datum|fecha|time|zeit)/i;
const INSTANT =
  /\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}[T ,;]{1,4}\d{1,2}:\d{2}(:\d{2}([.,]\d{1,20})?)?(\s{0,9}(Z|[+-]\d{2}:?\d{2}))?/;

/** Metadata stand in short lines; of a longer one its beginning is read. */
const LINE_LOOKED_AT = 400;

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
  for (const whole of lines) {
    const line = whole.slice(0, LINE_LOOKED_AT);
    readNumbers(line, found);
    readLengths(line, found);
    if (found.start_utc === null && START.test(line)) readStart(line, found);
    if (found.side === 'unknown') readSide(line, found);
  }
  return found;
}

/** Column names may carry the rate, `sample (200 Hz)`, and scales, `acc_x (0.488 mg/LSB)`. A line above the table comes first. */
export function readNumbersInNames(names: string[], found: Preamble): void {
  for (const name of names) {
    if (/\b(?:lsb|counts?|digits?|bit)\b/i.test(name)) readNumbers(name, found);
    const match = /(\d{1,9}(?:[.,]\d{1,9})?)\s{0,9}(k?)hz\b/i.exec(name);
    if (!match || found.rate_hz !== null) continue;
    found.rate_hz = Number(match[1].replace(',', '.')) * (match[2] ? 1000 : 1);
    found.lines.rate_hz = name;
  }
}

function readNumbers(line: string, found: Preamble): void {
  // One line may give several scales ("16 g, 2000 deg/s"), but a tick rate is no sampling rate.
  for (const [rule, pattern] of RULES) {
    // What a count stands for is the reciprocal of counts a unit.
    const key = rule === 'g_per_count' ? 'counts_per_g' : rule === 'dps_per_count' ? 'counts_per_dps' : rule;
    if (found[key] !== null || (key === 'rate_hz' && (/tick|clock|lsb|count/i.test(line) || INTERVAL.test(line))))
      continue;
    const match = pattern.exec(line);
    const text = match?.slice(1).find((group) => group !== undefined);
    const value = text ? Number(text.replace(',', '.')) : Number.NaN;
    if (!(value > 0)) continue;
    found[key] =
      rule === key ? (key === 'rate_hz' && /khz/i.test(line) ? value * 1000 : value) : perUnit(match![0], value);
    found.lines[key] = line.trim();
  }
}

/** Counts a g or a deg/s, from the size of one count: the letter before the unit says thousandths or millionths. */
function perUnit(text: string, value: number): number {
  const prefix = /[\d\s]([mµμu])(?:g|dps|deg|°)/i.exec(text)?.[1].toLowerCase();
  const size = value * (prefix === undefined ? 1 : prefix === 'm' ? 1e-3 : 1e-6);
  return Number((1 / size).toPrecision(12));
}

/** Time between samples, and the length of a tick: the reciprocal of what is wanted. */
function readLengths(line: string, found: Preamble): void {
  const tick = TICK.test(line);
  if (!tick && !INTERVAL.test(line)) return;
  const key = tick ? 'ticks_per_s' : 'rate_hz';
  if (found[key] !== null) return;
  const perSecond = tick ? (TICKS_A_SECOND.exec(line)?.[1] ?? TICK_FRACTION.exec(line)?.[1]) : undefined;
  const value = perSecond === undefined ? 1 / lengthIn(line) : Number(perSecond.replace(',', '.'));
  if (!(value > 0) || !Number.isFinite(value)) return;
  if (key === 'rate_hz' && (value < RATES_HZ[0] || value > RATES_HZ[1])) return;
  // A reciprocal of a short decimal carries rounding: 1 / 0.01 is 100.
  found[key] = Number(value.toPrecision(12));
  found.lines[key] = line.trim();
}

/** The last length of time in a line, seconds; a unit in brackets before the number counts, too. NaN where there is none. */
function lengthIn(line: string): number {
  const last = [...line.matchAll(LENGTH)].at(-1);
  if (last) return Number(last[1].replace(',', '.')) * SECONDS[last[2].toLowerCase()];
  const before = new RegExp(String.raw`[([]\s{0,9}(ns|us|µs|μs|ms|s)\s{0,9}[)\]][^0-9]{0,60}${NUMBER}`, 'i').exec(line);
  return before ? Number(before[2].replace(',', '.')) * SECONDS[before[1].toLowerCase()] : Number.NaN;
}

function readStart(line: string, found: Preamble): void {
  const instant = INSTANT.exec(line);
  if (!instant) return;
  const text = instant[0].replace(/[,;]+\s{0,9}/, ' ');
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
    /^\W{0,20}(?:side|foot|leg|limb|sensor|seite|fuss|fuß|bein|pied|jambe|lado|pie|pierna|lato|piede|location|position|placement)\b[^\p{L}]{0,20}(.{1,200})$/iu.exec(
      line,
    );
  if (!match) return;
  const side = sideInWords(match[1]);
  if (side === 'unknown') return;
  found.side = side;
  found.lines.side = line.trim();
}

/**
 * Random plausible recordings from a seed: how people and loggers write files, by language, clock, unit, encoding, order and loss.
 * What a file holds is known before it is written; the reader has no part in it.
 */
import { gzipSync } from 'node:zlib';
import { CLOCKS } from './clocks.ts';
import { encode } from './code-pages.ts';
import { type Damage, damaged } from './damage.ts';
import { Draw } from './draw.ts';
import { extraColumns } from './extra-columns.ts';
import { type FileUnits, accUnit, gyrUnit, nameStyle } from './headers.ts';
import { LANGUAGES, type Language, MORE_LANGUAGES } from './languages.ts';
import { motionOf, randomTurn, type Samples, stretch } from './motions.ts';
import type { TrueSensor } from './true-sensor.ts';
import { writeTable } from './write-table.ts';

export interface RandomFile {
  seed: number;
  kinds: Record<'language' | 'clock' | 'names' | 'units' | 'encoding' | 'feet' | 'oddity' | 'damage', string>;
  file_name: string;
  bytes: Buffer;
  sensors: TrueSensor[];
  rate_hz: number;
  /** Nothing in the file tells the rate. */
  needs_rate: boolean;
  start_s: number | null;
  tolerance: { time_s: number; acc: number; gyr: number };
  damage: Damage;
}

const RATES = [
  50,
  100,
  104,
  128,
  200,
  208,
  250,
  256,
  400,
  416,
  500,
  512,
  800,
  1000,
  1024,
  1125,
  62.5,
  1000 / 7,
  1000 / 3,
  119.5,
  496.3,
];
/** Few rows keep a run over thousands of files short; at least seven seconds are recorded. */
const LEAST_S = 7;

/** @param fastest_hz no file is faster: fewer rows for a quick look */
export function makeRandomFile(seed: number, motions = 6, fastest_hz = 1125): RandomFile {
  const draw = new Draw(seed);
  const language = draw.pick([...LANGUAGES, ...MORE_LANGUAGES]);
  const drawnRate = draw.pick(RATES.filter((rate) => rate <= fastest_hz));
  const [makeClock, slowest] = draw.weighed(
    CLOCKS.map(([, make, weight, most]) => [[make, most ?? Infinity], weight] as const),
  );
  // Rows that a file counts under the name of time are told from milliseconds by the motion, but not at 1024 or 1125 Hz.
  const rate_hz = Math.min(drawnRate, slowest);
  const clock = makeClock(draw, language, rate_hz);
  const hasGyr = draw.chance(0.85);
  const feet = draw.weighed([
    ['one', 8],
    ['a set of columns each', 0.9],
    ['a set of columns each, titled', 0.4],
    ['rows in turn', 0.6],
    ['rows in turn, numbered', 0.4],
  ] as const);
  const motion = motionOf(draw, motions);
  const count = Math.round(rate_hz * draw.between(LEAST_S, LEAST_S + 4));
  // A clock that shows the time of every row may show that rows are not even.
  const shows =
    clock.names.length > 0 && clock.resolution_s < 0.06 / rate_hz && !/row|count|stamps|since|told/.test(clock.kind);
  const jitter = shows && draw.chance(0.15) ? Array.from({ length: count }, () => draw.between(-0.15, 0.15)) : null;
  const from = draw.weighed([
    [draw.between(0, 1.5), 2],
    [draw.between(3, 6), 1],
  ] as const);
  const sides = feet === 'one' ? [draw.pick(['left', 'right', 'unknown'] as const)] : (['left', 'right'] as const);
  const whole = sides.map((side) =>
    asSensorsAre(
      draw,
      stretch(motion[side === 'right' ? 'right' : 'left'], randomTurn(draw), from, instants(rate_hz, count, jitter)),
    ),
  );
  const units = chooseUnits(draw, language, hasGyr);
  const named = units.inRow !== null || units.inNames.gyr !== '';
  const { damage, rows } = damaged(
    draw,
    whole[0].time_s.length,
    clock,
    hasGyr && !/count/.test(units.kind) && named,
    hasGyr,
    feet !== 'one',
  );
  const style = nameStyle(draw, language, units.inNames);
  const table = writeTable({
    draw,
    language,
    clock,
    feet,
    sides,
    whole,
    units,
    hasGyr,
    style,
    damage,
    rows,
    extras: extraColumns(draw, language),
  });
  const page = choosePage(draw, language, table.text);
  const zipped = draw.weighed([
    ['', 9],
    ['.gz', 1],
    ['.gz twice', 0.4],
  ] as const);
  const plain = encode(table.text, page) ?? Buffer.from(table.text, 'utf8');
  return {
    seed,
    kinds: {
      language: language.name,
      clock: clock.kind + (jitter ? ', uneven' : ''),
      names: style.kind,
      units: units.kind,
      encoding: page + zipped,
      feet,
      oddity: table.oddity,
      damage: damage.kind,
    },
    file_name: `${fileName(draw, language, feet === 'one' ? sides[0] : 'unknown')}.csv${zipped === '' ? '' : '.gz'}`,
    bytes: zipped === '' ? plain : zipped === '.gz' ? gzipSync(plain) : twoMembers(plain),
    sensors: table.sensors,
    rate_hz,
    needs_rate: clock.needs_rate === true,
    start_s: clock.start_s ?? null,
    tolerance: {
      time_s: Math.max(
        2 * clock.resolution_s,
        0.02 / rate_hz,
        0.004 * count * (clock.resolution_s > 0.5 ? 1 / rate_hz : 0),
      ),
      acc: (0.51 * 10 ** -units.acc.decimals) / units.acc.per_si + 1e-9,
      gyr: (0.51 * 10 ** -units.gyr.decimals) / units.gyr.per_si + 1e-9,
    },
    damage,
  };
}

/** Seconds from the first sample, early or late by a share of an interval. */
function instants(rate_hz: number, count: number, jitter: number[] | null): number[] {
  return Array.from({ length: count }, (_, i) => (i + (jitter && i > 0 ? jitter[i] : 0)) / rate_hz);
}

/** Scale and offset errors as sold sensors have them, and a range that a hard foot strike leaves. */
function asSensorsAre(draw: Draw, samples: Samples): Samples {
  const scale = draw.between(0.98, 1.02);
  const offset = [0, 1, 2].map(() => draw.between(-0.03, 0.03));
  const range = draw.chance(0.15)
    ? { acc: 16 * 9.80665, gyr: (2000 * Math.PI) / 180 }
    : { acc: Infinity, gyr: Infinity };
  const within = (value: number, most: number) => Math.max(-most, Math.min(most, value));
  return {
    time_s: samples.time_s,
    acc: samples.acc.map((row) => row.map((value) => within(scale * value, range.acc))),
    gyr: samples.gyr.map((row) => row.map((value, axis) => within(value + offset[axis], range.gyr))),
  };
}

function chooseUnits(draw: Draw, language: Language, hasGyr: boolean): FileUnits {
  const acc = accUnit(draw, language);
  const gyr = gyrUnit(draw, language);
  const none = { acc: '', gyr: '' };
  const drawn = draw.weighed([
    ['in the names', 11],
    ['units row', 3],
    ['none', 5],
    ['counts', 3],
  ] as const);
  // Nobody leaves out so rare a unit; without it a rest would be told from mg by 2 %, less than sensors are off.
  const place = drawn === 'none' && acc.unit === 'cm/s2' ? 'in the names' : drawn;
  if (place === 'counts') return counts(draw, hasGyr);
  const spelled = { acc: acc.spelling, gyr: gyr.spelling };
  return {
    kind: `${acc.unit}${hasGyr ? `, ${gyr.unit}` : ''}: ${place}`,
    acc,
    gyr,
    inNames: place === 'in the names' ? spelled : none,
    inRow: place === 'units row' ? spelled : null,
    preamble: [],
  };
}

/** Whole numbers as the chip writes them, with the scale told above the table. */
function counts(draw: Draw, hasGyr: boolean): FileUnits {
  const [range, per_g, mg] = draw.pick([
    [16, 2048, 0.48828125],
    [32, 1024, 0.9765625],
    [8, 4096, 0.244140625],
  ] as const);
  const [dps, mdps] = draw.pick([
    [2000, 70],
    [4000, 140],
    [2000, 61.03515625],
  ] as const);
  const per_dps = 1000 / mdps;
  const [kind, lines] = draw.weighed<[string, string[]]>([
    [['counts a unit', [`Accelerometer: ${per_g} LSB/g`, `Gyroscope: ${per_dps.toFixed(6)} LSB/dps`]], 2],
    [['size of a count', [`acc sensitivity ${mg} mg/LSB`, `gyr sensitivity ${mdps} mdps/LSB`]], 3],
    [['size of a count in one line', [`Sensitivity: ${mg} mg per LSB, ${mdps} mdps/LSB`]], 1],
  ]);
  const name = draw.chance(0.5);
  return {
    kind: `${kind} (${range} g, ${dps} deg/s)`,
    acc: { spelling: 'LSB', per_si: per_g / 9.80665, decimals: 0 },
    gyr: { spelling: 'LSB', per_si: per_dps * (180 / Math.PI), decimals: 0 },
    inNames: name ? { acc: 'LSB', gyr: 'LSB' } : { acc: '', gyr: '' },
    inRow: null,
    preamble: hasGyr ? lines : lines.slice(0, 1),
  };
}

function choosePage(draw: Draw, language: Language, text: string): string {
  const page = draw.weighed([
    ['utf-8', 6],
    ['utf-8-bom', 2],
    ['utf-16le', 0.5],
    ['utf-16le-bom', 0.7],
    ['utf-16be-bom', 0.3],
    [draw.pick(language.pages), 4],
  ] as [string, number][]);
  return encode(text, page) === null ? 'utf-8' : page;
}

function fileName(draw: Draw, language: Language, side: 'left' | 'right' | 'unknown'): string {
  const stem = draw.pick(['run', 'recording', 'sprint_03', 'export', 'log', 'test 2']);
  return side === 'unknown' ? stem : `${stem}_${draw.pick(side === 'left' ? language.left : language.right)}`;
}

/** A logger that closes its file and opens it again: a gzip file of two members. */
function twoMembers(plain: Buffer): Buffer {
  const middle = plain.indexOf(10, plain.length >> 1) + 1;
  return Buffer.concat([gzipSync(plain.subarray(0, middle)), gzipSync(plain.subarray(middle))]);
}

import { turnedBackNorms } from './gravity-by-rotation.ts';

/** What the sensor of a file read, as far as it is known before its time is. */
export interface Motion {
  /** Three axes, any unit. */
  acc: Float64Array[];
  /** 1 g in the acceleration's unit; null where neither a unit nor a rest tells. */
  one_g: number | null;
  /** Three axes, rad/s; null where there is none or its unit is not known. */
  gyr: Float64Array[] | null;
}

/** Whether rows that follow each other at an interval would move as a leg does. */
export type Fit = 'fits' | 'not' | 'unknown';

/** Below this share of g a window's mean tells that nothing turned: any interval would fit. */
const TURNING = 0.25;
const FEWEST_WINDOWS = 2;
const FITS = 0.2;
const FITS_NOT = 0.3;
const LONGEST_PERIOD_S = 0.05;
/** A leg's stride from a walk to a sprint, with room on both sides, seconds. */
const STRIDE_S = [0.3, 2.2];

/**
 * Judges an interval between rows by physics. With a gyroscope: acceleration turned back by the integrated rate leaves 1 g at the
 * true interval, 2 to 4 g at a tenth of it and anything at ten times it (measured on treadmill runs of 18 runners at 2.5 to 4.5 m/s,
 * the mean stays within 0.94 and 1.09 g). Without one: strides come again every 0.3 to 2.2 s.
 */
export function fitOfPeriod(motion: Motion, period_s: number): Fit {
  const off = misfit(motion, period_s);
  if (off !== null) return off < FITS ? 'fits' : off > FITS_NOT ? 'not' : 'unknown';
  if (motion.gyr && motion.one_g) return 'unknown';
  const stride = strideRows(motion.acc);
  if (stride === null) return 'unknown';
  const stride_s = stride * period_s;
  return stride_s > STRIDE_S[0] && stride_s < STRIDE_S[1] ? 'fits' : 'not';
}

/** How far the turned-back mean is from 1 g, median over the windows in which the sensor turned; null where that cannot be told. */
function misfit({ acc, gyr, one_g }: Motion, period_s: number): number | null {
  if (!gyr || !one_g || !(period_s > 0) || period_s > LONGEST_PERIOD_S) return null;
  const windows = turnedBackNorms(acc, gyr, period_s).filter(({ plain }) => Math.abs(plain / one_g - 1) > TURNING);
  if (windows.length < FEWEST_WINDOWS) return null;
  const off = windows.map(({ turned }) => Math.abs(turned / one_g - 1)).sort((a, b) => a - b);
  return off[off.length >> 1];
}

/** Rates that sensors are sold with, Hz ('common practice'). */
const COMMON_RATES_HZ = [
  25, 50, 52, 60, 64, 100, 104, 120, 125, 128, 148, 200, 208, 240, 250, 256, 300, 400, 416, 500, 512, 800, 833, 1000,
  1024, 1125, 1600, 1666, 2000,
];

export function isCommonRate(rate_hz: number): boolean {
  // A row every so many whole milliseconds is as common.
  const interval_ms = 1000 / rate_hz;
  if (interval_ms > 1.5 && interval_ms < 20.5 && Math.abs(interval_ms / Math.round(interval_ms) - 1) < 0.003)
    return true;
  return COMMON_RATES_HZ.some((common) => Math.abs(rate_hz / common - 1) < 0.012);
}

/** Rates that the motion allows, the likeliest first; none where it does not tell. */
export function ratesByMotion(motion: Motion): number[] {
  return ratesWithin(motion, FITS);
}

/** Rates that the motion at least does not speak against. */
export function ratesNotExcluded(motion: Motion): number[] {
  return ratesWithin(motion, FITS_NOT);
}

function ratesWithin(motion: Motion, most: number): number[] {
  if (!motion.gyr || !motion.one_g) return [];
  const judged = COMMON_RATES_HZ.flatMap((rate_hz) => {
    const off = misfit(motion, 1 / rate_hz);
    return off === null ? [] : [{ rate_hz, off }];
  }).sort((a, b) => a.off - b.off);
  return judged.filter(({ off }) => off < most).map(({ rate_hz }) => rate_hz);
}

const LONGEST_LOOK = 4000;
const REPEATS = 0.35;

/**
 * Rows after which the acceleration's norm comes again as in a run, from its autocorrelation; null where it does not.
 * Over the busiest stretch; the first peak near the highest counts.
 */
export function strideRows(acc: Float64Array[]): number | null {
  const rows = acc[0].length;
  const n = Math.min(rows, LONGEST_LOOK);
  if (n < 200) return null;
  const norm = Float64Array.from({ length: rows }, (_, i) => Math.hypot(acc[0][i], acc[1][i], acc[2][i]) || 0);
  const from = busiest(norm, n);
  const part = norm.slice(from, from + n);
  const mean = part.reduce((sum, value) => sum + value, 0) / n;
  let power = 0;
  for (let i = 0; i < n; i++) {
    part[i] -= mean;
    power += part[i] * part[i];
  }
  if (!(power > 0)) return null;
  const longest = Math.floor(n / 2.5);
  const like = new Float64Array(longest);
  for (let lag = 4; lag < longest; lag++) {
    let sum = 0;
    for (let i = 0; i + lag < n; i++) sum += part[i] * part[i + lag];
    like[lag] = (sum / power) * (n / (n - lag));
  }
  let trough = 4;
  while (trough + 1 < longest && like[trough + 1] <= like[trough]) trough++;
  let highest = trough;
  for (let lag = trough; lag < longest; lag++) if (like[lag] > like[highest]) highest = lag;
  if (like[highest] < REPEATS) return null;
  for (let lag = trough + 1; lag + 1 < longest; lag++) {
    if (like[lag] > 0.85 * like[highest] && like[lag] >= like[lag - 1] && like[lag] >= like[lag + 1]) return lag;
  }
  return highest;
}

/** Where the stretch of n values begins whose sum is greatest. */
function busiest(values: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i];
  let [best, from] = [sum, 0];
  for (let i = n; i < values.length; i++) {
    sum += values[i] - values[i - n];
    if (sum > best) [best, from] = [sum, i - n + 1];
  }
  return from;
}

import { parseDistance } from './course-text.ts';
import type { Split } from './analysis.ts';
import { FaultError, fault } from './fault.ts';

/** A quantity with its unit is short; what is longer is none, and is not searched to its end. */
const LONGEST = 40;

/** Reads a number with its unit. @throws FaultError OPTION_UNREADABLE */
function parseQuantity(text: string, factors: Record<string, number>, what: string, example: string): number {
  const match = /^([+-]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+))\s*([a-z/]+)$/i.exec(text.slice(0, LONGEST).trim());
  const factor = match ? factors[match[2].toLowerCase()] : undefined;
  if (match && factor !== undefined) return Number(match[1]) * factor;
  const values = { field: what, text, example, units: Object.keys(factors) };
  throw new FaultError(fault('OPTION_UNREADABLE.quantity', values, { field: what, value: text }));
}

function positive(value: number, text: string, what: string): number {
  if (value > 0) return value;
  throw new FaultError(fault('OPTION_UNREADABLE.not_positive', { field: what, text }, { field: what, value: text }));
}

/** Reads a time such as `5.21s` or `5210ms`. @returns seconds, above zero */
export function parseTime(text: string): number {
  return positive(parseQuantity(text, { s: 1, ms: 1e-3, min: 60 }, 'time', '5.21s'), text, 'time');
}

/** Reads a speed such as `3.55mps` or `12.8km/h`. @returns metres a second, above zero */
export function parseSpeed(text: string): number {
  const factors = { mps: 1, 'm/s': 1, kmh: 1 / 3.6, 'km/h': 1 / 3.6 };
  return positive(parseQuantity(text, factors, 'speed', '3.55mps'), text, 'speed');
}

/** Reads a wind speed such as `+1.2mps`; a tailwind is positive. @returns metres a second */
export function parseWind(text: string): number {
  return parseQuantity(text, { mps: 1, 'm/s': 1 }, 'wind', '1.2mps');
}

/** Reads a sampling rate such as `500hz`. @returns hertz, above zero */
export function parseRate(text: string): number {
  return positive(parseQuantity(text, { hz: 1, khz: 1000 }, 'rate', '500hz'), text, 'rate');
}

/** Reads a split such as `10m=2.103s`. @returns distance in metres, time in seconds */
export function parseSplit(text: string): Split {
  const [distance, time, ...rest] = text.split('=');
  if (time === undefined || rest.length > 0) {
    throw new FaultError(fault('OPTION_UNREADABLE.split', { text }, { field: 'split', value: text }));
  }
  return { distance_m: parseDistance(distance), split_time_s: parseTime(time) };
}

/**
 * Reads several splits and puts them in order of distance.
 * @throws FaultError OPTION_UNREADABLE when a later distance has an earlier or equal time
 */
export function parseSplits(texts: string[]): Split[] {
  const splits = texts.map(parseSplit).sort((a, b) => a.distance_m - b.distance_m);
  for (let i = 1; i < splits.length; i++) {
    const [before, after] = [splits[i - 1], splits[i]];
    if (after.distance_m > before.distance_m && after.split_time_s > before.split_time_s) continue;
    const values = {
      near_m: before.distance_m,
      near_s: before.split_time_s,
      far_m: after.distance_m,
      far_s: after.split_time_s,
    };
    throw new FaultError(fault('OPTION_UNREADABLE.splits_order', values, { field: 'split', value: texts.join(',') }));
  }
  return splits;
}

import type { SampleBlock } from '../../shared/sample-block.ts';
import { utcSeconds } from '../utc.ts';
import type { Alignment } from './alignment.ts';

export interface SharedClock extends Pick<Alignment, 'u' | 'method' | 'residual_s' | 'confidence'> {
  /** When the right's first sample was, seconds after the left's. */
  lag_s: number;
  /** Hours (in halves) taken off the stamps: one sensor's clock is set to another time zone, or to summer time. */
  zone_h: number;
}

/** Two recordings of one repetition overlap by at least this share of the shorter one. */
const LEAST_OVERLAP = 0.5;
/** Rates of one clock agree this well. */
const SAME_RATE = 1e-4;

/**
 * The lag between two recordings that share a clock: stamps that count from a common epoch, or one common time column.
 * Two columns that both start at zero share a clock only when they also run alike to the end: a sensor that zeroes its own clock
 * starts at zero too.
 * @returns null where nothing shows a common clock
 */
export function sharedClock(left: SampleBlock, right: SampleBlock): SharedClock | null {
  if (left.start_utc && right.start_utc) {
    const apart_s = utcSeconds(right.start_utc) - utcSeconds(left.start_utc);
    const zone_h = overlaps(left, right, apart_s) ? 0 : zoneBetween(left, right, apart_s);
    const lag_s = apart_s - zone_h * 3600;
    const u = Math.hypot(left.start_utc_u_s ?? 0, right.start_utc_u_s ?? 0);
    if (!overlaps(left, right, lag_s)) return null;
    return { lag_s, u, method: 'absolute stamps', residual_s: 0, confidence: u > 0 ? 0.9 : 1, zone_h };
  }
  const a = left.clock_start_s;
  const b = right.clock_start_s;
  if (a === null || a === undefined || b === null || b === undefined) return null;
  const lag_s = b - a;
  const bothFromZero = Math.abs(a) < 1 / left.sampling_rate_hz && Math.abs(b) < 1 / right.sampling_rate_hz;
  if (bothFromZero ? !runAlike(left, right) : !overlaps(left, right, lag_s)) return null;
  return { lag_s, u: 0, method: 'common time column', residual_s: 0, confidence: 1, zone_h: 0 };
}

/** No two places of the earth are further apart on the clock. */
const WIDEST_ZONE_H = 26;
/** A recording this long overlaps a shifted one by chance. */
const LONGEST_FOR_ZONES_S = 900;

/** Whole or half hours by which stamps differ beyond the recording; 0 where no zone explains the difference. */
function zoneBetween(left: SampleBlock, right: SampleBlock, apart_s: number): number {
  const zone_h = Math.round(apart_s / 1800) / 2;
  const possible = zone_h !== 0 && Math.abs(zone_h) <= WIDEST_ZONE_H;
  return possible && Math.max(duration(left), duration(right)) <= LONGEST_FOR_ZONES_S ? zone_h : 0;
}

function duration(block: SampleBlock): number {
  return block.time_s.length > 0 ? block.time_s[block.time_s.length - 1] : 0;
}

function overlaps(left: SampleBlock, right: SampleBlock, lag: number): boolean {
  const shared = Math.min(duration(left), lag + duration(right)) - Math.max(0, lag);
  return shared > LEAST_OVERLAP * Math.min(duration(left), duration(right));
}

function runAlike(left: SampleBlock, right: SampleBlock): boolean {
  const sameRate = Math.abs(left.sampling_rate_hz / right.sampling_rate_hz - 1) < SAME_RATE;
  const difference = duration(left) - duration(right);
  // A file that broke off would have run on: its length is no sign of another clock.
  const shorter = difference > 0 ? right : left;
  return sameRate && (shorter.ends_early === true || Math.abs(difference) <= 2 / left.sampling_rate_hz);
}

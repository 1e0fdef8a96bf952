/** A unit that a column of numbers may count time in. */
export interface TimeUnit {
  unit: string;
  seconds: number;
  /** Seconds from 1970 to the zero of the count; null where it tells no date. */
  epoch_s: number | null;
}

const DAY_S = 86_400;

/** Rates at which people record movement. Wide, yet narrower than the factor of 1000 between two time units. */
const LOWEST_RATE_HZ = 8;
const HIGHEST_RATE_HZ = 8000;

export function isPlausibleRate(rate_hz: number): boolean {
  return rate_hz >= LOWEST_RATE_HZ && rate_hz <= HIGHEST_RATE_HZ;
}

/** Units that need no word. */
export const UNITS: TimeUnit[] = [
  { unit: 's', seconds: 1, epoch_s: null },
  { unit: 'ms', seconds: 1e-3, epoch_s: null },
  { unit: 'us', seconds: 1e-6, epoch_s: null },
  { unit: 'ns', seconds: 1e-9, epoch_s: null },
];

/** Units that only the motion, or the lack of another, speaks for. */
export const RARE_UNITS: TimeUnit[] = [
  { unit: '0.1 ms', seconds: 1e-4, epoch_s: null },
  { unit: '10 us', seconds: 1e-5, epoch_s: null },
  { unit: '100 ns', seconds: 1e-7, epoch_s: null },
  { unit: 'ticks of 1/32768 s', seconds: 1 / 32_768, epoch_s: null },
  { unit: 'min', seconds: 60, epoch_s: null },
  { unit: 'h', seconds: 3600, epoch_s: null },
  { unit: 'days', seconds: DAY_S, epoch_s: null },
];

/** Counts from a day that programs share. The ranges are the years 2000 to 2060 and do not overlap. */
const DATED: (TimeUnit & { epoch_s: number })[] = [
  { unit: 's since 1970', seconds: 1, epoch_s: 0 },
  { unit: 'ms since 1970', seconds: 1e-3, epoch_s: 0 },
  { unit: 'us since 1970', seconds: 1e-6, epoch_s: 0 },
  { unit: 'ns since 1970', seconds: 1e-9, epoch_s: 0 },
  { unit: '100 ns since the year 1', seconds: 1e-7, epoch_s: -62_135_596_800 },
  { unit: '100 ns since 1601', seconds: 1e-7, epoch_s: -11_644_473_600 },
  { unit: 'days of a spreadsheet', seconds: DAY_S, epoch_s: -25_569 * DAY_S },
  { unit: 'days since the year 0', seconds: DAY_S, epoch_s: -719_529 * DAY_S },
  { unit: 'Julian days', seconds: DAY_S, epoch_s: -2_440_587.5 * DAY_S },
];
const FROM_S = Date.UTC(2000, 0, 1) / 1000;
const TO_S = Date.UTC(2060, 0, 1) / 1000;

/**
 * The count from a shared day that a first value is of, by its size.
 * @param interval of two rows, in the column's unit
 * @param whole true where every value is a whole number: days then have no time in them
 */
export function datedUnit(first: number, interval: number, whole: boolean): TimeUnit | null {
  return (
    DATED.find(({ seconds, epoch_s }) => {
      const utc = first * seconds + epoch_s;
      const fine = seconds < DAY_S || !whole;
      return fine && utc > FROM_S && utc < TO_S && isPlausibleRate(1 / (interval * seconds));
    }) ?? null
  );
}

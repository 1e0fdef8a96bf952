import type { ClockStart, TimingMethod } from '../../shared/words.ts';

/** One time at one distance. */
export interface TimingEntry {
  line: number;
  athlete: string | null;
  date: string | null;
  set: number | null;
  repetition: number | null;
  distance_m: number;
  /** From the start of the clock to this distance. */
  time_s: number;
  as_written: string;
  /** Smallest step its decimals can show, seconds. */
  resolution_s: number;
  /** Null where the file does not tell: it is not guessed. */
  method: TimingMethod | null;
  clock: ClockStart | null;
}

/** Key of one repetition of one athlete. */
export function repetitionKey(entry: Pick<TimingEntry, 'athlete' | 'date' | 'set' | 'repetition'>): string {
  return JSON.stringify([entry.athlete, entry.date, entry.set, entry.repetition]);
}

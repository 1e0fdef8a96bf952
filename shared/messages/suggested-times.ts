import type { Speech } from './say.ts';

/** A typed time with what the foot sensors say instead, and its 95 % half-width. */
export interface SuggestedTime {
  distance_m: number;
  typed_s: number;
  by_feet_s: number;
  half_width_s: number;
}

/** Numbers and units alone, the same in every language. */
export const timesByFeetText = (times: readonly SuggestedTime[], { number }: Speech): string =>
  times
    .map((t) => `${number(t.distance_m)} m in ${number(t.by_feet_s, 2)} ± ${number(t.half_width_s, 2)} s`)
    .join(', ');

/** The same of the typed times. */
export const typedTimesText = (times: readonly SuggestedTime[], { number }: Speech): string =>
  times.map((t) => `${number(t.distance_m)} m in ${number(t.typed_s)} s`).join(', ');

import { athleteBaseline } from '../../dsp/athlete/baseline.ts';
import type { STEP_QUANTITIES } from '../../shared/fields.ts';
import type { RepetitionLine, RepetitionProfile } from '../../shared/schemas/repetition.ts';
import { dayNumber } from '../../shared/dates.ts';

type StepQuantity = (typeof STEP_QUANTITIES)[number];

export type ProfileRow = { step: number; distance_m: number | null } & Record<StepQuantity, number | null>;

type Band = RepetitionProfile['baseline']['quantities'][string];
type Point = Band['by_step'][number];

/** Distance between points of the band by distance: about half a step. */
const POINT_EVERY_M = 1;

interface BandOptions {
  day: number;
  adolescent: boolean;
}

/**
 * Normal variation of one quantity along the course: at every step number and every metre, centre and band over the earlier
 * repetitions. A point needs two of them at least.
 * @param rows contacts by repetition, in time order
 */
export function baselineBand(
  rows: Map<number, ProfileRow[]>,
  lines: RepetitionLine[],
  quantity: StepQuantity,
  options: BandOptions,
): Band {
  const days = lines.map((line) => dayNumber(line.session_date));
  const points = (at: number[], valueAt: (own: ProfileRow[], at: number) => number | null): Point[] =>
    at.flatMap((position) => {
      const values = lines.flatMap((line, i) => {
        const value = valueAt(rows.get(line.repetition_id) ?? [], position);
        return value === null ? [] : [{ value, session: line.session_id, day: days[i] }];
      });
      if (values.length < 2) return [];
      const baseline = athleteBaseline(values, { quantity, ...options });
      if (!baseline) return [];
      const { centre, low, high, flag_from, n } = baseline;
      return [{ at: position, centre, low, high, flag_from, n }];
    });
  const steps = Math.max(0, ...[...rows.values()].map((own) => own.length));
  const metres = Math.max(0, ...[...rows.values()].flatMap((own) => own.map((row) => row.distance_m ?? 0)));
  return {
    by_step: points(range(1, steps, 1), (own, step) => own[step - 1]?.[quantity] ?? null),
    by_distance: points(range(0, metres, POINT_EVERY_M), (own, metre) => atDistance(own, metre, quantity)),
  };
}

/** Straight line between the contacts before and after a distance; null outside or next to one that was not measured. */
function atDistance(own: ProfileRow[], metre: number, quantity: StepQuantity): number | null {
  for (let i = 1; i < own.length; i++) {
    const [before, after] = [own[i - 1], own[i]];
    if (before.distance_m === null || after.distance_m === null) continue;
    if (before.distance_m > metre || after.distance_m < metre) continue;
    const [low, high] = [before[quantity], after[quantity]];
    if (low === null || high === null) return null;
    const span = after.distance_m - before.distance_m;
    return span > 0 ? low + ((high - low) * (metre - before.distance_m)) / span : low;
  }
  return null;
}

function range(from: number, to: number, step: number): number[] {
  const values: number[] = [];
  for (let value = from; value <= to; value += step) values.push(value);
  return values;
}

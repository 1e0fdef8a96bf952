import type { StrengthRatio, StrengthRecord } from '../../../shared/schemas/coach/strength.ts';
import { KILOGRAMS_PER_POUND } from '../../../shared/units.ts';

type Lifted = Pick<StrengthRecord, 'date' | 'lift' | 'load_kg' | 'repetitions' | 'sets'>;

/** Straight-leg deadlift load over the parallel squat's best single: not above this (common practice). */
export const STRAIGHT_LEG_SHARE_MAX = 0.4;

/**
 * Best single lift a set stands for: load x (1 + repetitions / 30), the load itself for a single.
 * Source: Epley's formula (from memory); good to about ten repetitions, so longer sets give null.
 */
export function bestSingle(load_kg: number, repetitions: number): number | null {
  if (repetitions === 1) return load_kg;
  return repetitions <= 10 ? load_kg * (1 + repetitions / 30) : null;
}

/**
 * The ratios speed coaches look at.
 * @param records lifts of one athlete; the best of the last 90 days before the latest counts
 * @param body_mass_kg latest body mass, null when unknown
 */
export function strengthRatios(records: readonly Lifted[], body_mass_kg: number | null): StrengthRatio[] {
  const squat = bestOf(records, 'parallel_squat');
  const straightLeg = latestOf(records, 'straight_leg_deadlift');
  return [squatRatio(squat, body_mass_kg), straightLegShare(straightLeg, squat)];
}

function squatRatio(squat: number | null, body_mass_kg: number | null): StrengthRatio {
  const value = squat !== null && body_mass_kg !== null ? squat / body_mass_kg : null;
  const sentence =
    squat === null
      ? 'Add a parallel squat to see it against body mass.'
      : body_mass_kg === null
        ? 'Add a body mass to see the squat against it.'
        : `Parallel squat ${weight(squat)} is ${value!.toFixed(2)} times body mass.`;
  return {
    code: 'SQUAT_TO_BODY_MASS',
    label: 'parallel squat to body mass',
    value,
    sentence,
    source: 'McBride 2009, JSCR 23:1633-1636: 1.94 ± 0.33 in 17 college players; above 2.10 faster than below 1.90',
    beyond: false,
  };
}

function straightLegShare(deadlift: Lifted | null, squat: number | null): StrengthRatio {
  const value = deadlift && squat ? deadlift.load_kg / squat : null;
  const beyond = value !== null && value > STRAIGHT_LEG_SHARE_MAX + 1e-9;
  const limit = squat === null ? null : squat * STRAIGHT_LEG_SHARE_MAX;
  const sentence =
    limit === null
      ? 'Add a parallel squat: the straight-leg deadlift stays at or below 40 % of it, three sets of ten.'
      : deadlift === null || value === null
        ? `Straight-leg deadlift: not above ${weight(limit)} (40 % of the parallel squat), three sets of ten.`
        : `Straight-leg deadlift ${weight(deadlift.load_kg)} is ${Math.round(value * 100)} % of the parallel squat: ${beyond ? `above the ${weight(limit)} that are common practice` : `within the ${weight(limit)} that are common practice`}.`;
  return {
    code: 'STRAIGHT_LEG_TO_SQUAT',
    label: 'straight-leg deadlift to parallel squat',
    value,
    sentence,
    source: 'common practice: not above 40 % (200 lb for 500), three sets of ten',
    beyond,
  };
}

/** Largest best single within 90 days of the latest record of that lift. */
function bestOf(records: readonly Lifted[], lift: Lifted['lift']): number | null {
  const own = records.filter((record) => record.lift === lift);
  const latest = latestOf(records, lift);
  if (!latest) return null;
  const since = Date.parse(latest.date) - 90 * 86_400_000;
  const singles = own
    .filter((record) => Date.parse(record.date) >= since)
    .map((record) => bestSingle(record.load_kg, record.repetitions))
    .filter((single) => single !== null);
  return singles.length > 0 ? Math.max(...singles) : null;
}

function latestOf(records: readonly Lifted[], lift: Lifted['lift']): Lifted | null {
  const own = records.filter((record) => record.lift === lift).sort((a, b) => a.date.localeCompare(b.date));
  return own.at(-1) ?? null;
}

function weight(kg: number): string {
  return `${Math.round(kg)} kg (${Math.round(kg / KILOGRAMS_PER_POUND)} lb)`;
}

import type { PlanSet, PlanTotals } from '../../../shared/schemas/coach/plan.ts';

/** Full-speed sets and sprint tests load the athlete alike; both count as speed. */
export function isSpeedSet(set: PlanSet): boolean {
  return set.kind === 'speed' || set.kind === 'sprint_test';
}

/** About how long one repetition takes: distance at the effort's share of a modest 7 m/s, plus 2 s of acceleration. */
function runningSeconds(set: PlanSet): number {
  return set.distance_m / (7 * (set.effort_percent / 100)) + 2;
}

/**
 * Running totals of a plan, for one athlete.
 * @returns distances in metres, minutes of running and rest (the rest after the very last repetition is not counted)
 */
export function planTotals(sets: readonly PlanSet[]): PlanTotals {
  const totals: PlanTotals = {
    repetitions: 0,
    distance_m: 0,
    technique_distance_m: 0,
    speed_distance_m: 0,
    speed_repetitions: 0,
    minutes: 0,
  };
  let seconds = 0;
  for (const set of sets) {
    const distance = set.repetitions * set.distance_m;
    totals.repetitions += set.repetitions;
    totals.distance_m += distance;
    seconds += set.repetitions * (runningSeconds(set) + set.rest_s);
    if (isSpeedSet(set)) {
      totals.speed_distance_m += distance;
      totals.speed_repetitions += set.repetitions;
    } else if (set.kind === 'technique') {
      totals.technique_distance_m += distance;
    }
  }
  const last = sets.at(-1);
  totals.minutes = last ? (seconds - last.rest_s) / 60 : 0;
  return totals;
}

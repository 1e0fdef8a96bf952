import type { Sourced } from '../../../shared/schemas/coach/caution.ts';
import type { Plan, PlanCheck, PlanLimits, PlanSet } from '../../../shared/schemas/coach/plan.ts';
import { METRES_PER_YARD } from '../../../shared/units.ts';
import { CAUTIONS, HEAT_CAUTION } from '../words/cautions.ts';
import { daysBetween } from '../../../shared/dates.ts';
import { plainDate } from '../words/plain-date.ts';
import { isSpeedSet, planTotals } from './plan-totals.ts';

/** What the same athletes did before (or will do after) the planned day. */
export interface TrainingDay {
  /** Local date, yyyy-mm-dd. */
  date: string;
  distance_m: number;
  speed_distance_m: number;
}

const HAUGEN = 'Haugen 2019, doi 10.1186/s40798-019-0221-0, table 2 (adult sprinters)';
const MORAN = 'Moran 2017, Int J Sports Med 38:1-11 (boys of 10 to 18 years)';
const PRACTICE = 'common practice';
const TOLERANCE_M = 0.01;

/**
 * Checks a plan against the coach's limits and against the days around it.
 * @param date local date of the planned session, yyyy-mm-dd
 * @param history other training days of the same athletes, in any order; the planned day itself is left out
 * @returns totals, one warning a broken limit (limits set to null are off), and the cautions that go with any plan
 */
export function checkPlan(
  plan: Pick<Plan, 'sets'>,
  limits: PlanLimits,
  date: string,
  history: readonly TrainingDay[] = [],
): PlanCheck {
  const totals = planTotals(plan.sets);
  const warnings = [
    ...plan.sets.flatMap((set, index) => checkSet(set, index, limits)),
    ...checkTotals(totals, limits),
    ...checkCalendar(totals, limits, date, history),
  ];
  const cautions = totals.speed_repetitions > 0 ? [...CAUTIONS, HEAT_CAUTION] : [...CAUTIONS];
  return { totals, warnings, cautions };
}

function checkSet(set: PlanSet, index: number, limits: PlanLimits): Sourced[] {
  const warnings: Sourced[] = [];
  const where = `Set ${index + 1}`;
  const speed = isSpeedSet(set);
  if (speed || set.kind === 'technique') {
    const low = speed ? limits.speed_repetition_min_m : limits.technique_repetition_min_m;
    const high = speed ? limits.speed_repetition_max_m : limits.technique_repetition_max_m;
    const kind = speed ? 'speed' : 'technique';
    if (low !== null && set.distance_m < low - TOLERANCE_M) {
      const text = `${where}: ${show(set.distance_m)} is shorter than your ${kind} repetitions of at least ${show(low)}.`;
      warnings.push({ code: 'REPETITION_SHORT', text, source: PRACTICE });
    }
    if (high !== null && set.distance_m > high + TOLERANCE_M) {
      const text = `${where}: ${show(set.distance_m)} is longer than your ${kind} repetitions of at most ${show(high)}.`;
      warnings.push({ code: 'REPETITION_LONG', text, source: PRACTICE });
    }
  }
  if (speed && limits.speed_rest_min_s !== null && set.rest_s < limits.speed_rest_min_s) {
    const text = `${where}: ${set.rest_s} s of rest is less than ${limits.speed_rest_min_s} s; full speed needs full recovery.`;
    warnings.push({ code: 'REST_SHORT', text, source: `${MORAN}; ${HAUGEN}: 2 to 7 min` });
  }
  return warnings;
}

function checkTotals(totals: PlanCheck['totals'], limits: PlanLimits): Sourced[] {
  const warnings: Sourced[] = [];
  const add = (code: string, text: string, source: string) => warnings.push({ code, text, source });
  const low = limits.speed_distance_min_m;
  const high = limits.speed_distance_max_m;
  if (high !== null && totals.speed_distance_m > high + TOLERANCE_M) {
    const over = totals.speed_distance_m - high;
    add(
      'SPEED_DISTANCE_HIGH',
      `${show(totals.speed_distance_m)} at full speed is ${show(over)} over your limit of ${show(high)}.`,
      `${PRACTICE}; ${HAUGEN}: 100 to 300 m`,
    );
  }
  if (low !== null && totals.speed_repetitions > 0 && totals.speed_distance_m < low - TOLERANCE_M) {
    add(
      'SPEED_DISTANCE_LOW',
      `${show(totals.speed_distance_m)} at full speed is less than your ${show(low)}.`,
      PRACTICE,
    );
  }
  if (limits.speed_repetitions_max !== null && totals.speed_repetitions > limits.speed_repetitions_max) {
    add(
      'SPEED_REPETITIONS_MANY',
      `${totals.speed_repetitions} full-speed repetitions are more than your limit of ${limits.speed_repetitions_max}.`,
      MORAN,
    );
  }
  if (limits.session_max_min !== null && totals.minutes > limits.session_max_min) {
    add(
      'SESSION_LONG',
      `About ${Math.round(totals.minutes)} min of running and rest; your limit is ${limits.session_max_min} min.`,
      PRACTICE,
    );
  }
  return warnings;
}

function checkCalendar(
  totals: PlanCheck['totals'],
  limits: PlanLimits,
  date: string,
  history: readonly TrainingDay[],
): Sourced[] {
  const warnings: Sourced[] = [];
  const add = (code: string, text: string, source: string) => warnings.push({ code, text, source });
  const others = history.filter((day) => day.date !== date);
  const inWeekTo = (day: TrainingDay, end_days_ago: number) => {
    const ago = daysBetween(day.date, date);
    return ago >= end_days_ago && ago < end_days_ago + 7;
  };
  const week = others.filter((day) => inWeekTo(day, 0));

  if (totals.speed_repetitions > 0) {
    const speedDays = others.filter((day) => day.speed_distance_m > 0);
    const gap = limits.hours_between_speed_sessions_min;
    if (gap !== null) {
      const close = speedDays
        .filter((day) => Math.abs(daysBetween(day.date, date)) * 24 < gap)
        .sort((a, b) => Math.abs(daysBetween(a.date, date)) - Math.abs(daysBetween(b.date, date)))[0];
      if (close) {
        const days = daysBetween(close.date, date);
        const apart = Math.abs(days) === 1 ? 'one day' : `${Math.abs(days)} days`;
        const text = `Only ${apart} ${days > 0 ? 'after' : 'before'} the speed session of ${plainDate(close.date, date)}; you keep ${gap} h between them.`;
        add('SPEED_TOO_SOON', text, HAUGEN);
      }
    }
    const count = speedDays.filter((day) => inWeekTo(day, 0)).length + 1;
    if (limits.speed_sessions_per_week_max !== null && count > limits.speed_sessions_per_week_max) {
      const text = `This is speed session ${count} within 7 days; your limit is ${limits.speed_sessions_per_week_max}.`;
      add('SPEED_SESSIONS_MANY', text, `${MORAN}: twice weekly`);
    }
  }

  const before = others.filter((day) => inWeekTo(day, 7)).reduce((sum, day) => sum + day.distance_m, 0);
  const now = week.reduce((sum, day) => sum + day.distance_m, totals.distance_m);
  const rise = limits.weekly_increase_max_percent;
  if (rise !== null && before > 0 && now > before * (1 + rise / 100)) {
    const percent = Math.round((now / before - 1) * 100);
    const text = `With this, 7 days hold ${show(now)}: ${percent} % more than the 7 days before (${show(before)}); your limit is ${rise} %.`;
    add('WEEK_RISES_FAST', text, 'AAP 2007, Pediatrics 119:1242 (figure from memory); Haugen 2019 on rapid load rises');
  }
  const off = limits.days_off_per_week_min;
  const trained = new Set([...week.map((day) => day.date), date]).size;
  if (off !== null && 7 - trained < off) {
    const text = `${trained} training days within 7 leave ${7 - trained} off; you keep at least ${off}.`;
    add('NO_DAY_OFF', text, 'AAP 2024, Pediatrics 153(2):e2023065129');
  }
  return warnings;
}

function show(metres: number): string {
  return `${Math.round(metres / METRES_PER_YARD)} yd (${Math.round(metres)} m)`;
}

import type { Sourced } from '../../../shared/schemas/coach/caution.ts';
import type { Plan, PlanCheck, PlanLimits, PlanSet } from '../../../shared/schemas/coach/plan.ts';
import { METRES_PER_YARD } from '../../../shared/units.ts';
import { DEFAULT_PLAN_LIMITS, PLAN_LIMIT_SOURCES } from '../plan-limits.ts';
import { ADULT_FIGURES_CAUTION, cautionsFor, HEAT_CAUTION } from '../words/cautions.ts';
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

const TOLERANCE_M = 0.01;

/** Where a limit is from: its published source while it is the default, else the coach. */
function sourceOf(name: keyof PlanLimits, limits: PlanLimits): string {
  const own = limits[name] !== DEFAULT_PLAN_LIMITS[name];
  return own ? 'your own limit' : (PLAN_LIMIT_SOURCES[name] ?? 'your own limit');
}

/**
 * Checks a plan against the coach's limits and against the days around it.
 * @param date local date of the planned session, yyyy-mm-dd
 * @param history other training of the same athletes by day, in any order, without the planned session itself
 * @param athletes who is to run it
 * @returns totals, one warning a broken limit (limits set to null are off), and the cautions that go with any plan
 */
export function checkPlan(
  plan: Pick<Plan, 'sets'>,
  limits: PlanLimits,
  date: string,
  history: readonly TrainingDay[] = [],
  athletes: readonly { returning: boolean }[] = [],
): PlanCheck {
  const totals = planTotals(plan.sets);
  const warnings = [
    ...plan.sets.flatMap((set, index) => checkSet(set, index, limits)),
    ...checkTotals(totals, limits),
    ...(plan.sets.length > 0 ? checkCalendar(totals, limits, date, history) : []),
  ];
  const base = [...cautionsFor(athletes), ADULT_FIGURES_CAUTION];
  const cautions = totals.speed_repetitions > 0 ? [...base, HEAT_CAUTION] : base;
  return { totals, warnings, cautions };
}

function checkSet(set: PlanSet, index: number, limits: PlanLimits): Sourced[] {
  const warnings: Sourced[] = [];
  const where = `Set ${index + 1}`;
  const speed = isSpeedSet(set);
  if (speed || set.kind === 'technique') {
    const name = speed ? 'speed_repetition_max_m' : 'technique_repetition_max_m';
    const high = limits[name];
    if (high !== null && set.distance_m > high + TOLERANCE_M) {
      const text = `${where}: ${show(set.distance_m)} is longer than ${speed ? 'speed' : 'technique'} repetitions of at most ${show(high)}.`;
      warnings.push({ code: 'REPETITION_LONG', text, source: sourceOf(name, limits) });
    }
  }
  const rest =
    set.start_style === 'flying' && limits.flying_rest_min_s !== null ? 'flying_rest_min_s' : 'speed_rest_min_s';
  const least = limits[rest];
  if (speed && set.repetitions > 1 && least !== null && set.rest_s < least) {
    const text = `${where}: ${set.rest_s} s of rest is less than ${least} s; full speed needs full recovery.`;
    warnings.push({ code: 'REST_SHORT', text, source: sourceOf(rest, limits) });
  }
  return warnings;
}

function checkTotals(totals: PlanCheck['totals'], limits: PlanLimits): Sourced[] {
  const warnings: Sourced[] = [];
  const add = (code: string, name: keyof PlanLimits, text: string) =>
    warnings.push({ code, text, source: sourceOf(name, limits) });
  const high = limits.speed_distance_max_m;
  if (high !== null && totals.speed_distance_m > high + TOLERANCE_M) {
    const over = totals.speed_distance_m - high;
    const text = `${show(totals.speed_distance_m)} at full speed is ${show(over)} over the limit of ${show(high)}.`;
    add('SPEED_DISTANCE_HIGH', 'speed_distance_max_m', text);
  }
  const most = limits.speed_repetitions_max;
  if (most !== null && totals.speed_repetitions > most) {
    const text = `${totals.speed_repetitions} full-speed repetitions are more than the limit of ${most}.`;
    add('SPEED_REPETITIONS_MANY', 'speed_repetitions_max', text);
  }
  if (limits.session_max_min !== null && totals.minutes > limits.session_max_min) {
    const text = `About ${Math.round(totals.minutes)} min of running and rest; the limit is ${limits.session_max_min} min.`;
    add('SESSION_LONG', 'session_max_min', text);
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
  const add = (code: string, name: keyof PlanLimits, text: string) =>
    warnings.push({ code, text, source: sourceOf(name, limits) });
  const inWeekTo = (day: TrainingDay, end_days_ago: number) => {
    const ago = daysBetween(day.date, date);
    return ago >= end_days_ago && ago < end_days_ago + 7;
  };
  const week = history.filter((day) => inWeekTo(day, 0));

  if (totals.speed_repetitions > 0) {
    const speedDays = history.filter((day) => day.speed_distance_m > 0);
    const gap = limits.hours_between_speed_sessions_min;
    if (gap !== null) {
      const close = speedDays
        .filter((day) => Math.abs(daysBetween(day.date, date)) * 24 < gap)
        .sort((a, b) => Math.abs(daysBetween(a.date, date)) - Math.abs(daysBetween(b.date, date)))[0];
      if (close) {
        const days = daysBetween(close.date, date);
        const apart = Math.abs(days) === 1 ? 'one day' : `${Math.abs(days)} days`;
        const when =
          days === 0
            ? 'On the same day as another speed session'
            : `Only ${apart} ${days > 0 ? 'after' : 'before'} the speed session of ${plainDate(close.date, date)}`;
        const text = `${when}; ${gap} h belong between them.`;
        add('SPEED_TOO_SOON', 'hours_between_speed_sessions_min', text);
      }
    }
    const count = speedDays.filter((day) => inWeekTo(day, 0)).length + 1;
    if (limits.speed_sessions_per_week_max !== null && count > limits.speed_sessions_per_week_max) {
      const text = `This is speed session ${count} within 7 days; the limit is ${limits.speed_sessions_per_week_max}.`;
      add('SPEED_SESSIONS_MANY', 'speed_sessions_per_week_max', text);
    }
  }

  const before = history.filter((day) => inWeekTo(day, 7)).reduce((sum, day) => sum + day.distance_m, 0);
  const now = week.reduce((sum, day) => sum + day.distance_m, totals.distance_m);
  const rise = limits.weekly_increase_max_percent;
  if (rise !== null && before > 0 && now > before * (1 + rise / 100)) {
    const percent = Math.round((now / before - 1) * 100);
    const text = `With this, 7 days hold ${show(now)}: ${percent} % more than the 7 days before (${show(before)}); the limit is ${rise} %.`;
    add('WEEK_RISES_FAST', 'weekly_increase_max_percent', text);
  }
  const off = limits.days_off_per_week_min;
  const trained = new Set([...week.map((day) => day.date), date]).size;
  if (off !== null && 7 - trained < off) {
    const text = `${trained} training days within 7 leave ${7 - trained} off; at least ${off} ${off === 1 ? 'belongs' : 'belong'} to every week.`;
    add('NO_DAY_OFF', 'days_off_per_week_min', text);
  }
  return warnings;
}

function show(metres: number): string {
  return `${Math.round(metres / METRES_PER_YARD)} yd (${Math.round(metres)} m)`;
}

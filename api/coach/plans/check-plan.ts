import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { Sourced } from '../../../shared/schemas/coach/caution.ts';
import type { Plan, PlanCheck, PlanLimits, PlanSet } from '../../../shared/schemas/coach/plan.ts';
import { METRES_PER_YARD } from '../../../shared/units.ts';
import { DEFAULT_PLAN_LIMITS, PLAN_LIMIT_SOURCES } from '../plan-limits.ts';
import { cautionsFor } from '../words/cautions.ts';
import { daysBetween } from '../../../shared/dates.ts';
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
function sourceOf(name: keyof PlanLimits, limits: PlanLimits, words: JudgementWords): string {
  const own = limits[name] !== DEFAULT_PLAN_LIMITS[name];
  return (own ? undefined : PLAN_LIMIT_SOURCES[name]) ?? words.coach.planning('own_limit');
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
  words: JudgementWords = JUDGEMENT_EN,
): PlanCheck {
  const totals = planTotals(plan.sets);
  const warnings = [
    ...plan.sets.flatMap((set, index) => checkSet(set, index, limits, words)),
    ...checkTotals(totals, limits, words),
    ...(plan.sets.length > 0 ? checkCalendar(totals, limits, date, history, words) : []),
  ];
  const heat = totals.speed_repetitions > 0 ? (['HEAT'] as const) : [];
  const cautions = cautionsFor(athletes, words, ['ADULT_FIGURES', ...heat]);
  return { totals, warnings, cautions };
}

function checkSet(set: PlanSet, index: number, limits: PlanLimits, words: JudgementWords): Sourced[] {
  const warnings: Sourced[] = [];
  const say = words.coach.planning;
  const n = index + 1;
  const speed = isSpeedSet(set);
  if (speed || set.kind === 'technique') {
    const name = speed ? 'speed_repetition_max_m' : 'technique_repetition_max_m';
    const high = limits[name];
    if (high !== null && set.distance_m > high + TOLERANCE_M) {
      const text = say(speed ? 'speed_repetition_long' : 'technique_repetition_long', {
        n,
        shown: show(set.distance_m),
        most: show(high),
      });
      warnings.push({ code: 'REPETITION_LONG', text, source: sourceOf(name, limits, words) });
    }
  }
  const rest =
    set.start_style === 'flying' && limits.flying_rest_min_s !== null ? 'flying_rest_min_s' : 'speed_rest_min_s';
  const least = limits[rest];
  if (speed && set.repetitions > 1 && least !== null && set.rest_s < least) {
    const text = say('rest_short', { n, rest_s: set.rest_s, least_s: least });
    warnings.push({ code: 'REST_SHORT', text, source: sourceOf(rest, limits, words) });
  }
  return warnings;
}

function checkTotals(totals: PlanCheck['totals'], limits: PlanLimits, words: JudgementWords): Sourced[] {
  const warnings: Sourced[] = [];
  const say = words.coach.planning;
  const add = (code: string, name: keyof PlanLimits, text: string) =>
    warnings.push({ code, text, source: sourceOf(name, limits, words) });
  const high = limits.speed_distance_max_m;
  if (high !== null && totals.speed_distance_m > high + TOLERANCE_M) {
    const over = totals.speed_distance_m - high;
    const text = say('speed_distance_high', {
      shown: show(totals.speed_distance_m),
      over: show(over),
      most: show(high),
    });
    add('SPEED_DISTANCE_HIGH', 'speed_distance_max_m', text);
  }
  const most = limits.speed_repetitions_max;
  if (most !== null && totals.speed_repetitions > most) {
    const text = say('speed_repetitions_many', { n: totals.speed_repetitions, most });
    add('SPEED_REPETITIONS_MANY', 'speed_repetitions_max', text);
  }
  if (limits.session_max_min !== null && totals.minutes > limits.session_max_min) {
    const text = say('session_long', { minutes: Math.round(totals.minutes), most: limits.session_max_min });
    add('SESSION_LONG', 'session_max_min', text);
  }
  return warnings;
}

function checkCalendar(
  totals: PlanCheck['totals'],
  limits: PlanLimits,
  date: string,
  history: readonly TrainingDay[],
  words: JudgementWords,
): Sourced[] {
  const warnings: Sourced[] = [];
  const say = words.coach.planning;
  const add = (code: string, name: keyof PlanLimits, text: string) =>
    warnings.push({ code, text, source: sourceOf(name, limits, words) });
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
        const text =
          days === 0
            ? say('speed_same_day', { hours: gap })
            : say('speed_too_soon', {
                days: Math.abs(days),
                after: days > 0,
                date: words.date(close.date, date),
                hours: gap,
              });
        add('SPEED_TOO_SOON', 'hours_between_speed_sessions_min', text);
      }
    }
    const count = speedDays.filter((day) => inWeekTo(day, 0)).length + 1;
    if (limits.speed_sessions_per_week_max !== null && count > limits.speed_sessions_per_week_max) {
      const text = say('speed_sessions_many', { n: count, most: limits.speed_sessions_per_week_max });
      add('SPEED_SESSIONS_MANY', 'speed_sessions_per_week_max', text);
    }
  }

  const before = history.filter((day) => inWeekTo(day, 7)).reduce((sum, day) => sum + day.distance_m, 0);
  const now = week.reduce((sum, day) => sum + day.distance_m, totals.distance_m);
  const rise = limits.weekly_increase_max_percent;
  if (rise !== null && before > 0 && now > before * (1 + rise / 100)) {
    const percent = Math.round((now / before - 1) * 100);
    const text = say('week_rises', { now: show(now), percent, before: show(before), most: rise });
    add('WEEK_RISES_FAST', 'weekly_increase_max_percent', text);
  }
  const off = limits.days_off_per_week_min;
  const trained = new Set([...week.map((day) => day.date), date]).size;
  if (off !== null && 7 - trained < off) {
    const text = say('no_day_off', { trained, off: 7 - trained, least: off });
    add('NO_DAY_OFF', 'days_off_per_week_min', text);
  }
  return warnings;
}

function show(metres: number): string {
  return `${Math.round(metres / METRES_PER_YARD)} yd (${Math.round(metres)} m)`;
}

import { studentQuantile } from '../numeric/distributions.ts';
import { fitLine } from '../numeric/least-squares.ts';
import { robustCentre } from '../numeric/robust.ts';
import { mean } from '../numeric/statistics.ts';
import type { BaselineValue } from './baseline.ts';
import { type ChangePoint, changePoints, jumpPenalty } from './change-points.ts';

/** One session as the trend sees it. */
export interface SessionPoint {
  session: string | number;
  day: number;
  /** Robust centre of the session's repetitions. */
  value: number;
  n: number;
}

export interface Trend {
  sessions: SessionPoint[];
  /** Change a week by a straight line, with its 95 % interval. */
  slope_per_week: number;
  slope_low: number;
  slope_high: number;
  /** The interval leaves out zero. */
  beyond_chance: boolean;
  /** Scatter of the sessions about the line. */
  residual_sd: number;
  /** The line and its 95 % confidence band at each session's day. */
  band: { day: number; value: number; low: number; high: number }[];
  /** Sessions at which the level jumped, with the levels before and after. */
  changes: { at_session: string | number; day: number; before: number; after: number }[];
}

const DAYS_A_WEEK = 7;
const FEWEST_SESSIONS = 4;

/**
 * Course of one quantity over weeks. Sessions count, not repetitions: those of one afternoon are no independent
 * evidence.
 * @param values repetitions of one athlete, effort and course, oldest first
 * @returns null with fewer than four sessions, or all on one day
 */
export function trend(values: readonly BaselineValue[]): Trend | null {
  const sessions = sessionPoints(values);
  if (sessions.length < FEWEST_SESSIONS) return null;
  const days = sessions.map((s) => s.day);
  const levels = sessions.map((s) => s.value);
  const middle = mean(days);
  const centred = days.map((d) => d - middle);
  const line = fitLine(centred, levels);
  if (!line) return null;
  const t = studentQuantile(0.975, line.degrees_of_freedom);
  const half = t * line.slope_se * DAYS_A_WEEK;
  const slope = line.slope * DAYS_A_WEEK;
  return {
    sessions,
    slope_per_week: slope,
    slope_low: slope - half,
    slope_high: slope + half,
    beyond_chance: Math.abs(slope) > half,
    residual_sd: line.residual_sd,
    band: days.map((day, i) => {
      const value = line.intercept + line.slope * centred[i];
      // With centred days the two errors are independent.
      const reach = t * Math.hypot(line.intercept_se, line.slope_se * centred[i]);
      return { day, value, low: value - reach, high: value + reach };
    }),
    changes: jumpsBeyondLine(levels, line.residual_sd ** 2 * line.degrees_of_freedom).map(
      ({ index, before, after }) => ({
        at_session: sessions[index].session,
        day: sessions[index].day,
        before,
        after,
      }),
    ),
  };
}

/**
 * A steady climb also breaks into levels: jumps count only where they describe the course better than the line does.
 */
function jumpsBeyondLine(levels: readonly number[], line_squares: number): ChangePoint[] {
  const jumps = changePoints(levels);
  let squares = 0;
  for (let k = 0; k <= jumps.length; k++) {
    const part = levels.slice(k === 0 ? 0 : jumps[k - 1].index, jumps[k]?.index);
    const centre = mean(part);
    squares += part.reduce((sum, v) => sum + (v - centre) ** 2, 0);
  }
  // The first jump takes the place of the slope; each more has to earn its keep.
  const more = Math.max(0, jumps.length - 1) * jumpPenalty(levels);
  return squares + more < line_squares ? jumps : [];
}

/** One point a session: the robust centre of its repetitions. */
export function sessionPoints(values: readonly BaselineValue[]): SessionPoint[] {
  const groups = new Map<string | number, BaselineValue[]>();
  for (const v of values) {
    if (Number.isFinite(v.value)) groups.set(v.session, [...(groups.get(v.session) ?? []), v]);
  }
  return [...groups.entries()]
    .map(([session, group]) => ({
      session,
      day: group[0].day,
      value: robustCentre(group.map((v) => v.value)),
      n: group.length,
    }))
    .sort((a, b) => a.day - b.day);
}

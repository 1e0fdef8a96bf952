import type { Contact } from '../../shared/analysis.ts';
import { median } from '../numeric/statistics.ts';

/** The time from one contact of a repetition to the next that was found, over both feet. */
export interface ContactInterval {
  /** Steps that the runner took in it. */
  steps: number;
  /** Contacts of the recorded feet that are missing in it. */
  missing: number;
  /** Time of one of its steps, s. */
  step_s: number;
  /** Even by the number of steps that fits best, its step is unlike those around it. */
  odd: boolean;
}

/** What it costs that contacts are missing somewhere: a natural logarithm of step times, as neighbours differ in them. A
 * step that is 1.5 times both its neighbours is still one step, one that is 1.6 times is two. */
const MISSING_COST = 0.35;

/** Of two numbers of steps that fit as well the smaller. */
const STEP_COST = 0.02;

/** Nobody who runs takes longer for a step: strides of slow jogs reach 0.93 s (`settings.running`). */
const LONGEST_STEP_S = 0.47;

/** A step so many times those around it, or so small a part of them, is none: a start's first to its second is 1.3. */
const ODD_RATIO = 1.6;

/** More steps than this between two contacts are no longer counted. */
const MOST_STEPS = 17;

/**
 * How many steps lie between each contact and the next. Steps of running change little from one to the next, and feet take
 * turns: of all ways to count, the one whose step times change least from neighbour to neighbour, with a price on contacts that
 * were not found (dynamic programming over the intervals).
 * @param rows contacts of one repetition in time order
 * @returns one entry an interval, one less than contacts
 */
export function contactIntervals(rows: readonly Pick<Contact, 'side' | 'touchdown_s'>[]): ContactInterval[] {
  if (rows.length < 2) return [];
  const one_foot = new Set(rows.map((row) => row.side)).size === 1;
  const times = rows.slice(1).map((row, i) => row.touchdown_s - rows[i].touchdown_s);
  const least = times.map((_, i) => (rows[i + 1].side === rows[i].side ? 2 : 1));
  const counts = bestCounts(times, least);
  const steps = times.map((time, i) => time / counts[i]);
  return times.map((_, i) => {
    const around = steps.slice(Math.max(0, i - 2), i + 3).filter((_step, k) => k !== Math.min(i, 2));
    const ratio = around.length > 0 ? steps[i] / median(around) : 1;
    const odd = ratio > ODD_RATIO || ratio < 1 / ODD_RATIO || steps[i] > LONGEST_STEP_S;
    const missing = one_foot ? counts[i] / 2 - 1 : counts[i] - 1;
    // Two contacts of one foot within the time of a step: nothing is missing, one of them is wrong.
    return { steps: counts[i], missing: ratio < 1 / ODD_RATIO ? 0 : missing, step_s: steps[i], odd };
  });
}

/** @param least steps that each interval has at least; more come by twos, as the feet take turns */
function bestCounts(times: number[], least: number[]): number[] {
  let costs = [0];
  let before: number[] = [Number.NaN];
  const from: number[][] = [];
  const choices = times.map((_, i) =>
    Array.from({ length: Math.floor((MOST_STEPS - least[i]) / 2) + 1 }, (_count, k) => least[i] + 2 * k),
  );
  times.forEach((time, i) => {
    const steps = choices[i].map((count) => Math.log(time / count));
    const best = steps.map((step, k) => {
      const own =
        (choices[i][k] > least[i] ? MISSING_COST : 0) +
        STEP_COST * choices[i][k] +
        4 * Math.max(0, step - Math.log(LONGEST_STEP_S));
      let [cost, at] = [Number.POSITIVE_INFINITY, 0];
      before.forEach((earlier, j) => {
        const change = Number.isNaN(earlier) ? 0 : Math.abs(step - earlier);
        if (costs[j] + change < cost) [cost, at] = [costs[j] + change, j];
      });
      return { cost: cost + own, at };
    });
    costs = best.map(({ cost }) => cost);
    from.push(best.map(({ at }) => at));
    before = steps;
  });
  let at = costs.indexOf(Math.min(...costs));
  const counts: number[] = [];
  for (let i = times.length - 1; i >= 0; i--) {
    counts[i] = choices[i][at];
    at = from[i][at];
  }
  return counts;
}

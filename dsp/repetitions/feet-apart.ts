import type { Contact } from '../../shared/analysis.ts';
import { type Fault, fault } from '../../shared/fault.ts';
import { median } from '../numeric/statistics.ts';

/**
 * A foot comes down half way between two touchdowns of the other. Of sixteen people on plates (48 recordings) the one who runs least
 * evenly is off by 0.015 strides; from `told` on, three times that, it is said, and beyond `empty` (one step half as long again as the
 * other) nothing is built on the two feet together. Own choice.
 */
const STRIDES = { told: 0.05, empty: 0.1 };

/** Fewer strides of both feet than this tell nothing. */
const LEAST_STRIDES = 4;

/** Two touchdowns of one foot further apart than so many usual strides have a contact missing between them. */
const LONGEST = 1.3;

/** How far the right foot comes down from half way between two touchdowns of the left. */
export interface FeetApart {
  /** Later than half way, s: what two clocks would have to be apart, if the runner is even. */
  apart_s: number;
  /** Of one step after a left contact, and of one after a right contact, s. */
  after_left_s: number;
  after_right_s: number;
  /** Too far for anything that is built on both feet. */
  empty: boolean;
}

/**
 * Whether the two feet contradict one another: steps after one foot much longer than after the other. An uneven gait is seldom that
 * uneven; two sensors whose clocks are apart are.
 * @param rows contacts of one repetition in time order
 * @param between_feet_s_u how well the two clocks are known against each other, s
 * @returns null where one foot alone was recorded, where too few strides are whole, or where the feet agree
 */
export function feetApart(rows: readonly Contact[], between_feet_s_u: number): FeetApart | null {
  const of = (side: Contact['side']): number[] => rows.filter((row) => row.side === side).map((row) => row.touchdown_s);
  const [left, right] = [of('left'), of('right')];
  const strides = [left, right].flatMap((times) => times.slice(1).map((time, i) => time - times[i]));
  if (left.length === 0 || right.length === 0 || strides.length === 0) return null;
  const longest_s = LONGEST * median(strides);
  const later = [...later_s(left, right, longest_s), ...later_s(right, left, longest_s).map((s) => -s)];
  if (later.length < LEAST_STRIDES) return null;
  const [apart_s, stride_s] = [median(later), median(strides)];
  const share = (Math.abs(apart_s) - 2 * between_feet_s_u) / stride_s;
  if (share < STRIDES.told) return null;
  return {
    apart_s,
    after_left_s: stride_s / 2 + apart_s,
    after_right_s: stride_s / 2 - apart_s,
    empty: share >= STRIDES.empty,
  };
}

/** How much later than half way the other foot came down, for each whole stride in which it did so once, s. */
function later_s(own: readonly number[], other: readonly number[], longest_s: number): number[] {
  return own.slice(1).flatMap((to, i) => {
    const from = own[i];
    const within = other.filter((time) => time > from && time < to);
    return to - from <= longest_s && within.length === 1 ? [within[0] - (from + to) / 2] : [];
  });
}

/**
 * What is said of it.
 * @param repetition number of the repetition, from 1
 */
export function feetApartFaults(apart: FeetApart | null, repetition: number): Fault[] {
  if (!apart) return [];
  const { apart_s, after_left_s, after_right_s, empty } = apart;
  const values = { repetition, apart_s: Math.abs(apart_s), after_left_s, after_right_s, empty };
  return [fault('FEET_DISAGREE', values, { repetition })];
}

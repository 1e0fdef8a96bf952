import { type HeldPacket, leastArrival, type Run, SILENCE_PART } from './held-packets.ts';
import type { PacketGrid } from './packet-grid.ts';

/** A counter may run ahead of arrival by this much: while a stall at the beginning may still be draining, and later. */
const AHEAD_AT_FIRST_S = 3;
export const AHEAD_S = 0.15;
/** A packet this far behind the latest is late, repeated, or the first of a counter that began anew: seconds. */
const BEHIND_S = 0.5;
/** Stamp and counter, or arrival and counter, agree within this and a part of the time between, seconds. */
const AGREE_S = 0.05;
const AGREE_PART = 0.02;
/** Stamps so near to the host's clock have not jumped, seconds. */
const SURE_S = 0.03;
/** What is held is decided at the latest after so long, seconds. */
export const PATIENCE_S = 10;

/** The count of a packet that continues what came before; or why it cannot be told from this packet alone. */
export function countOfPacket(grid: PacketGrid, one: HeldPacket): number | 'silence' | 'doubt' {
  const { last, reader, count_s } = grid;
  const { pace_s, stamped } = reader;
  const elapsed_s = one.arrival_s - last.arrival_s;
  const stamp_step_s = grid.stampStep(one);
  const silent = elapsed_s > SILENCE_PART * grid.wrap_s;
  const stamps_fit = stamped && stamp_step_s > -PATIENCE_S && stamp_step_s < elapsed_s + AHEAD_AT_FIRST_S;
  if (silent && !stamps_fit) return 'silence';
  const count = grid.nearestCount(one, stamps_fit ? last.count + stamp_step_s / pace_s : last.count);
  if (stamped && !agree(stamp_step_s, (count - last.count) * pace_s)) return silent ? 'silence' : 'doubt';
  const late_s = grid.lateBy(one.arrival_s, count);
  if (-late_s > (grid.lateness.known && !stamped ? AHEAD_S : AHEAD_AT_FIRST_S)) return 'doubt';
  if (stamped) return count;
  if ((last.count - count) * count_s > BEHIND_S) return 'doubt';
  // So late that a wrap more would not be early: a part of what piled up may be lost.
  return late_s > grid.wrap_s - AHEAD_S ? 'silence' : count;
}

/** After a new link: whether the counter has gone on just as long as the link was away, which leaves no question. */
export function goesOnAsBefore(grid: PacketGrid, one: HeldPacket, rate_tolerance: number): boolean {
  const count = countOfPacket(grid, one);
  if (typeof count !== 'number' || count <= grid.last.count) return false;
  const away_s = one.arrival_s - grid.last.arrival_s;
  return Math.abs(grid.lateBy(one.arrival_s, count)) < 2 * AGREE_S + rate_tolerance * away_s;
}

export interface Continuation {
  /** Of the run's first packet. */
  count: number;
  /** What must be added to its stamps where these jumped; null where they went on, or there are none. */
  stamp_shift_s: number | null;
}

/** Where a run continues what came before: by stamps where these go on, else by arrival; null where it does not. */
export function continuationOf(grid: PacketGrid, run: Run, rate_tolerance: number): Continuation | null {
  const { last, reader, count_s } = grid;
  const [first] = run.packets;
  const by_arrival = (leastArrival(run, count_s) - grid.lateness.value_s) / count_s;
  const late_s = grid.stampsLate(run);
  if (late_s !== null && stampsGoOn(late_s)) {
    const step_s = grid.stampStep(first);
    const count = grid.nearestCount(first, last.count + step_s / reader.pace_s);
    if (agree(step_s, (count - last.count) * reader.pace_s)) return { count, stamp_shift_s: null };
    // Stamps that keep step with the host's clock are right, and the counter is not.
    if (Math.abs(late_s) < SURE_S) return null;
  }
  const near = grid.nearestCount(first, last.count);
  const silent = first.arrival_s - last.arrival_s > SILENCE_PART * grid.wrap_s;
  // A counter that has gone on, no further than the time allows, is right even where its packets come late.
  const on = reader.stamped && !silent && near > last.count && near <= by_arrival + AGREE_S / count_s;
  const count = on ? near : grid.nearestCount(first, by_arrival);
  const tolerance_s = AGREE_S + rate_tolerance * Math.abs(by_arrival - last.count) * count_s;
  if (tolerance_s > grid.wrap_s / 3) return null;
  if (!on && Math.abs(count - by_arrival) * count_s > tolerance_s) return null;
  if (!reader.stamped) return { count, stamp_shift_s: null };
  return { count, stamp_shift_s: last.stamp_s + (count - last.count) * reader.pace_s - first.stamp_s! };
}

/** The place of a run from before the one that decided, where only one is possible; else null. */
export function onlyCountOf(grid: PacketGrid, run: Run, next_count: number | null): number | null {
  if (!grid.begun) return null;
  const { last, reader, count_s } = grid;
  const [first] = run.packets;
  const latest = last.count + (first.arrival_s - last.arrival_s + AHEAD_S) / count_s;
  const limit = Math.min(next_count ?? Infinity, latest);
  const count = grid.nearestCount(first, last.count);
  const places = count <= last.count ? 1 : Math.floor((limit - count) / reader.modulus) + 1 || 1;
  const stamps_agree = !reader.stamped || agree(grid.stampStep(first), (count - last.count) * reader.pace_s);
  return places === 1 && count < limit && stamps_agree ? count : null;
}

/** Whether stamps have gone on as the host's clock has, but for packets that may be late. */
export function stampsGoOn(late_s: number): boolean {
  return late_s > -0.5 && late_s < PATIENCE_S;
}

/** Two lengths of time are the same, but for jitter and a part of it. */
function agree(a_s: number, b_s: number): boolean {
  return Math.abs(a_s - b_s) < AGREE_S + AGREE_PART * Math.max(Math.abs(a_s), Math.abs(b_s));
}
